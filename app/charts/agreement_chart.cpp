#include "app/charts/agreement_chart.h"

#include "app/charts/frame.h"
#include "app/charts/scene_drawing.h"

#include <QFontMetricsF>
#include <QGraphicsLayout>
#include <QGraphicsSimpleTextItem>
#include <QLegend>
#include <QLineSeries>
#include <QPainter>
#include <QScatterSeries>

#include <algorithm>

namespace charts
{

namespace
{

constexpr double markWidth = 8;

Axis footOf(const AgreementPoints& points)
{
    if (points.points.empty())
        return {};
    const auto [left, right] = std::ranges::minmax_element(points.points, {}, &QPointF::x);
    return roundAxis(left->x(), right->x());
}

Axis sideOf(const AgreementPoints& points)
{
    if (points.points.empty())
        return {};
    const auto [foot, top] = std::ranges::minmax_element(points.points, {}, &QPointF::y);
    return roundAxis(std::min(foot->y(), points.lower.value_or(points.middle)),
                     std::max(top->y(), points.upper.value_or(points.middle)));
}

} // namespace

AgreementChart::AgreementChart(const AgreementPoints& points, const ChartLook& look, QGraphicsItem* parent)
    : QChart(parent),
      m_look(look),
      m_foot(footOf(points)),
      m_side(sideOf(points)),
      m_footWords(madeWords(points.meanWords, true)),
      m_sideWords(madeWords(points.differenceWords, true)),
      m_footTicks(madeTicks(m_foot)),
      m_sideTicks(madeTicks(m_side))
{
    legend()->hide();
    layout()->setContentsMargins(0, 0, 0, 0);
    setBackgroundRoundness(0);
    setBackgroundBrush(look.colours.panel);
    setBackgroundPen(Qt::NoPen);
    setDropShadowEnabled(false);
    for (const auto& [numbers, edge] :
         {std::pair(m_foot, Qt::AlignBottom), std::pair(m_side, Qt::AlignLeft)}) {
        auto* axis = new QValueAxis;
        axis->setVisible(false);
        axis->setRange(numbers.from, numbers.to);
        addAxis(axis, edge);
    }
    addLine(points.middle, Qt::SolidLine, points.middleWords);
    if (points.lower)
        addLine(*points.lower, Qt::DashLine, points.lowerWords);
    if (points.upper)
        addLine(*points.upper, Qt::DashLine, points.upperWords);
    addPoints(points);
    connect(this, &QChart::geometryChanged, this, &AgreementChart::settle);
}

void AgreementChart::attach(QAbstractSeries* series)
{
    addSeries(series);
    const auto all = axes();
    for (QAbstractAxis* axis : all)
        series->attachAxis(axis);
}

void AgreementChart::addPoints(const AgreementPoints& points)
{
    auto* series = new QScatterSeries;
    series->replace(QList<QPointF>(points.points.begin(), points.points.end()));
    series->setMarkerSize(markWidth);
    series->setColor(m_look.colours.accent);
    series->setBorderColor(m_look.colours.panel);
    attach(series);
}

void AgreementChart::addLine(double height, Qt::PenStyle style, const QString& words)
{
    auto* series = new QLineSeries;
    series->append(m_foot.from, height);
    series->append(m_foot.to, height);
    series->setPen(QPen(m_look.colours.text, 1.5, style));
    attach(series);
    m_labels.push_back({madeWords(words, false), nullptr, height});
}

QGraphicsSimpleTextItem* AgreementChart::madeWords(const QString& words, bool isQuiet)
{
    auto* item = new QGraphicsSimpleTextItem(words, this);
    item->setFont(chartFonts().caption);
    item->setBrush(isQuiet ? m_look.colours.quiet : m_look.colours.text);
    return item;
}

/// Qt Charts lays its own labels out late and beside a plot area that was set, so they are drawn here.
std::vector<AgreementChart::Label> AgreementChart::madeTicks(const Axis& axis)
{
    std::vector<Label> ticks;
    for (const Tick& tick : axis.ticks) {
        auto* line = new QGraphicsLineItem(this);
        line->setPen(QPen(m_look.colours.line, 1));
        ticks.push_back({madeWords(tick.words, true), line, tick.at});
    }
    return ticks;
}

double AgreementChart::x(double mean) const
{
    return plotArea().left() + m_foot.share(mean) * plotArea().width();
}

double AgreementChart::y(double difference) const
{
    return plotArea().bottom() - m_side.share(difference) * plotArea().height();
}

/// The words of the lines stand right of the plot, each at its height.
void AgreementChart::settle()
{
    const double row = QFontMetricsF(chartFonts().caption).height();
    const auto widest = [](const std::vector<Label>& labels) {
        double width = 0;
        for (const Label& label : labels)
            width = std::max(width, label.words->boundingRect().width());
        return width;
    };
    const double left = widest(m_sideTicks) + row * 1.5;
    const QRectF plot(left, row * 2, std::max(1.0, size().width() - left - widest(m_labels) - row * 1.5),
                      std::max(1.0, size().height() - row * 5));
    setPlotArea(plot);
    m_sideWords->setPos(row / 2, row / 4);
    m_footWords->setPos(plot.right() - m_footWords->boundingRect().width(), size().height() - row * 1.5);
    for (const Label& label : m_labels)
        label.words->setPos(plot.right() + row / 2, y(label.at) - row / 2);
    for (const Label& tick : m_sideTicks) {
        tick.line->setLine(plot.left(), y(tick.at), plot.right(), y(tick.at));
        tick.words->setPos(plot.left() - tick.words->boundingRect().width() - row / 2, y(tick.at) - row / 2);
    }
    for (const Label& tick : m_footTicks) {
        tick.line->setLine(x(tick.at), plot.top(), x(tick.at), plot.bottom());
        tick.words->setPos(x(tick.at) - tick.words->boundingRect().width() / 2, plot.bottom() + row / 4);
    }
}

void draw(const AgreementPoints& points, const ChartLook& look, QPainter& painter, const QRectF& area,
          double pixelsWide)
{
    drawChart(std::make_unique<AgreementChart>(points, look), painter, area, pixelsWide);
}

} // namespace charts
