#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"
#include "app/visits/visit_draft.h"

#include <QTimer>
#include <QWidget>

#include <map>

class QPushButton;
class QScrollArea;
class QStackedLayout;
class QVBoxLayout;

namespace widgets
{
class EmptyState;
class Notice;
} // namespace widgets

namespace visits
{

class ConditionsLine;
class FocusStrip;
class SectionBox;
class SideField;
class StepBar;

/// The examination form of the visit in focus, built from its catalogue form. Every change is saved as it is
/// made.
class ExaminationPage : public QWidget
{
    Q_OBJECT

public:
    ExaminationPage(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);
    ~ExaminationPage() override;

    /// Unfolds, scrolls to and enters the test.
    void showMeasure(const QString& id);
    /// Opens the conditions, at one of them.
    void openConditions(const QString& condition);
    /// Gives the keyboard to the field in use.
    void takeKeyboard();
    int done() const { return m_progress.done; }         ///< expected tests answered on every side
    int expected() const { return m_progress.expected; } ///< tests asked for each time; 0 without a visit
    /// Says now what waits for the next pause in typing to be said, and tries again what could not be saved.
    void flush();
    /// What stands in the form and is not recorded, a line each: a refused text, a state without its reason.
    QStringList unsaved() const;
    /// Goes to the first field of those.
    void showUnsaved();
    QSize minimumSizeHint() const override;

Q_SIGNALS:
    void progressChanged();
    void handbookAsked(const QString& measure); ///< the page that says how it is done

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void layOut();
    void bindKeys();
    void takeFocus(); ///< the session looks at another visit
    void buildForm(std::vector<FormSection> form);
    void showVisit(const records::Visit& visit);
    void refresh(const records::VisitId& id);
    void refreshEarlier();
    void refreshMeanings();
    QString followingWords(const catalogue::Measure& choice, const records::Visit& visit) const;
    void refreshProgress(const records::Visit& visit);
    void showConditions(const records::Visit& visit);
    void showStrip();
    void showStanding(const records::Visit& visit);

    void makeCurrent(SideField* field);
    void goTo(SideField* field);
    void goOn(SideField* field);
    void goToOpen(const Place& from);
    void goToOpenOf(const SectionBox& box);
    void settleCurrent();
    void enter(SideField* field);
    void save(SideField* field, const Entry& entry);
    void clear(SideField* field);
    void takeBack(SideField* field);
    void chooseAbsence(SideField* field, values::Absence absence);
    void giveReason(const Place& place, const QString& reason, session::Typing typing);
    void giveNote(const Place& place, const QString& note, session::Typing typing);
    void giveSigns(const Place& place, const QStringList& signs);
    void time(const Place& place, qint64 milliseconds);
    void count(const Place& place, int inARow, std::optional<int> missteps);
    SideField* firstUnsaved() const;
    void holdTexts();
    void told(const base::Result<void>& result);
    void confirmConditions();
    void writeAllNormal(SectionBox* box);
    void amend();
    void startVisit();

    SideField* fieldAt(const Place& place) const;
    SectionBox* boxOf(const SideField* field) const;
    void goToSection(int step);
    void resume();
    void showWhole(const SideField& field);
    void shareWidth();
    void setOneAtATime(bool one);
    void step(int step); ///< to another test of those that one goes through
    void showOne();
    void speak();
    void settleHeight();
    void placeTop(bool inForm);
    void showTop();
    bool takeTouch(QEvent& event);

    session::Session& m_session;
    session::Prompts& m_prompts;
    VisitDraft m_draft;
    QStackedLayout* m_pages;
    widgets::EmptyState* m_empty;
    widgets::Notice* m_signed;
    QPushButton* m_amend;
    ConditionsLine* m_conditions;
    QScrollArea* m_scroll;
    StepBar* m_steps;
    QWidget* m_top;     ///< conditions and m_one; it scrolls with the form where letters are large
    QPushButton* m_one; ///< turns the form to one test at a time and back
    FocusStrip* m_strip;
    QWidget* m_body = nullptr;
    std::vector<FormSection> m_form; ///< built on the page
    std::vector<SectionBox*> m_sections;
    std::map<Place, SideField*> m_fields;
    SideField* m_current = nullptr;
    Progress m_progress;
    Place m_toSpeak;   ///< of the value kept last
    QTimer m_speaking; ///< waits until the hand rests
    QTimer m_later;    ///< what a change means is worked out when the keyboard rests
    records::Conditions m_conditionsShown;
    bool m_earlierIsStale = true;
    bool m_wasReadOnly = false;
    bool m_resumed = false;
};

} // namespace visits
