#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QFrame>

#include <map>

class QLabel;

namespace widgets
{
class UndoButtons;
}

namespace shell
{

/// What is saved, how far the examination has come, and what can be taken back.
class StatusLine : public QFrame
{
    Q_OBJECT

public:
    StatusLine(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void undo();
    void redo();
    /// Tests answered, of those on the form; 0 of 0 says nothing.
    void setProgress(int done, int expected);
    /// What the page shown compares with; empty: with the reference visit.
    void setComparedWith(const QString& words);
    QString words() const;

private:
    void settle();
    void noteSaved(const session::Fact& fact, const records::VisitId& visit);
    QString savedWords(const records::VisitId& visit) const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    std::optional<records::VisitId> m_draft; ///< that showed last
    int m_done = 0;
    int m_expected = 0;
    QString m_comparedWith;
    std::map<records::VisitId, QDateTime> m_savedAt; ///< of the drafts changed since the window opened
    QLabel* m_words;
    QLabel* m_lines;
    widgets::UndoButtons* m_undo;
};

} // namespace shell
