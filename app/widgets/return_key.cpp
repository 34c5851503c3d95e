#include "app/widgets/return_key.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QPushButton>
#include <QToolButton>

namespace widgets
{

namespace
{

bool isReturn(const QKeyEvent& event)
{
    return (event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter) &&
           (event.modifiers() & ~Qt::KeypadModifier) == Qt::NoModifier && !event.isAutoRepeat();
}

} // namespace

ReturnPresses::ReturnPresses(QCoreApplication& application)
{
    application.installEventFilter(this);
}

bool ReturnPresses::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::KeyPress || !isReturn(*static_cast<QKeyEvent*>(event)))
        return false;
    QAbstractButton* button = qobject_cast<QPushButton*>(watched);
    if (button == nullptr)
        button = qobject_cast<QToolButton*>(watched);
    if (button == nullptr || !button->isEnabled())
        return false;
    button->click();
    return true;
}

} // namespace widgets
