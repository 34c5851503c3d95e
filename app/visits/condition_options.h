#pragma once

#include <QObject>

class QWidget;

namespace catalogue
{
struct Condition;
}

namespace visits
{

inline constexpr auto otherKey = "?other"; ///< a word that is typed; no vocabulary has such a key

/// The words of one condition, of which one is chosen: in a list, or by a key each for what may hinder, which
/// is asked of everybody and mostly is not there.
class ConditionOptions : public QObject
{
    Q_OBJECT

public:
    /// Lives in the cell; `blank` is what it means that none is chosen.
    static ConditionOptions* make(const catalogue::Condition& condition, const QString& blank, QWidget* cell);

    virtual QWidget* editor() const = 0;
    virtual QString chosenKey() const = 0; ///< empty: none; `otherKey`
    virtual bool has(const QString& key) const = 0;
    /// Tells nobody. A key that is not listed is put on the list.
    virtual void show(const QString& key) = 0;
    virtual void setBlank(const QString& blank) = 0;

Q_SIGNALS:
    void chosen(); ///< by hand

protected:
    using QObject::QObject;
};

} // namespace visits
