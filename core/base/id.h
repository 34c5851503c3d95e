#pragma once

#include <QString>
#include <QUuid>

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

} // namespace base
