#include "app/own/entry_page.h"

#include "app/session/messages.h"
#include "app/widgets/notice.h"
#include "app/widgets/theme.h"
#include "core/catalogue/own.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace own
{

EntryPage::EntryPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_title(new QLabel(this)),
      m_notice(new widgets::Notice(this))
{
    m_title->setFont(widgets::titleFont());
    m_title->setTextFormat(Qt::PlainText);
}

void EntryPage::layOut(QWidget* fields, bool scrolls, const QString& saveWords)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(m_title);
    column->addWidget(m_notice);
    if (scrolls) {
        fields->setObjectName(u"page"_s);
        auto* scroll = new QScrollArea(this);
        scroll->setWidgetResizable(true);
        scroll->setFocusPolicy(Qt::NoFocus);
        scroll->setWidget(fields);
        column->addWidget(scroll, 1);
    } else {
        column->addWidget(fields, 1);
    }
    addAnswers(*column, saveWords);
}

void EntryPage::addAnswers(QVBoxLayout& column, const QString& saveWords)
{
    auto* save = new QPushButton(saveWords, this);
    save->setObjectName(u"saveEntry"_s);
    save->setProperty("kind", u"primary"_s);
    save->setToolTip(tr("Ctrl+S"));
    auto* cancel = new QPushButton(tr("Cancel"), this);
    cancel->setObjectName(u"cancelEntry"_s);
    auto* row = new QHBoxLayout;
    row->setSpacing(widgets::space2);
    row->addWidget(save);
    row->addWidget(cancel);
    row->addStretch();
    column.addLayout(row);
    connect(save, &QPushButton::clicked, this, [this] { this->save(); });
    connect(cancel, &QPushButton::clicked, this, &EntryPage::cancel);
    const auto bind = [this](const QKeySequence& keys, auto act) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, act);
    };
    bind(Qt::CTRL | Qt::Key_S, [this] { this->save(); });
    bind(Qt::Key_Escape, [this] { this->cancel(); });
}

void EntryPage::setTitle(const QString& title)
{
    m_title->setText(title);
}

void EntryPage::say(const QString& words)
{
    m_notice->say(widgets::Notice::Kind::Caution, words);
}

void EntryPage::clearNotice()
{
    m_notice->clear();
}

void EntryPage::keep(const catalogue::Own& own, const QString& id)
{
    if (const auto kept = m_session.saveOwn(own))
        Q_EMIT saved(id);
    else
        m_notice->say(widgets::Notice::Kind::Danger,
                      tr("Not saved. %1").arg(session::sentence(kept.error())));
}

void EntryPage::cancel()
{
    if (isChanged() && !m_prompts.mayLose(tr("Throw away what you typed?"),
                                          tr("What was saved before stays as it is."), tr("Throw away")))
        return;
    Q_EMIT cancelled();
}

} // namespace own
