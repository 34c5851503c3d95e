#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QMenu;
class QPushButton;
class QStackedWidget;
class QTabBar;
class QToolButton;

namespace happenings
{
class AskedLine;
}

namespace visits
{
class ExaminationPage;
}

namespace changes
{
class ChangePage;
}

namespace reading
{
class PatternsPage;
class RedFlagsPage;
} // namespace reading

namespace writing
{
class LettersPage;
}

namespace shell
{

class StatusLine;
class VisitActions;
class VisitRibbon;

/// Everything about one patient: identity, the visit ribbon, what can be done with the visit, and the pages
/// that follow the two lines.
class PatientPage : public QWidget
{
    Q_OBJECT

public:
    PatientPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

    VisitActions& actions() { return *m_actions; }
    StatusLine& status() { return *m_status; }
    VisitRibbon& ribbon() { return *m_ribbon; }
    static constexpr int tabCount = 6; ///< Examination, Change, Trend, Letters, Red flags, Patterns
    /// Shows a page and gives it the keyboard.
    void showTab(int tab);
    int tab() const;
    void takeKeyboard();
    void showMeasure(const QString& id);
    void sign(); ///< the visit; on the page of letters the draft of a letter that is open
    /// What stands in the examination and is not recorded, a line each.
    QStringList unsaved() const;
    void showHappenings(); ///< what happened between visits, with an entry for a new one
    void chooseForm();     ///< opens the menu of forms for a new visit

Q_SIGNALS:
    void editAsked(const records::PatientId& id);
    void handbookAsked(const QString& measure);
    void patternsAsked(); ///< to edit them

private:
    QWidget* madeVisitBar();
    QWidget* madeVisitButtons();
    QToolButton* madeFormButton(QWidget* parent);
    void fillForms(QMenu& today, QMenu& earlier);
    void addPages();
    void addPage(const QString& title, QWidget* page);
    void settle();
    void showVersions();

    session::Session& m_session;
    session::Prompts& m_prompts;
    VisitActions* m_actions;
    VisitRibbon* m_ribbon;
    happenings::AskedLine* m_asked;
    StatusLine* m_status;
    visits::ExaminationPage* m_examination = nullptr;
    changes::ChangePage* m_changes = nullptr;
    writing::LettersPage* m_letters = nullptr;
    reading::RedFlagsPage* m_redFlags = nullptr;
    QTabBar* m_tabs;
    QStackedWidget* m_pages;
    QToolButton* m_withForm = nullptr;
    QPushButton* m_versions = nullptr;
    QPushButton* m_discard = nullptr;
    QPushButton* m_inError = nullptr;
    QPushButton* m_amend = nullptr;
    QPushButton* m_sign = nullptr;
};

} // namespace shell
