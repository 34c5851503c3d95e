#include "app/widgets/number_field.h"

#include "app/widgets/theme.h"

#include <QKeyEvent>
#include <QPainter>

namespace widgets
{

NumberField::NumberField(const QString& unit, const QString& commands, QWidget* parent)
    : QLineEdit(parent), m_unit(unit), m_commands(commands)
{
    setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    setMaxLength(12);
    makeRoom();
}

void NumberField::makeRoom()
{
    const int unit = m_unit.isEmpty() ? 0 : QFontMetrics(captionFont()).horizontalAdvance(m_unit) + space2;
    setTextMargins(isRightToLeft() ? unit : 0, 0, isRightToLeft() ? 0 : unit, 0);
}

void NumberField::setRefused(bool refused)
{
    dress(*this, "wrong", refused);
}

/// Undo is the session's: the line keeps no history of its own that would come before it.
bool NumberField::event(QEvent* event)
{
    if (event->type() == QEvent::ShortcutOverride) {
        auto* key = static_cast<QKeyEvent*>(event);
        if (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo)) {
            Q_EMIT left();
            event->ignore();
            return false;
        }
    }
    return QLineEdit::event(event);
}

void NumberField::keyPressEvent(QKeyEvent* event)
{
    const bool isPlain = (event->modifiers() & ~(Qt::KeypadModifier | Qt::ShiftModifier)) == Qt::NoModifier;
    const QString text = event->text().toLower();
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        Q_EMIT entered();
    else if (event->matches(QKeySequence::Undo) || event->matches(QKeySequence::Redo))
        event->ignore();
    else if (isPlain && !isReadOnly() && text.size() == 1 && m_commands.contains(text))
        Q_EMIT commandTyped(text.front());
    else
        QLineEdit::keyPressEvent(event);
}

void NumberField::focusOutEvent(QFocusEvent* event)
{
    QLineEdit::focusOutEvent(event);
    if (event->reason() != Qt::PopupFocusReason)
        Q_EMIT left();
}

void NumberField::changeEvent(QEvent* event)
{
    QLineEdit::changeEvent(event);
    if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange)
        makeRoom();
}

void NumberField::paintEvent(QPaintEvent* event)
{
    QLineEdit::paintEvent(event);
    const Colours& colours = coloursFor(palette());
    QPainter painter(this);
    painter.setFont(captionFont());
    painter.setPen(colours.quiet);
    painter.drawText(rect().adjusted(space2, 0, -space2, 0), Qt::AlignVCenter | Qt::AlignTrailing, m_unit);
}

} // namespace widgets
