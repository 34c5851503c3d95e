#include "app/charts/trend_overlay.h"

#include "app/charts/lanes.h"
#include "app/charts/line_of_words.h"
#include "app/widgets/verdict_mark.h"

#include <QFontMetricsF>

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace charts
{

namespace
{

struct LimitLabel {
    double y = 0;
    std::optional<judging::Verdict> verdict; ///< empty: a target
    std::optional<records::Side> side;       ///< where there is more than one line
    QString words;                           ///< "better < 22.6 s"
};

/// Moves labels apart so that none covers another, and none lies below `lowest`.
void spread(std::vector<LimitLabel>& labels, double apart, double lowest)
{
    std::ranges::sort(labels, {}, &LimitLabel::y);
    for (size_t i = 1; i < labels.size(); ++i)
        labels[i].y = std::max(labels[i].y, labels[i - 1].y + apart);
    for (size_t i = labels.size(); i-- > 0; lowest = labels[i].y - apart)
        labels[i].y = std::min(labels[i].y, lowest);
}

} // namespace

TrendOverlay::TrendOverlay(TrendChart& chart) : QGraphicsItem(&chart), m_chart(chart), m_fonts(chartFonts())
{
    setZValue(1000);
    setAcceptedMouseButtons(Qt::NoButton);
}

void TrendOverlay::cover(const QRectF& area)
{
    prepareGeometryChange();
    m_area = area;
    update();
}

double TrendOverlay::y(double number) const
{
    const QRectF& plot = m_chart.frame().plot;
    return plot.bottom() - m_chart.values().share(number) * plot.height();
}

void TrendOverlay::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*)
{
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setLayoutDirection(Qt::LeftToRight); // time runs so in every language; rows of words do not
    const TrendPoints& points = m_chart.points();
    paintHead(*painter);
    paintAxes(*painter);
    const auto isShown = [&](const std::optional<QDate>& day) { return day && m_chart.isShown(*day); };
    if (isShown(points.referenceDay) && points.referenceDay != points.visitDay)
        paintPlumbLine(*painter, *points.referenceDay, true);
    if (isShown(points.visitDay))
        paintPlumbLine(*painter, *points.visitDay, false);
    paintHappenings(*painter, m_chart, m_fonts);
    paintBreaks(*painter);
    paintCapped(*painter);
    paintLimits(*painter);
    paintLane(*painter, m_chart, m_fonts);
    paintEvents(*painter, m_chart, m_fonts);
    paintRemarks(*painter);
}

void TrendOverlay::paintHead(QPainter& painter) const
{
    const TrendPoints& points = m_chart.points();
    const widgets::Colours& colours = m_chart.look().colours;
    const QFontMetricsF heading(m_fonts.heading);
    QRectF row = m_chart.frame().head;
    row.setHeight(heading.height());
    painter.setFont(m_fonts.heading);
    painter.setPen(colours.text);
    const bool isRightToLeft = m_chart.phrases().direction() == Qt::RightToLeft;
    const Qt::Alignment start = isRightToLeft ? Qt::AlignRight : Qt::AlignLeft;
    const auto after = [isRightToLeft](const QRectF& box, double used) {
        return isRightToLeft ? box.adjusted(0, 0, -used, 0) : box.adjusted(used, 0, 0, 0);
    };
    drawElided(painter, row, start | Qt::AlignBottom, points.title);
    const double used = heading.horizontalAdvance(points.title) + 2 * gap;
    painter.setFont(m_fonts.caption);
    painter.setPen(colours.quiet);
    const double descent = heading.descent() - QFontMetricsF(m_fonts.caption).descent();
    drawElided(painter, after(row, used).adjusted(0, 0, 0, -descent), start | Qt::AlignBottom,
               points.direction);

    painter.setFont(m_fonts.body);
    row.translate(0, row.height());
    row.setHeight(QFontMetricsF(m_fonts.body).height());
    for (const TrendLine& line : points.lines) {
        drawMark(painter, markOf(line.side),
                 {isRightToLeft ? row.right() - 5 : row.left() + 5, row.center().y()}, 8,
                 colourOf(line.side, m_chart.look()));
        painter.setPen(colours.text);
        for (const QString& words : line.heading) {
            const bool isNamed = !line.name.isEmpty() && &words == &line.heading.first();
            drawElided(painter, after(row, 10 + gap), start | Qt::AlignVCenter,
                       isNamed ? m_chart.phrases()("%1  %2").arg(line.name, words) : words);
            row.translate(0, row.height());
        }
    }
}

void TrendOverlay::paintAxes(QPainter& painter) const
{
    const Frame& frame = m_chart.frame();
    painter.setFont(m_fonts.caption);
    painter.setPen(m_chart.look().colours.quiet);
    for (const Tick& tick : m_chart.values().ticks) {
        const QRectF box(widgets::space4, y(tick.at) - frame.row / 2,
                         frame.plot.left() - widgets::space4 - gap, frame.row);
        drawElided(painter, box, Qt::AlignRight | Qt::AlignVCenter, tick.words);
    }
    const QRectF unit(widgets::space4, frame.words.top() - 2, frame.row * 3, frame.row);
    drawElided(painter, unit, Qt::AlignLeft | Qt::AlignVCenter, m_chart.points().unitWords);
    for (const Tick& tick : m_chart.time().ticks) {
        const double at = m_chart.x(QDate::fromJulianDay(qint64(tick.at)));
        painter.drawText(QRectF(at - 60, frame.dates.top(), 120, frame.row), Qt::AlignCenter, tick.words);
    }
}

