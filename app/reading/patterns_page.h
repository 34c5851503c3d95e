#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QPushButton;
class QStackedLayout;
class QTextBrowser;

namespace widgets
{
class EmptyState;
}

namespace reading
{

/// The patterns in the visit in focus: for each what supports it, what contradicts it and what was not
/// tested. It can be copied, and kept as a PDF; a finding leads to its test.
class PatternsPage : public QWidget
{
    Q_OBJECT

public:
    PatternsPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

Q_SIGNALS:
    void measureAsked(const QString& id);
    void editAsked(); ///< of the patterns themselves

protected:
    void changeEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    void refresh();
    void copy();
    void save();
    void print();
    QPushButton* addAct(const QString& text, const QString& name);

    session::Session& m_session;
    session::Prompts& m_prompts;
    QStackedLayout* m_pages;
    widgets::EmptyState* m_empty;
    QTextBrowser* m_text;
    QWidget* m_acts;
};

} // namespace reading
