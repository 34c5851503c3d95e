#include "app/widgets/announcement.h"

#include <QAccessible>
#include <QAccessibleObject>
#include <QWidget>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

/// One a window. No widget, which would take part in what Tab goes through.
class Announcer : public QObject
{
public:
    explicit Announcer(QWidget* window) : QObject(window) { setObjectName(u"announcer"_s); }

    QString words;
};

class SpokenAnnouncer : public QAccessibleObject
{
public:
    explicit SpokenAnnouncer(Announcer& announcer) : QAccessibleObject(&announcer), m_announcer(announcer) {}

    QAccessibleInterface* parent() const override
    {
        return QAccessible::queryAccessibleInterface(m_announcer.parent());
    }
    QAccessibleInterface* child(int) const override { return nullptr; }
    int childCount() const override { return 0; }
    int indexOfChild(const QAccessibleInterface*) const override { return -1; }
    QString text(QAccessible::Text kind) const override
    {
        return kind == QAccessible::Name ? m_announcer.words : QString();
    }
    QAccessible::Role role() const override { return QAccessible::Notification; }
    QAccessible::State state() const override { return {}; }

private:
    Announcer& m_announcer;
};

QAccessibleInterface* spoken(const QString&, QObject* object)
{
    auto* announcer = dynamic_cast<Announcer*>(object);
    return announcer == nullptr ? nullptr : new SpokenAnnouncer(*announcer);
}

Announcer& announcerOf(QWidget& window)
{
    static const bool isInstalled = [] {
        QAccessible::installFactory(spoken);
        return true;
    }();
    Q_UNUSED(isInstalled)
    auto* made = window.findChild<QObject*>(u"announcer"_s, Qt::FindDirectChildrenOnly);
    return made != nullptr ? static_cast<Announcer&>(*made) : *new Announcer(&window);
}

} // namespace

/// Qt 6.4 hands neither alerts nor changed names to the desktop. That a notification begins to show it does,
/// and screen readers speak its name.
void announce(const QWidget& about, const QString& words)
{
    if (words.isEmpty() || !about.isVisible())
        return;
    Announcer& announcer = announcerOf(*about.window());
    announcer.words = words;
    QAccessibleEvent begins(&announcer, QAccessible::ObjectShow);
    QAccessible::updateAccessibility(&begins);
}

} // namespace widgets
