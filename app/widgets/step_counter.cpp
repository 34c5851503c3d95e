#include "app/widgets/step_counter.h"

#include "app/widgets/big_key.h"

#include <QKeyEvent>

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
    return {160, 52};
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
    const QString counted = !isRunning() ? (m_standing ? QString::number(*m_standing) : tr("Count steps"))
                            : !m_withMissteps
                                ? QString::number(m_steps)
                                : tr("%1 · %2 beside", "steps, missteps").arg(m_steps).arg(m_missteps);
    drawBigKey(*this, isRunning(), counted,
               isRunning()      ? tr("Tab keeps it")
               : !hasFocus()    ? tr("Space")
               : m_withMissteps ? tr("Space: step · S: beside")
                                : tr("Space: step"));
}

} // namespace widgets
