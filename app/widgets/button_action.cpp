#include "app/widgets/button_action.h"

#include <QAbstractButton>
#include <QAbstractScrollArea>
#include <QEvent>

namespace widgets
{

ButtonAction::ButtonAction(QAbstractButton& button, QWidget& list) : QAction(&list), m_button(button)
{
    setObjectName(button.objectName());
    list.setContextMenuPolicy(Qt::ActionsContextMenu);
    list.installEventFilter(this); // of the Menu key
    if (auto* area = qobject_cast<QAbstractScrollArea*>(&list))
        area->viewport()->installEventFilter(this); // of the mouse
    connect(this, &QAction::triggered, &button, &QAbstractButton::click);
    follow();
}

void ButtonAction::follow()
{
    setText(m_button.text());
    setEnabled(m_button.isEnabled());
    setVisible(!m_button.isHidden());
}

bool ButtonAction::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::ContextMenu)
        follow();
    return QAction::eventFilter(watched, event);
}

} // namespace widgets
