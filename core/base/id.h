#pragma once

#include <QHash>
#include <QString>
#include <QUuid>

#include <compare>

namespace base
{

/// The key of one kind of record: a UUID without braces. Ids of different records do not compare.
template <class Record>
struct Id {
    QString text;

    static Id make() { return {QUuid::createUuid().toString(QUuid::WithoutBraces)}; }
    bool isNull() const { return text.isEmpty(); }
    bool operator==(const Id&) const = default;
    bool operator<(const Id& other) const { return text < other.text; }
};

template <class Record>
size_t qHash(const Id<Record>& id, size_t seed = 0)
{
    return ::qHash(id.text, seed);
}

} // namespace base
