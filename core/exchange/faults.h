#pragma once

#include "core/exchange/imported.h"

namespace exchange
{

/// One thing that is wrong with what is read, and where it stands.
struct Fault {
    int line = 0;
    QString patient; ///< the record number that stands there
    QDate day;       ///< invalid where none can be read
    base::Error error;

    bool operator==(const Fault&) const = default;
};

/// What is wrong with a file: the first thousand faults, and how many there are.
class Faults
{
public:
    static constexpr size_t most = 1000;

    Faults() = default;
    explicit Faults(Place (*places)(int)) : m_places(places) {}

    /// The place of this number in what is read.
    Place place(int number) const { return m_places(number); }
    bool isOfEntries() const { return m_places == &entryOf; }
    /// Whose visit the next ones are about.
    void about(const QString& patient, QDate day);
    void add(int line, const base::Error& error);
    void add(const Place& place, const base::Error& error) { add(place.number, error); }
    /// In the order of the lines.
    std::vector<Fault> byLine() const;
    qint64 count() const { return m_count; }
    bool isNone() const { return m_count == 0; }
    /// All of it as one error: the first twenty, a line each, and how many more there are. There must be one.
    base::Error asOne() const;

    bool operator==(const Faults&) const = default;

private:
    Place (*m_places)(int) = &lineOf;
    std::vector<Fault> m_first;
    qint64 m_count = 0;
    QString m_patient;
    QDate m_day;
};

} // namespace exchange
