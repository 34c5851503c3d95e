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
    setProperty("dense", true);
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

namespace
{

/// A letter or a space that the key would write, whatever is held down with it.
bool isLetter(const QKeyEvent& event)
{
    const Qt::KeyboardModifiers held = event.modifiers() & ~(Qt::KeypadModifier | Qt::ShiftModifier);
    const QString text = event.text();
    return held != Qt::ControlModifier && !text.isEmpty() &&
           (text.front().isLetter() || text.front() == u' ');
}

} // namespace

void NumberField::keyPressEvent(QKeyEvent* event)
{
    const bool isPlain = (event->modifiers() & ~(Qt::KeypadModifier | Qt::ShiftModifier)) == Qt::NoModifier;
    const QString typed = event->text().toLower();
    const bool isForOthers = event->matches(QKeySequence::Undo) || event->matches(QKeySequence::Redo) ||
                             (isLetter(*event) && (isReadOnly() || !isPlain));
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        Q_EMIT entered();
    else if (isForOthers)
        event->ignore();
    else if ((event->key() == Qt::Key_Delete || event->key() == Qt::Key_Backspace) && text().isEmpty() &&
             !isReadOnly())
        Q_EMIT emptied();
    else if (isPlain && !typed.isEmpty() && m_commands.contains(typed.front()))
        Q_EMIT commandTyped(typed.front());
    else if (isLetter(*event))
        Q_EMIT letterTyped(typed.front());
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
