#include "app/widgets/key_row_access.h"

#include "app/widgets/key_row.h"

#include <QAccessibleWidget>

namespace widgets
{

namespace
{

class KeyAccess : public QAccessibleWidget
{
public:
    explicit KeyAccess(Key& key)
        : QAccessibleWidget(&key, key.isOneOfMany() ? QAccessible::RadioButton : QAccessible::CheckBox),
          m_key(key)
    {
    }

    QString text(QAccessible::Text kind) const override
    {
        return kind == QAccessible::Name ? m_key.accessibleName() : QAccessibleWidget::text(kind);
    }

    QAccessible::State state() const override
    {
        QAccessible::State state = QAccessibleWidget::state();
        state.checkable = true;
        state.checked = m_key.isChecked();
        state.focusable = m_key.isEnabled();
        state.focused = m_key.isCursorHere();
        return state;
    }

    QStringList actionNames() const override
    {
        return m_key.isEnabled() ? QStringList{QAccessibleActionInterface::pressAction()} : QStringList();
    }

    void doAction(const QString& action) override
    {
        if (action == QAccessibleActionInterface::pressAction())
            m_key.click();
    }

private:
    Key& m_key;
};

/// The keyboard is on one of its keys, never on the row.
class KeyRowAccess : public QAccessibleWidget
{
public:
    explicit KeyRowAccess(KeyRow& row) : QAccessibleWidget(&row, QAccessible::Grouping), m_row(row) {}

    QAccessible::State state() const override
    {
        QAccessible::State state = QAccessibleWidget::state();
        state.focusable = false;
        state.focused = false;
        return state;
    }

    QAccessibleInterface* focusChild() const override
    {
        return m_row.hasFocus() ? QAccessible::queryAccessibleInterface(m_row.keyInUse()) : nullptr;
    }

private:
    KeyRow& m_row;
};

QAccessibleInterface* spokenKeys(const QString&, QObject* object)
{
    if (auto* key = qobject_cast<Key*>(object))
        return new KeyAccess(*key);
    if (auto* row = qobject_cast<KeyRow*>(object))
        return new KeyRowAccess(*row);
    return nullptr;
}

} // namespace

void speakKeyRows()
{
    static const bool isSpoken = [] {
        QAccessible::installFactory(spokenKeys);
        return true;
    }();
    Q_UNUSED(isSpoken)
}

} // namespace widgets
