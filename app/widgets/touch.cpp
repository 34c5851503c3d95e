#include "app/widgets/touch.h"

#include "app/widgets/theme.h"

#include <QAbstractButton>
#include <QComboBox>
#include <QLineEdit>
#include <QTouchEvent>

namespace widgets
{

namespace
{

constexpr double leastWipe = 80; ///< px along, and no more than half of it across

bool isTarget(const QWidget& widget)
{
    const bool isInList = qobject_cast<const QComboBox*>(widget.parentWidget()) != nullptr;
    return !isInList && (qobject_cast<const QAbstractButton*>(&widget) != nullptr ||
                         qobject_cast<const QComboBox*>(&widget) != nullptr ||
                         qobject_cast<const QLineEdit*>(&widget) != nullptr);
}

} // namespace

void setTouch(QWidget& root, bool touch)
{
    const auto all = root.findChildren<QWidget*>();
    for (QWidget* widget : all) {
        if (isTarget(*widget) && widget->minimumHeight() != widget->maximumHeight())
            widget->setMinimumHeight(touch ? touchHeight : 0);
    }
}

int wiped(const QTouchEvent& event)
{
    if (event.points().size() != 1)
        return 0;
    const QEventPoint& finger = event.points().front();
    const QPointF way = finger.position() - finger.pressPosition();
    if (std::abs(way.x()) < leastWipe || std::abs(way.y()) > std::abs(way.x()) / 2)
        return 0;
    return way.x() > 0 ? -1 : 1;
}

void tap(const QWidget& widget, const QTouchEvent& event)
{
    for (QWidget* target = widget.childAt(event.points().front().position().toPoint());
         target != nullptr && target != &widget; target = target->parentWidget()) {
        if (auto* button = qobject_cast<QAbstractButton*>(target)) {
            button->click();
            return;
        }
        if (qobject_cast<QLineEdit*>(target) != nullptr) {
            target->setFocus(Qt::MouseFocusReason);
            return;
        }
    }
}

} // namespace widgets
