#include "app/charts/frame.h"

#include "app/widgets/theme.h"

#include <QFontInfo>
#include <QFontMetricsF>

#include <algorithm>

namespace charts
{

namespace
{

/// A step of an ordinal axis needs no more room than its word.
double plotHeight(const TrendPoints& points)
{
    return points.steps.empty() ? 168 : 24.0 * double(std::max<size_t>(points.steps.size(), 3));
}

QFont inPixels(QFont font)
{
    font.setPixelSize(QFontInfo(font).pixelSize());
    return font;
}

double headHeight(const TrendPoints& points, const ChartFonts& fonts)
{
    qsizetype rows = 0;
    for (const TrendLine& line : points.lines)
        rows += line.heading.size();
    return QFontMetricsF(fonts.heading).height() + QFontMetricsF(fonts.body).height() * double(rows) +
           widgets::space2;
}

double happeningRows(const TrendPoints& points)
{
    return points.happenings.empty() ? 0 : 1;
}

/// One row for the words of the plumb lines, one for what happened and one for the numbers of what changed,
/// where something did.
double rowsAbove(const TrendPoints& points)
{
    return (points.breaks.empty() ? 1 : 2) + happeningRows(points);
}

/// At spaces; a word that is longer than a row stays whole.
QStringList inRows(const QString& words)
{
    constexpr qsizetype mostCharacters = 110; // some 600 of the 690 pixels a letter's chart has
    QStringList rows;
    for (const QString& word : words.split(u' ')) {
        if (!rows.isEmpty() && rows.last().size() + 1 + word.size() <= mostCharacters)
            rows.last() += u' ' + word;
        else
            rows << word;
    }
    return rows;
}

double rowHeight(const ChartFonts& fonts)
{
    return QFontMetricsF(fonts.caption).height() + 4;
}

double eventRows(const TrendPoints& points)
{
    return points.events.empty() ? 0 : 1;
}

double rowsBelow(const TrendPoints& points, const QString& note)
{
    return double(laneRows(points).size()) + eventRows(points) + 1 + double(remarkRows(points, note).size());
}

} // namespace

ChartFonts chartFonts()
{
    QFont heading = inPixels(widgets::headingFont());
    return {heading, inPixels(widgets::bodyFont()), inPixels(widgets::captionFont())};
}

std::vector<const TrendLine*> laneRows(const TrendPoints& points)
{
    std::vector<const TrendLine*> rows;
    for (const TrendLine& line : points.lines) {
        if (std::ranges::any_of(line.entries, [](const TrendEntry& entry) { return !entry.number; }))
            rows.push_back(&line);
    }
    return rows;
}

QStringList remarkRows(const TrendPoints& points, const QString& note)
{
    QStringList rows;
    for (const QString& remark : points.remarks)
        rows << inRows(remark);
    if (!note.isEmpty())
        rows << note;
    return rows;
}

Frame frame(const TrendPoints& points, const QString& note, const QSizeF& size)
{
    const ChartFonts fonts = chartFonts();
    Frame made;
    made.row = rowHeight(fonts);
    const double left = made.row * 6.5;
    const double right = made.row * 8.5;
    const double width = size.width() - 2 * widgets::space4;
    made.head = {widgets::space4, widgets::space3, width, headHeight(points, fonts)};
    const double top = made.head.bottom() + rowsAbove(points) * made.row;
    made.words = {left, made.head.bottom(), 0, top - made.head.bottom()};
    const double below = rowsBelow(points, note) * made.row + widgets::space3;
    made.plot = {left, top, std::max(1.0, size.width() - left - right),
                 std::max(1.0, size.height() - top - below)};
    made.happenings = {left, made.words.top() + made.row, made.plot.width(),
                       happeningRows(points) * made.row};
    made.lane = {left, made.plot.bottom(), made.plot.width(), double(laneRows(points).size()) * made.row};
    made.events = {left, made.lane.bottom(), made.plot.width(), eventRows(points) * made.row};
    made.dates = {left, made.events.bottom(), made.plot.width(), made.row};
    made.remarks = {widgets::space4, made.dates.bottom(), width, size.height() - made.dates.bottom()};
    return made;
}

double heightFor(const TrendPoints& points, const QString& note)
{
    const ChartFonts fonts = chartFonts();
    return widgets::space3 + headHeight(points, fonts) + rowsAbove(points) * rowHeight(fonts) +
           plotHeight(points) + rowsBelow(points, note) * rowHeight(fonts) + widgets::space3;
}

} // namespace charts
