#pragma once

#include "core/base/csv.h"
#include "core/exchange/columns.h"
#include "core/exchange/faults.h"
#include "core/records/author.h"

#include <QDateTime>
#include <QHash>

namespace exchange
{

/// The cells of one row of a file of whole records. What is not allowed in one is a fault, and then something
/// harmless is given back.
class WholeCells
{
public:
    WholeCells(const base::CsvRow& row, const QHash<QString, qsizetype>& places, Faults& faults)
        : m_row(row), m_places(places), m_faults(faults)
    {
    }

    int line() const { return m_row.line; }
    /// As it was before it was guarded.
    QString operator[](const QString& column) const { return at(m_places.value(column)); }
    QString at(qsizetype place) const;
    void refuse(const QString& column, const base::Message& allowed) const;

    std::optional<QDate> dayIfAny(const QString& column) const;
    QDate day(const QString& column) const;
    QDateTime instantIfAny(const QString& column) const; ///< invalid where there is none
    QDateTime instant(const QString& column) const;
    std::optional<double> numberIfAny(const QString& column) const;
    double number(const QString& column) const;
    int whole(const QString& column) const; ///< from 1
    bool flag(const QString& column) const; ///< yes, or no, or nothing
    QString uid(const QString& column) const;
    /// Numbers divided by spaces; `each` gets their place from 1. A "-" holds a place.
    template <class Each>
    void numbers(const QString& column, Each each) const
    {
        const QStringList words = (*this)[column].split(u' ', Qt::SkipEmptyParts);
        for (qsizetype place = 0; place < words.size(); ++place) {
            if (words.at(place) == u"-")
                continue;
            if (const auto number = numeral(words.at(place)))
                each(int(place) + 1, *number);
            else
                refuse(column, base::said("Allowed are numbers divided by spaces."));
        }
    }
    /// A word that `meaning` knows; `known` lists them.
    template <class Meaning>
    auto word(const QString& column, Meaning meaning, const QString& known) const
    {
        const auto found = meaning((*this)[column]);
        if (!found)
            refuse(column, base::said("Allowed are %1.").arg(known));
        return found;
    }
    records::Author author() const;

private:
    static std::optional<double> numeral(const QString& word);

    const base::CsvRow& m_row;
    const QHash<QString, qsizetype>& m_places;
    Faults& m_faults;
};

} // namespace exchange
