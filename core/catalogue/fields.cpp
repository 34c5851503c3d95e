#include "core/catalogue/fields.h"

#include "core/base/text.h"

#include <QJsonArray>

#include <cmath>

namespace catalogue
{

namespace
{

/// A file may hold words without end, and characters that steer what stands around them.
base::Message faultAt(const QString& place, const base::Message& what)
{
    constexpr qsizetype mostOfPlace = 200, mostOfWhat = 500;
    const QString words = what.english();
    const QString shown = base::shortened(words, mostOfWhat);
    return base::said("%1: %2").arg(base::verbatim(base::shortened(place, mostOfPlace)),
                                    shown == words ? what : base::verbatim(shown));
}

} // namespace

base::Error unreadable(const QString& place, const base::Message& what)
{
    return {base::ErrorKind::Unreadable, base::said("%1.").arg(faultAt(place, what)), {}};
}

Fields::Fields(QJsonObject object, QString place) : m_object(std::move(object)), m_place(std::move(place))
{
    const QString id = m_object.value(QStringLiteral("id")).toString();
    if (!id.isEmpty())
        m_place += QStringLiteral(": ") + id.left(80);
}

void Fields::refuse(const base::Message& what)
{
    if (!m_fault)
        m_fault = what;
}

std::optional<base::Message> Fields::firstFault() const
{
    if (m_fault)
        return m_fault;
    const QStringList keys = m_object.keys();
    for (const QString& key : keys) {
        if (!m_asked.contains(key))
            return base::said("unknown field “%1”").arg(key.left(80));
    }
    return std::nullopt;
}

std::optional<base::Message> Fields::fault() const
{
    const auto first = firstFault();
    return first ? std::optional(faultAt(m_place, *first)) : std::nullopt;
}

std::optional<base::Error> Fields::error() const
{
    const auto first = firstFault();
    return first ? std::optional(unreadable(m_place, *first)) : std::nullopt;
}

void Fields::requireField(const QString& key)
{
    if (!has(key))
        refuse(base::said("“%1” is missing").arg(key));
}

std::optional<QJsonValue> Fields::value(const QString& key, QJsonValue::Type type, const QString& typeWords)
{
    m_asked.insert(key);
    if (!has(key))
        return std::nullopt;
    const QJsonValue found = m_object.value(key);
    if (found.type() == type)
        return found;
    refuse(base::said("“%1” is not %2").arg(key, typeWords));
    return std::nullopt;
}

QString Fields::text(const QString& key)
{
    requireField(key);
    return optionalText(key);
}

QString Fields::optionalText(const QString& key)
{
    const auto found = value(key, QJsonValue::String, QStringLiteral("a text"));
    if (found && found->toString().trimmed().isEmpty())
        refuse(base::said("“%1” is empty").arg(key));
    return found ? found->toString() : QString();
}

double Fields::number(const QString& key)
{
    requireField(key);
    return optionalNumber(key).value_or(0);
}

std::optional<double> Fields::optionalNumber(const QString& key)
{
    const auto found = value(key, QJsonValue::Double, QStringLiteral("a number"));
    return found ? std::optional(found->toDouble()) : std::nullopt;
}

std::optional<int> Fields::optionalCount(const QString& key)
{
    const auto found = optionalNumber(key);
    if (!found)
        return std::nullopt;
    if (*found < 1 || *found > 1e9 || std::trunc(*found) != *found) {
        refuse(base::said("“%1” is not a whole number of at least 1").arg(key));
        return std::nullopt;
    }
    return int(*found);
}

bool Fields::flag(const QString& key)
{
    requireField(key);
    return optionalFlag(key);
}

bool Fields::optionalFlag(const QString& key)
{
    const auto found = value(key, QJsonValue::Bool, QStringLiteral("true or false"));
    return found && found->toBool();
}

QStringList Fields::texts(const QString& key)
{
    const auto found = value(key, QJsonValue::Array, QStringLiteral("a list"));
    QStringList list;
    const QJsonArray items = found ? found->toArray() : QJsonArray();
    for (const QJsonValue item : items) {
        const QString words = item.toString();
        if (words.trimmed().isEmpty())
            refuse(base::said("“%1” holds something that is not a text").arg(key));
        else if (list.contains(words))
            refuse(base::said("“%1” names “%2” twice").arg(key, words));
        list += words;
    }
    return list;
}

std::vector<QJsonObject> Fields::objects(const QString& key)
{
    const auto found = value(key, QJsonValue::Array, QStringLiteral("a list"));
    std::vector<QJsonObject> list;
    const QJsonArray items = found ? found->toArray() : QJsonArray();
    for (const QJsonValue item : items) {
        if (!item.isObject())
            refuse(base::said("“%1” holds something that is not an object").arg(key));
        list.push_back(item.toObject());
    }
    return list;
}

std::optional<QJsonObject> Fields::optionalObject(const QString& key)
{
    const auto found = value(key, QJsonValue::Object, QStringLiteral("an object"));
    return found ? std::optional(found->toObject()) : std::nullopt;
}

} // namespace catalogue
