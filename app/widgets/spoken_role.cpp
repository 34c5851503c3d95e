#include "app/widgets/spoken_role.h"

#include <QAccessibleWidget>

namespace widgets
{

namespace
{

constexpr auto roleProperty = "spokenRole";

QAccessibleInterface* withSpokenRole(const QString&, QObject* object)
{
    auto* widget = qobject_cast<QWidget*>(object);
    const QVariant role = widget == nullptr ? QVariant() : widget->property(roleProperty);
    return role.isValid() ? new QAccessibleWidget(widget, QAccessible::Role(role.toInt())) : nullptr;
}

} // namespace

void setSpokenRole(QWidget& widget, QAccessible::Role role)
{
    static const bool isInstalled = [] {
        QAccessible::installFactory(withSpokenRole);
        return true;
    }();
    Q_UNUSED(isInstalled)
    widget.setProperty(roleProperty, int(role));
}

} // namespace widgets
