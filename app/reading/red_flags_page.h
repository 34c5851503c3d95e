#pragma once

#include "app/reading/red_flag_draft.h"
#include "app/session/prompts.h"

#include <QWidget>

#include <map>
#include <vector>

class QLabel;
class QScrollArea;
class QStackedLayout;

namespace widgets
{
class EmptyState;
}

namespace reading
{

class RedFlagRow;

/// The questions about red flags of the visit in focus, answered with y, n and Backspace; up and down go from
/// one to the next. Beside them stands what is recorded and may matter, as facts without a verdict.
class RedFlagsPage : public QWidget
{
    Q_OBJECT

public:
    RedFlagsPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

    /// Goes to a question: to what was done about it, where it was answered yes.
    void showFlag(const QString& flag);
    /// What stands on the page and is not recorded, a line each.
    QStringList unsaved() const;
    void showUnsaved();

protected:
    void focusInEvent(QFocusEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    QWidget* madeAside();
    void buildRows();
    void settle(); ///< the session looks at another visit
    void refresh();
    void showFacts();
    void showUrgency(const QString& flag);
    void give(RedFlagRow* row, std::optional<bool> isYes);
    void acknowledge(RedFlagRow* row);
    void move(const RedFlagRow* from, int step);

    session::Session& m_session;
    session::Prompts& m_prompts;
    RedFlagDraft m_draft;
    QStackedLayout* m_pages;
    widgets::EmptyState* m_empty;
    QScrollArea* m_scroll;
    QLabel* m_urgency;
    QLabel* m_facts;
    QLabel* m_counted;
    std::vector<RedFlagRow*> m_rows;
    QString m_current; ///< the question in use
};

} // namespace reading
