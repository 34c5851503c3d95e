#include "tests/support/screen_audit.h"

#include "app/widgets/elided_label.h"

#include <QAbstractButton>
#include <QAbstractScrollArea>
#include <QAbstractSlider>
#include <QAccessible>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QScrollBar>
#include <QTabBar>
#include <QWidget>

#include <algorithm>

namespace screen_audit
{

using namespace Qt::StringLiterals;

namespace
{

QString nameOf(const QWidget& widget)
{
    const QString name = widget.objectName().isEmpty() ? widget.accessibleName() : widget.objectName();
    return u"%1 “%2”"_s.arg(QLatin1String(widget.metaObject()->className()), name);
}

QString nameOf(const QAccessibleInterface& thing)
{
    const QString name = thing.text(QAccessible::Name);
    const QAccessibleInterface* around = thing.parent();
    return (around != nullptr && around->object() != nullptr
                ? u"in "_s + around->object()->objectName() + u": "_s
                : QString()) +
           (thing.object() != nullptr ? QLatin1String(thing.object()->metaObject()->className()) + u' ' +
                                            thing.object()->objectName() + u' '
                                      : QString()) +
           u"“%1” of role %2"_s.arg(name).arg(int(thing.role()));
}

/// Those that AT-SPI 2 tells as unknown, filler, panel or invalid.
bool saysNothing(QAccessible::Role role)
{
    using Role = QAccessible::Role;
    return role == Role::NoRole || role == Role::Client || role == Role::Pane || role == Role::Whitespace ||
           role == Role::Border || role == Role::LayeredPane || role == Role::Grouping;
}

bool isPressed(QAccessible::Role role)
{
    using Role = QAccessible::Role;
    return role == Role::Button || role == Role::CheckBox || role == Role::RadioButton ||
           role == Role::ButtonMenu || role == Role::ComboBox;
}

bool canBeSet(QAccessibleInterface& thing)
{
    if (isPressed(thing.role()))
        return thing.actionInterface() != nullptr && !thing.actionInterface()->actionNames().isEmpty();
    if (thing.role() == QAccessible::EditableText)
        return thing.state().readOnly || thing.editableTextInterface() != nullptr;
    if (thing.role() == QAccessible::SpinBox || thing.role() == QAccessible::Slider)
        return thing.valueInterface() != nullptr;
    return true;
}

void listen(QAccessibleInterface* thing, Stops& stops)
{
    if (thing == nullptr || thing->state().invisible)
        return;
    if (thing->state().focusable && !thing->state().disabled && thing->isValid()) {
        ++stops.count;
        if (thing->text(QAccessible::Name).trimmed().isEmpty())
            stops.nameless += nameOf(*thing);
        if (saysNothing(thing->role()))
            stops.ofNoRole += nameOf(*thing);
        if (!canBeSet(*thing))
            stops.unsettable += nameOf(*thing);
    }
    for (int child = 0; child < thing->childCount(); ++child)
        listen(thing->child(child), stops);
}

std::vector<QWidget*> shownIn(QWidget& screen)
{
    std::vector<QWidget*> shown;
    for (QWidget* widget : screen.findChildren<QWidget*>()) {
        if (widget->isVisibleTo(&screen) && !widget->visibleRegion().isNull())
            shown.push_back(widget);
    }
    return shown;
}

/// The nearest part of the screen that scrolls and holds the widget.
const QAbstractScrollArea* scrolls(const QWidget& widget)
{
    for (const QWidget* parent = widget.parentWidget(); parent != nullptr; parent = parent->parentWidget()) {
        if (const auto* area = qobject_cast<const QAbstractScrollArea*>(parent))
            return area;
    }
    return nullptr;
}

bool isOutOfReach(const QWidget& widget, const QWidget& screen)
{
    const QWidget* parent = widget.parentWidget();
    if (parent == nullptr || scrolls(widget) != nullptr)
        return false;
    return !screen.rect().contains(QRect(widget.mapTo(&screen, QPoint()), widget.size()));
}

} // namespace

bool isCut(const QLabel& label)
{
    if (label.text().isEmpty() || dynamic_cast<const widgets::ElidedLabel*>(&label) != nullptr)
        return false;
    if (label.wordWrap())
        return label.heightForWidth(label.width()) > label.height() + 1;
    return (label.sizeHint().width() > label.width() + 1 && label.toolTip().isEmpty()) ||
           label.sizeHint().height() > label.height() + 1;
}

bool isCut(const QAbstractButton& button)
{
    const QString text = button.text();
    return std::ranges::any_of(text, [](QChar each) { return each.isLetter(); }) &&
           (button.sizeHint().width() > button.width() + 1 ||
            QFontMetrics(button.font()).height() > button.height());
}

Stops stopsOf(QWidget& screen)
{
    Stops stops;
    listen(QAccessible::queryAccessibleInterface(&screen), stops);
    return stops;
}

QStringList smallTargets(QWidget& screen)
{
    constexpr int least = 24;
    QStringList small;
    for (const QWidget* widget : shownIn(screen)) {
        const bool isTarget = qobject_cast<const QAbstractButton*>(widget) != nullptr ||
                              qobject_cast<const QComboBox*>(widget) != nullptr ||
                              qobject_cast<const QLineEdit*>(widget) != nullptr;
        // The keys inside a field empty it, as Delete does.
        const bool isInField = qobject_cast<const QLineEdit*>(widget->parentWidget()) != nullptr;
        if (isTarget && !isInField && widget->isEnabled() &&
            std::min(widget->width(), widget->height()) < least)
            small += u"%1: %2 × %3 px"_s.arg(nameOf(*widget)).arg(widget->width()).arg(widget->height());
        if (const auto* tabs = qobject_cast<const QTabBar*>(widget)) {
            for (int tab = 0; tab < tabs->count(); ++tab) {
                if (tabs->tabRect(tab).height() < least)
                    small += u"%1: tab %2"_s.arg(nameOf(*widget), tabs->tabText(tab));
            }
        }
    }
    return small;
}

QStringList cutOff(QWidget& screen)
{
    QStringList cut;
    for (const QWidget* widget : shownIn(screen)) {
        const auto* label = qobject_cast<const QLabel*>(widget);
        const auto* button = qobject_cast<const QAbstractButton*>(widget);
        if (label != nullptr && isCut(*label))
            cut += u"%1 cut: %2"_s.arg(nameOf(*label), label->text());
        if (button != nullptr && isCut(*button))
            cut += u"%1 cut: %2"_s.arg(nameOf(*button), button->text());
        if ((label != nullptr || widget->focusPolicy() != Qt::NoFocus) && isOutOfReach(*widget, screen))
            cut += u"%1 out of reach at %2, %3"_s.arg(nameOf(*widget))
                       .arg(widget->mapTo(&screen, QPoint()).x())
                       .arg(widget->mapTo(&screen, QPoint()).y());
    }
    return cut;
}

} // namespace screen_audit
