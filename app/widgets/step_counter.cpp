#include "app/widgets/step_counter.h"

#include "app/widgets/theme.h"

#include <QKeyEvent>
#include <QPainter>

namespace widgets
{

StepCounter::StepCounter(QWidget* parent) : QAbstractButton(parent)
{
    setFocusPolicy(Qt::ClickFocus);
    setCursor(Qt::PointingHandCursor);
    setAccessibleName(tr("Step counter"));
}

void StepCounter::begin(int most, bool withMissteps)
{
    cancel();
    m_most = most;
    m_withMissteps = withMissteps;
    setToolTip(withMissteps ? tr("Space or a click counts a step on the line, S or a right click one beside "
                                 "it. Tab keeps the "
                                 "count, Escape drops it.")
                            : tr("Space or a click counts a step. Tab keeps the count, Escape drops it."));
}

void StepCounter::setStanding(std::optional<int> count)
{
    m_standing = count;
    update();
}

void StepCounter::cancel()
{
    m_steps = 0;
    m_inARow = 0;
    m_missteps = 0;
    update();
}

void StepCounter::step(bool isMisstep)
{
    ++(isMisstep ? m_missteps : m_steps);
    if (m_missteps == 0)
        ++m_inARow;
    update();
    if (m_steps + m_missteps >= m_most)
        finish();
}

void StepCounter::finish()
{
    if (!isRunning())
        return;
    const int inARow = m_inARow;
    const bool isWhole = m_withMissteps && m_steps + m_missteps >= m_most;
    const auto missteps = isWhole ? std::optional(m_missteps) : std::nullopt;
    cancel();
    Q_EMIT counted(inARow, missteps);
}

QSize StepCounter::sizeHint() const
{
    return {160, 64};
}

void StepCounter::keyPressEvent(QKeyEvent* event)
{
    const int key = event->key();
    if (event->isAutoRepeat())
        return;
    if (key == Qt::Key_Space || key == Qt::Key_Return || key == Qt::Key_Enter) {
        step(false);
    } else if (key == Qt::Key_S && event->modifiers() == Qt::NoModifier && m_withMissteps) {
        step(true);
    } else if (key == Qt::Key_Escape) {
        cancel();
        Q_EMIT left();
    } else {
        QAbstractButton::keyPressEvent(event);
    }
}

void StepCounter::mousePressEvent(QMouseEvent* event)
{
    if (event->button() == Qt::LeftButton || m_withMissteps)
        step(event->button() != Qt::LeftButton);
}

/// Nobody who has gone elsewhere says that the count was done.
void StepCounter::focusOutEvent(QFocusEvent* event)
{
    QAbstractButton::focusOutEvent(event);
    if (event->reason() == Qt::ActiveWindowFocusReason || event->reason() == Qt::PopupFocusReason ||
        !isRunning())
        return;
    cancel();
    Q_EMIT dropped();
}

bool StepCounter::focusNextPrevChild(bool forward)
{
    finish();
    Q_EMIT passed(forward);
    return true;
}

void StepCounter::paintEvent(QPaintEvent*)
{
    const Colours& colours = coloursFor(palette());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colours.accent, hasFocus() ? 2.5 : 1.5));
    painter.setBrush(isRunning() ? colours.accent : underMouse() ? colours.accentSoft : colours.panel);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 8, 8);
    painter.setPen(isRunning() ? colours.onAccent : colours.accent);
    painter.setFont(headingFont());
    const QRect room = rect().adjusted(0, space1, 0, -space1);
    const QString counted = !isRunning() ? (m_standing ? QString::number(*m_standing) : tr("Count steps"))
                            : !m_withMissteps
                                ? QString::number(m_steps)
                                : tr("%1 · %2 beside", "steps, missteps").arg(m_steps).arg(m_missteps);
    painter.drawText(room.adjusted(0, 0, 0, -room.height() * 2 / 5), Qt::AlignCenter, counted);
    painter.setFont(captionFont());
    painter.drawText(room.adjusted(0, room.height() * 3 / 5, 0, 0), Qt::AlignCenter,
                     isRunning()      ? tr("Tab keeps it")
                     : !hasFocus()    ? tr("Space")
                     : m_withMissteps ? tr("Space: step · S: beside")
                                      : tr("Space: step"));
}

} // namespace widgets