/// Where the two lines are close, the word of the reference stands to the left of its line.
void TrendOverlay::paintPlumbLine(QPainter& painter, QDate day, bool isReference) const
{
    const Frame& frame = m_chart.frame();
    const widgets::Colours& colours = m_chart.look().colours;
    const base::Phrasebook& phrases = m_chart.phrases();
    const QString reference = m_chart.points().isBaseline ? phrases("baseline") : phrases("reference visit");
    const QString word = isReference ? reference : phrases("this visit");
    const double at = m_chart.x(day);
    painter.setPen(QPen(colours.accent, 1.4, isReference ? Qt::DotLine : Qt::SolidLine));
    painter.drawLine(QPointF(at, frame.words.top() + frame.row - 4), QPointF(at, frame.events.bottom()));
    painter.setFont(m_fonts.caption);
    painter.setPen(colours.quiet);
    const double width = QFontMetricsF(m_fonts.caption).horizontalAdvance(word) + 4;
    const auto& visitDay = m_chart.points().visitDay;
    const bool isClose = isReference && visitDay && std::abs(m_chart.x(*visitDay) - at) < 1.5 * width;
    const double left = isClose ? at - width - frame.row : at - width / 2;
    painter.drawText(QRectF(left, frame.words.top() - 2, width, frame.row), Qt::AlignCenter, word);
}

/// Two strokes across the top edge half-way between the two results, and beside them the number under which
/// the remarks tell what changed.
void TrendOverlay::paintBreaks(QPainter& painter) const
{
    const Frame& frame = m_chart.frame();
    const widgets::Colours& colours = m_chart.look().colours;
    painter.setFont(m_fonts.caption);
    int number = 0;
    for (const TrendBreak& each : m_chart.points().breaks) {
        ++number;
        const double at = (m_chart.x(each.from) + m_chart.x(each.to)) / 2;
        if (at < frame.plot.left() || at > frame.plot.right())
            continue;
        painter.setPen(QPen(colours.text, 1.4));
        for (const double aside : {-2.0, 2.0})
            painter.drawLine(QPointF(at + aside - 2, frame.plot.top() + 4),
                             QPointF(at + aside + 2, frame.plot.top() - 8));
        const QString words = QString::number(number);
        const double width = QFontMetricsF(painter.font()).horizontalAdvance(words);
        painter.drawText(QPointF(at - width / 2, frame.plot.top() - 11), words);
    }
}

/// The result is at least what is drawn.
void TrendOverlay::paintCapped(QPainter& painter) const
{
    for (const TrendLine& line : m_chart.points().lines) {
        const QColor colour = colourOf(line.side, m_chart.look());
        for (const TrendEntry& entry : line.entries) {
            if (!entry.isAtCap || !entry.number || !m_chart.isShown(entry.day))
                continue;
            const QPointF at(m_chart.x(entry.day), y(*entry.number));
            drawMark(painter, line.side == records::Side::Left ? Mark::OpenSquareUp : Mark::OpenCircleUp, at,
                     8, colour);
        }
    }
}

void TrendOverlay::paintLimits(QPainter& painter) const
{
    const Frame& frame = m_chart.frame();
    const widgets::Colours& colours = m_chart.look().colours;
    const TrendPoints& points = m_chart.points();
    const base::Phrasebook& phrases = m_chart.phrases();
    std::vector<LimitLabel> labels;
    for (const TrendLine& line : points.lines) {
        const auto add = [&](const std::optional<double>& limit, bool improved) {
            if (!limit)
                return;
            const bool upwards = improved == (points.better == catalogue::Direction::HigherIsBetter);
            const QString words = (improved ? phrases("better %1 %2") : phrases("worse %1 %2"))
                                      .arg(QString(upwards ? u'>' : u'<'), points.written(*limit, phrases));
            const bool isAlone = points.lines.size() == 1;
            labels.push_back({y(*limit), improved ? judging::Verdict::Better : judging::Verdict::Worse,
                              isAlone ? std::nullopt : std::optional(line.side), words});
        };
        if (line.limits) {
            add(line.limits->improved, true);
            add(line.limits->declined, false);
        }
    }
    for (const TrendTarget& target : points.targets)
        labels.push_back({y(target.number), std::nullopt,
                          target.side == records::Side::None ? std::nullopt : std::optional(target.side),
                          target.words});
    spread(labels, frame.row - 2, frame.plot.bottom() - frame.row / 2);
    painter.setFont(m_fonts.caption);
    for (const LimitLabel& label : labels) {
        double left = frame.plot.right() + 9;
        if (label.verdict)
            widgets::drawVerdict(painter, {left - 5, label.y - 5, 10, 10}, *label.verdict, colours);
        left += label.verdict ? 9 : 0;
        if (label.side) {
            drawMark(painter, markOf(*label.side), {left + 3, label.y}, 6,
                     colourOf(*label.side, m_chart.look()));
            left += 11;
        }
        painter.setPen(colours.text);
        drawElided(painter, {left, label.y - frame.row / 2, m_area.right() - left - 2, frame.row},
                   Qt::AlignLeft | Qt::AlignVCenter, label.words);
    }
}

void TrendOverlay::paintRemarks(QPainter& painter) const
{
    const Frame& frame = m_chart.frame();
    const QStringList rows = remarkRows(m_chart.points(), m_chart.look().note);
    const bool isRightToLeft = m_chart.phrases().direction() == Qt::RightToLeft;
    QRectF row = frame.remarks;
    row.setHeight(frame.row);
    painter.setFont(m_fonts.caption);
    painter.setPen(m_chart.look().colours.quiet);
    for (const QString& words : rows) {
        drawElided(painter, row, (isRightToLeft ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter, words);
        row.translate(0, frame.row);
    }
}

} // namespace charts
