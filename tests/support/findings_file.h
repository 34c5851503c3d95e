#pragma once

#include "core/catalogue/reader.h"
#include "core/exchange/findings_csv.h"

#include <map>

/// A findings file made of rows that name only the cells they fill.
namespace findings_file
{

using Cells = std::map<QString, QString>;

inline const QStringList& columns()
{
    static const QStringList names =
        QStringLiteral(
            "patient,family,given,born,sex,population,date,measure,side,trial,value,unit,state,reason,aid,"
            "orthosis,footwear,assistance,start,distance_m,medication")
            .split(u',');
    return names;
}

inline QByteArray line(const Cells& cells)
{
    QStringList row;
    for (const QString& column : columns()) {
        const auto cell = cells.find(column);
        row += cell == cells.end() ? QString() : cell->second;
    }
    return row.join(u',').toUtf8() + "\n";
}

inline QByteArray file(const std::vector<Cells>& rows)
{
    QByteArray bytes = columns().join(u',').toUtf8() + "\n";
    for (const Cells& row : rows)
        bytes += line(row);
    return bytes;
}

/// A walk of an invented patient, with some cells changed.
inline Cells walk(const Cells& changed = {})
{
    using namespace Qt::StringLiterals;
    Cells cells = {{u"patient"_s, u"T-1"_s},     {u"family"_s, u"Aaltje"_s},
                   {u"given"_s, u"Borre"_s},     {u"born"_s, u"1951-03-04"_s},
                   {u"sex"_s, u"female"_s},      {u"population"_s, u"parkinson"_s},
                   {u"date"_s, u"2024-03-01"_s}, {u"measure"_s, u"timed-up-and-go"_s},
                   {u"value"_s, u"12.5"_s}};
    for (const auto& [column, value] : changed)
        cells[column] = value;
    return cells;
}

inline const catalogue::Catalogue& shipped()
{
    static const catalogue::Catalogue read = *catalogue::readCatalogue(QStringLiteral(":/catalogue"));
    return read;
}

inline const QDate today(2024, 6, 1);

inline auto read(const std::vector<Cells>& rows)
{
    return exchange::patientsFromCsv(file(rows), shipped(), today);
}

} // namespace findings_file
