#include "app/charts/trend_chart.h"

#include "app/charts/trend_grid.h"
#include "app/charts/trend_overlay.h"

#include <QGraphicsLayout>
#include <QLegend>
#include <QLineSeries>
#include <QScatterSeries>

#include <algorithm>
#include <cmath>

namespace charts
{

namespace
{

/// So many points of one side that smaller marks tell more.
bool isCrowded(const TrendLine& line)
{
    return line.entries.size() > 40;
}

double xOf(QDate day)
{
    return double(day.toJulianDay());
}

/// The values that hang together: joined ones while joins are wanted, else each by itself.
std::vector<std::vector<const TrendEntry*>> runs(const TrendLine& line, bool join)
{
    std::vector<std::vector<const TrendEntry*>> found;
    for (const TrendEntry& entry : line.entries) {
        if (!entry.number)
            continue;
        if (found.empty() || !join || !entry.joins)
            found.emplace_back();
        found.back().push_back(&entry);
    }
    return found;
}

} // namespace

ChartLook paperLook()
{
    return {widgets::coloursFor(widgets::paperPalette()), true, {}, true};
}

QColor colourOf(records::Side side, const ChartLook& look)
{
    return side == records::Side::Left ? look.colours.accent : look.colours.text;
}

Mark markOf(records::Side side)
{
    return side == records::Side::Left ? Mark::Square : Mark::Circle;
}

TrendChart::TrendChart(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
                       QGraphicsItem* parent)
    : QChart(parent),
      m_points(points),
      m_look(look),
      m_phrases(phrases),
      m_window(daysAxis(points.from, points.to)),
      m_time{m_window.from(), m_window.to(), {}},
      m_values(valueAxis(points)),
      m_timeAxis(new QValueAxis),
      m_valueAxis(new QValueAxis),
      m_grid(new TrendGrid(*this)),
      m_overlay(new TrendOverlay(*this))
{
    legend()->hide();
    layout()->setContentsMargins(0, 0, 0, 0);
    setBackgroundRoundness(0);
    setBackgroundBrush(look.colours.panel);
    setBackgroundPen(Qt::NoPen);
    setDropShadowEnabled(false);
    m_timeAxis->setVisible(false);
    m_valueAxis->setVisible(false);
    addAxis(m_timeAxis, Qt::AlignBottom);
    addAxis(m_valueAxis, Qt::AlignLeft);
    m_valueAxis->setRange(m_values.from, m_values.to);
    m_timeAxis->setRange(m_time.from, m_time.to);
    if (m_points.range)
        addRange(*m_points.range);
    for (const TrendTarget& target : m_points.targets)
        addLevel(target.number, m_time.from, QPen(m_look.colours.text, 1.4, Qt::DashLine));
    for (const TrendLine& line : m_points.lines)
        addLine(line);
    if (m_look.isOpaque)
        m_tints = opaque(m_tints, m_look.colours.panel);
    connect(this, &QGraphicsWidget::geometryChanged, this, &TrendChart::settle);
}

void TrendChart::attach(QAbstractSeries* series)
{
    addSeries(series);
    series->attachAxis(m_timeAxis);
    series->attachAxis(m_valueAxis);
}

void TrendChart::addTint(const QPolygonF& area, QColor colour, float strength)
{
    colour.setAlphaF(strength);
    QPainterPath path;
    path.addPolygon(area);
    path.closeSubpath();
    m_tints.push_back({path, colour});
}

/// As much of the range as the axis shows; the axis is made for the patient's own values.
void TrendChart::addRange(const TrendRange& range)
{
    const double low = std::max(range.low, m_values.from);
    const double high = std::min(range.high, m_values.to);
    if (low < high)
        addTint(QRectF(QPointF(m_time.from, low), QPointF(m_time.to, high)), m_look.colours.quiet, 0.10F);
}

void TrendChart::addShade(const std::vector<const TrendEntry*>& run, double error, const QColor& colour)
{
    const double alone = run.size() == 1 ? (m_time.to - m_time.from) * 0.004 : 0;
    QPolygonF upper;
    QPolygonF lower;
    for (const TrendEntry* entry : run) {
        for (const double aside : {-alone, alone}) {
            upper << QPointF(xOf(entry->day) + aside, *entry->number + error);
            lower.prepend(QPointF(xOf(entry->day) + aside, *entry->number - error));
        }
    }
    addTint(upper + lower, colour, 0.13F);
}

void TrendChart::addRun(const std::vector<const TrendEntry*>& run, const TrendLine& line)
{
    if (run.size() < 2 || m_points.isOrdinal)
        return;
    auto* joined = new QLineSeries;
    for (const TrendEntry* entry : run)
        joined->append(xOf(entry->day), *entry->number);
    joined->setPen(QPen(colourOf(line.side, m_look),
                        isCrowded(line) ? 1 : 1.6, // of 1 it is drawn much faster
                        line.side == records::Side::Left ? Qt::DashLine : Qt::SolidLine));
    attach(joined);
}

/// On an ordinal axis right stands a little above its step and left a little below, so that both are seen.
double TrendChart::height(const TrendEntry& entry, records::Side side) const
{
    if (!m_points.isOrdinal || m_points.lines.size() < 2)
        return *entry.number;
    return *entry.number + (side == records::Side::Left ? -0.16 : 0.16);
}

/// A level line to the end of the axis.
void TrendChart::addLevel(double value, double from, const QPen& pen)
{
    auto* level = new QLineSeries;
    level->append(from, value);
    level->append(m_time.to, value);
    level->setPen(pen);
    attach(level);
}

/// Thin: dashed the line that is judged, dotted the robust one beside it.
void TrendChart::addSlope(const TrendSlope& slope, const QColor& colour)
{
    auto* trend = new QLineSeries;
    for (const auto& [day, height] : slope.points)
        trend->append(xOf(day), height);
    QPen pen(colour, 1);
    pen.setDashPattern(slope.judges ? QList<qreal>{10, 5} : QList<qreal>{2, 6});
    trend->setPen(pen);
    attach(trend);
}

void TrendChart::addLine(const TrendLine& line)
{
    const QColor colour = colourOf(line.side, m_look);
    const auto together = runs(line, m_look.joinPoints);
    for (const auto& run : together) {
        if (line.standardError)
            addShade(run, 1.96 * *line.standardError, colour);
    }
    if (line.limits && line.limits->improved)
        addLevel(*line.limits->improved, xOf(line.limits->day),
                 QPen(m_look.colours.better, 1.4, Qt::DashDotLine));
    if (line.limits && line.limits->declined)
        addLevel(*line.limits->declined, xOf(line.limits->day),
                 QPen(m_look.colours.worse, 1.4, Qt::DashDotDotLine));
    for (const TrendSlope& slope : line.slopes)
        addSlope(slope, colour);
    auto* marks = new QScatterSeries;
    const bool isLeft = line.side == records::Side::Left;
    marks->setMarkerShape(isLeft ? QScatterSeries::MarkerShapeRectangle : QScatterSeries::MarkerShapeCircle);
    marks->setMarkerSize(isCrowded(line) ? 5 : isLeft ? 8 : 9);
    marks->setColor(colour);
    marks->setBorderColor(m_look.colours.panel);
    for (const auto& run : together) {
        addRun(run, line);
        for (const TrendEntry* entry : run) {
            if (!entry->isAtCap) // those are marked as what they are, at least so much
                marks->append(xOf(entry->day), height(*entry, line.side));
        }
    }
    attach(marks);
}

/// Lays the plot into the frame; as many dates as there is room for.
void TrendChart::settle()
{
    m_frame = charts::frame(m_points, m_look.note, size());
    setDates();
    setPlotArea(m_frame.plot);
    m_grid->cover(QRectF({}, size()));
    m_overlay->cover(QRectF({}, size()));
}

void TrendChart::setDates()
{
    const double room = m_frame.row > 0 ? m_frame.plot.width() / (m_frame.row * 4.5) : 0;
    const int most = std::max(2, int(room));
    m_time = withDates({m_window.from(), m_window.to(), {}}, most, m_phrases);
}

void TrendChart::show(const TimeWindow& window)
{
    m_window = window;
    setDates();
    m_timeAxis->setRange(window.from(), window.to());
    m_grid->update();
    m_overlay->update();
}

double TrendChart::x(QDate day) const
{
    return m_frame.plot.left() + m_time.share(xOf(day)) * m_frame.plot.width();
}

bool TrendChart::isShown(QDate day) const
{
    return xOf(day) >= m_time.from && xOf(day) <= m_time.to;
}

std::optional<records::VisitId> TrendChart::visitNear(const QPointF& place) const
{
    std::optional<records::VisitId> nearest;
    double least = 16;
    for (const TrendLine& line : m_points.lines) {
        for (const TrendEntry& entry : line.entries) {
            const double away = std::abs(x(entry.day) - place.x());
            if (away < least && isShown(entry.day)) {
                least = away;
                nearest = entry.visit;
            }
        }
    }
    return nearest;
}

} // namespace charts
