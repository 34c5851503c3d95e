#include "app/charts/lanes.h"

#include "app/charts/happening_row.h"
#include "app/charts/line_of_words.h"
#include "app/charts/mark.h"
#include "app/charts/trend_chart.h"

#include <QFontMetricsF>

using namespace Qt::StringLiterals;

namespace charts
{

namespace
{

using judging::Event;

Mark markOf(values::Absence absence)
{
    switch (absence) {
    case values::Absence::Unable:
        return Mark::BarredSquare;
    case values::Absence::Refused:
        return Mark::OpenTriangle;
    case values::Absence::NotAttempted:
        return Mark::OpenCircle;
    case values::Absence::NotApplicable:
    case values::Absence::NotAsked:
        return Mark::OpenDiamond;
    }
    return Mark::OpenDiamond;
}

Mark markOf(Event::Kind kind)
{
    switch (kind) {
    case Event::Kind::BecameUnable:
        return Mark::BarredSquare;
    case Event::Kind::BecameAble:
        return Mark::OpenSquare;
    case Event::Kind::SidesDiffer:
        return Mark::Unequal;
    case Event::Kind::SidesAlike:
        return Mark::Equal;
    }
    return Mark::OpenSquare;
}

/// A mark on its day in one row, and what stands beside it.
struct Placed {
    double at = 0;
    Mark mark = Mark::OpenDiamond;
    QString words;
    QString fewer; ///< where there is no room for all of them
};

void paintRow(QPainter& painter, const TrendChart& chart, const ChartFonts& fonts, double top,
              const QString& name, const std::vector<Placed>& marks)
{
    const Frame& frame = chart.frame();
    const widgets::Colours& colours = chart.look().colours;
    const double middle = top + frame.row / 2;
    painter.setFont(fonts.caption);
    painter.setPen(colours.quiet);
    drawElided(painter, {widgets::space4, top, frame.plot.left() - widgets::space4 - gap, frame.row},
               Qt::AlignRight | Qt::AlignVCenter, name);
    for (size_t i = 0; i < marks.size(); ++i) {
        drawMark(painter, marks[i].mark, {marks[i].at, middle}, 8, colours.text);
        const double end = i + 1 < marks.size() ? marks[i + 1].at - gap : chart.size().width() - gap;
        const double left = marks[i].at + 4 + gap;
        const double room = end - left;
        if (room < frame.row * 2)
            continue;
        const bool isWide = QFontMetricsF(fonts.caption).horizontalAdvance(marks[i].words) <= room;
        painter.setPen(colours.text);
        drawElided(painter, {left, top, room, frame.row}, Qt::AlignLeft | Qt::AlignVCenter,
                   isWide ? marks[i].words : marks[i].fewer);
    }
}

} // namespace

void paintLane(QPainter& painter, const TrendChart& chart, const ChartFonts& fonts)
{
    double top = chart.frame().lane.top();
    for (const TrendLine* line : laneRows(chart.points())) {
        std::vector<Placed> marks;
        for (const TrendEntry& entry : line->entries) {
            if (!entry.number && chart.isShown(entry.day))
                marks.push_back({chart.x(entry.day),
                                 entry.absence ? markOf(*entry.absence) : Mark::OpenDiamond, entry.words,
                                 entry.fewerWords});
        }
        paintRow(painter, chart, fonts, top,
                 line->name.isEmpty() ? chart.phrases()("without a value") : line->name, marks);
        top += chart.frame().row;
    }
}

void paintHappenings(QPainter& painter, const TrendChart& chart, const ChartFonts& fonts)
{
    const Frame& frame = chart.frame();
    const widgets::Colours& colours = chart.look().colours;
    if (chart.points().happenings.empty())
        return;
    const QRectF& row = frame.happenings;
    painter.setFont(fonts.caption);
    painter.setPen(colours.quiet);
    drawElided(painter, {widgets::space4, row.top(), row.left() - widgets::space4 - gap, row.height()},
               Qt::AlignRight | Qt::AlignVCenter, chart.phrases()("between visits"));
    painter.save();
    painter.setClipRect(row);
    drawHappenings(
        painter, chart.points().happenings, row, [&chart](QDate day) { return chart.x(day); }, colours);
    painter.restore();
}

void paintEvents(QPainter& painter, const TrendChart& chart, const ChartFonts& fonts)
{
    std::vector<Placed> marks;
    for (const TrendEvent& event : chart.points().events) {
        if (!chart.isShown(event.day))
            continue;
        const double at = chart.x(event.day);
        if (!marks.empty() && marks.back().at == at)
            marks.back().words = chart.phrases().joined("%1; %2", {marks.back().words, event.label});
        else
            marks.push_back({at, markOf(event.kind), event.label, {}});
        marks.back().fewer = marks.back().words;
    }
    if (!marks.empty())
        paintRow(painter, chart, fonts, chart.frame().events.top(), chart.phrases()("events"), marks);
}

} // namespace charts
