#pragma once

#include "app/changes/change_model.h"
#include "app/session/prompts.h"
#include "app/session/session.h"
#include "core/judging/target_progress.h"
#include "core/records/as_of.h"

#include <QWidget>

class QLabel;
class QPushButton;
class QStackedWidget;
class QTableView;
class QTextBrowser;

namespace widgets
{
class EmptyState;
class Notice;
class SummaryCard;
} // namespace widgets

namespace changes
{

class EqualityLine;
class RowChooser;
class TableBar;

/// What is new at this visit: the lines a colleague would say at the door, then a row a result by weight, the
/// one in focus explained in a sentence, its arithmetic and source on request.
class ChangePage : public QWidget
{
    Q_OBJECT

public:
    ChangePage(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

    QString comparedWith() const; ///< "whole course", "reference visit, 12-Mar-2026"

Q_SIGNALS:
    void compared(); ///< with something else, perhaps

protected:
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    /// A line of the table, found again by its result where it is one.
    struct Place {
        QString measure;
        records::Side side = records::Side::None;
        int line = -1;
    };

    QWidget* makeTable();
    QWidget* makeSentence();
    void follow();
    void refresh();
    void sayOfTheVisit(const records::Visit& now);
    void compare();
    void arrange(const Place& before);
    Place placeInFocus() const;
    void explain();
    bool openOrClose(); ///< the fold in focus; false where there is none
    void showMore(bool isShown);
    QString composite() const;
    void openTarget(); ///< of the row in focus
    void sayWhatIsMissing();

    session::Session& m_session;
    session::Prompts& m_prompts;
    ChangeModel* m_model;
    QLabel* m_visit; ///< what the lines are of
    widgets::SummaryCard* m_head;
    widgets::Notice* m_composite;
    TableBar* m_bar;
    QLabel* m_byChance;
    QTableView* m_table;
    QLabel* m_sentence = nullptr;
    QPushButton* m_more = nullptr;
    QPushButton* m_target = nullptr;
    QTextBrowser* m_detail = nullptr;
    RowChooser* m_rowChooser = nullptr;
    EqualityLine* m_equality = nullptr;
    widgets::EmptyState* m_empty;
    QStackedWidget* m_pages;
    records::AsOf m_until; ///< the visit in focus and those before it
    std::optional<judging::Glance> m_glance;
    std::vector<judging::TargetProgress> m_targets;
    std::optional<records::PatientId> m_patient;
    std::optional<records::VisitId> m_lastReference;
    bool m_isStale = true; ///< hidden while something changed
};

} // namespace changes
