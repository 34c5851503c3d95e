#include "app/widgets/undo_buttons.h"

#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

/// What stands on a button, without the "&" that would underline, and cut short where a reason is long.
QString onButton(const QString& words)
{
    constexpr int most = 40;
    const QString shown = words.size() > most ? words.left(most - 1) + u'…' : words;
    return QString(shown).replace(u'&', u"&&"_s);
}

} // namespace

UndoButtons::UndoButtons(const QString& name, QWidget* parent)
    : QWidget(parent), m_undo(new QPushButton(this)), m_redo(new QPushButton(this))
{
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(space2);
    for (QPushButton* button : {m_undo, m_redo}) {
        button->setProperty("kind", u"quiet"_s);
        row->addWidget(button);
    }
    m_undo->setObjectName(u"undo"_s + name);
    m_redo->setObjectName(u"redo"_s + name);
    connect(m_undo, &QPushButton::clicked, this, &UndoButtons::undoAsked);
    connect(m_redo, &QPushButton::clicked, this, &UndoButtons::redoAsked);
    say({}, {});
}

void UndoButtons::say(const QString& done, const QString& undone)
{
    m_undo->setVisible(!done.isEmpty());
    m_redo->setVisible(!undone.isEmpty());
    m_undo->setText(tr("Undo “%1”").arg(onButton(done)));
    m_redo->setText(tr("Redo “%1”").arg(onButton(undone)));
    m_undo->setToolTip(tr("%1. Key: Ctrl+Z").arg(done));
    m_redo->setToolTip(tr("%1. Key: Ctrl+Shift+Z").arg(undone));
}

} // namespace widgets
