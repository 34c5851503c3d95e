#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QLabel;
class QVBoxLayout;

namespace widgets
{
class Notice;
}

namespace own
{

/// What the editors of the clinic's own entries share: a title, a line for what is wrong, the save and the
/// way back. What was typed is kept until it is saved or thrown away.
class EntryPage : public QWidget
{
    Q_OBJECT

public:
    virtual bool isChanged() const = 0;
    void say(const QString& words);

Q_SIGNALS:
    void saved(const QString& id);
    void cancelled();

protected:
    EntryPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

    virtual void save() = 0;
    /// Puts the fields between the title and the answers, in a page that scrolls where it is wished.
    void layOut(QWidget* fields, bool scrolls, const QString& saveWords);
    void setTitle(const QString& title);
    void clearNotice();
    /// Saves the clinic's part; says why where that is refused.
    void keep(const catalogue::Own& own, const QString& id);

    session::Session& m_session;
    session::Prompts& m_prompts;

private:
    void addAnswers(QVBoxLayout& column, const QString& saveWords);
    void cancel();

    QLabel* m_title;
    widgets::Notice* m_notice;
};

} // namespace own
