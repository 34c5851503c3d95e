#include "app/charts/trend_rows.h"

#include "core/base/csv.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace charts
{

namespace
{

/// "aid=stick; footwear=own-shoes"
QString recorded(const records::Conditions& conditions)
{
    QStringList parts;
    for (auto each = conditions.begin(); each != conditions.end(); ++each)
        parts << each.key() + u'=' + each.value();
    return parts.join(u"; "_s);
}

/// A number is no formula, below zero either.
QString cellOf(const QString& plain)
{
    bool isNumber = false;
    plain.toDouble(&isNumber);
    return isNumber ? plain : base::harmless(plain);
}

QString yesOrNo(bool is)
{
    return is ? u"yes"_s : u"no"_s;
}

QStringList cellsOf(const TrendPoints& points, const TrendLine& line, const TrendEntry& entry)
{
    return {points.measure,
            entry.day.toString(Qt::ISODate),
            records::code(line.side),
            cellOf(entry.plain),
            entry.plain.isEmpty() || points.isOrdinal ? QString() : values::symbol(points.unit),
            entry.absence ? values::code(*entry.absence) : u"done"_s,
            yesOrNo(entry.isAtCap),
            yesOrNo(entry.isDraft),
            yesOrNo(entry.isComparable),
            base::harmless(recorded(entry.recorded)),
            entry.difference,
            entry.verdict ? judging::code(*entry.verdict) : QString()};
}

} // namespace

QList<QStringList> trendRows(const TrendPoints& points)
{
    QList<QStringList> rows;
    for (const TrendLine& line : points.lines) {
        for (const TrendEntry& entry : line.entries)
            rows << cellsOf(points, line, entry);
    }
    std::ranges::stable_sort(rows, {}, [](const QStringList& cells) { return cells[1]; });
    rows.prepend({u"measure"_s, u"day"_s, u"side"_s, u"value"_s, u"unit"_s, u"state"_s, u"at_cap"_s,
                  u"draft"_s, u"comparable"_s, u"conditions"_s, u"difference"_s, u"verdict"_s});
    return rows;
}

QByteArray csvOf(const TrendPoints& points)
{
    QByteArray file;
    for (const QStringList& cells : trendRows(points))
        file += base::csvLine(cells);
    return file;
}

QString tabbed(const TrendPoints& points)
{
    QString text;
    for (QStringList cells : trendRows(points)) {
        for (QString& cell : cells)
            cell = cell.simplified();
        text += cells.join(u'\t') + u'\n';
    }
    return text;
}

} // namespace charts
