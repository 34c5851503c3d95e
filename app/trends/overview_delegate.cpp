#include "app/trends/overview_delegate.h"

#include "app/charts/line_of_words.h"
#include "app/charts/mark.h"
#include "app/charts/trend_chart.h"
#include "app/trends/overview_model.h"
#include "app/widgets/theme.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace trends
{

namespace
{

constexpr int leastHeight = 52;
constexpr int valueMost = 190; ///< of a value that is many words, elided beyond
constexpr double sideMark = 7;
constexpr size_t manyResults = 30; ///< beyond which marks would hide the line

const OverviewModel& modelOf(const QModelIndex& index)
{
    return *qobject_cast<const OverviewModel*>(index.model());
}

/// The share of a side in the height of a row.
QRectF lineBox(const QRectF& box, size_t place, size_t count)
{
    const double height =
        std::min(box.height() / double(count), QFontMetricsF(widgets::bodyFont()).height() + 4);
    const double top = box.center().y() - height * double(count) / 2;
    return {box.left(), top + height * double(place), box.width(), height};
}

void paintTest(QPainter& painter, const QRectF& box, const OverviewRow& row, const widgets::Colours& colours)
{
    painter.setPen(colours.text);
    charts::drawElided(painter, lineBox(box, 0, 2), Qt::AlignLeft | Qt::AlignVCenter, row.title);
    painter.setFont(widgets::captionFont());
    painter.setPen(colours.quiet);
    charts::drawElided(painter, lineBox(box, 1, 2), Qt::AlignLeft | Qt::AlignVCenter, row.section);
}

void paintCourse(QPainter& painter, const QRectF& box, const OverviewRow& row, const OverviewTime& time,
                 const charts::ChartLook& look)
{
    const QRectF area = courseArea(box);
    const widgets::Colours& colours = look.colours;
    for (const auto& [day, style] :
         {std::pair(time.referenceDay, Qt::DotLine), std::pair(time.visitDay, Qt::SolidLine)}) {
        if (!day)
            continue;
        const double at = charts::courseX(time.axis, area, *day);
        painter.setPen(QPen(colours.accent, 1.4, style));
        painter.drawLine(QPointF(at, box.top()), QPointF(at, box.bottom()));
    }
    std::vector<charts::Course> courses;
    courses.reserve(row.lines.size());
    for (const OverviewLine& line : row.lines) {
        const QColor colour = charts::colourOf(line.side, look);
        courses.push_back({line.course, line.target, line.side, colour, colour,
                           line.course.size() > manyResults ? 0.0 : 4.0});
    }
    charts::drawCourses(painter, courses, time.axis, area, colours);
}

constexpr double sideGap = widgets::space1;

/// "● right" before the first of the columns with a line a side.
double sideWidth(const OverviewLine& line)
{
    return line.name.isEmpty()
               ? 0
               : sideMark + 2 * sideGap + QFontMetricsF(widgets::captionFont()).horizontalAdvance(line.name);
}

/// Words from the beginning of the box on; gives what is left of it.
class LinePainter
{
public:
    LinePainter(QPainter& painter, const QRectF& box) : m_painter(painter), m_box(box) {}

    void side(const OverviewLine& line, const charts::ChartLook& look)
    {
        if (line.name.isEmpty())
            return;
        const double aside = sideMark / 2;
        charts::drawMark(m_painter, charts::markOf(line.side),
                         {isMirrored() ? m_box.right() - aside : m_box.left() + aside, m_box.center().y()},
                         sideMark, charts::colourOf(line.side, look));
        leave(sideMark + sideGap);
        words(line.name, widgets::captionFont(), look.colours.quiet, sideGap);
    }

    void words(const QString& text, const QFont& font, const QColor& colour, double after)
    {
        if (m_box.width() <= 0)
            return;
        m_painter.setFont(font);
        m_painter.setPen(colour);
        charts::drawElided(m_painter, m_box, Qt::AlignLeft | Qt::AlignVCenter, text);
        leave(QFontMetricsF(font).horizontalAdvance(text) + after);
    }

private:
    bool isMirrored() const { return m_painter.layoutDirection() == Qt::RightToLeft; }
    void leave(double width)
    {
        m_box = isMirrored() ? m_box.adjusted(0, 0, -width, 0) : m_box.adjusted(width, 0, 0, 0);
    }

    QPainter& m_painter;
    QRectF m_box;
};

int valueWidth(const QString& words, const QString& quiet)
{
    const double all = QFontMetricsF(widgets::bodyFont()).horizontalAdvance(words) + widgets::space2 +
                       QFontMetricsF(widgets::captionFont()).horizontalAdvance(quiet);
    return std::min(int(all), valueMost) + 2 * widgets::space2;
}

/// What a column says of one side.
void paintLine(QPainter& painter, const QRectF& box, const OverviewLine& line, int column, const QFont& font,
               const charts::ChartLook& look)
{
    if (column == OverviewModel::Meaning) {
        widgets::drawMeaning(painter, box, line.meaning, font, look.colours);
        return;
    }
    LinePainter written(painter, box);
    if (column == OverviewModel::First) {
        written.side(line, look);
        written.words(line.first, widgets::figureFont(), look.colours.text, 0);
    } else {
        written.words(line.now, widgets::figureFont(), look.colours.text, widgets::space2);
        written.words(line.day, widgets::captionFont(), look.colours.quiet, 0);
    }
}

int lineWidth(const OverviewLine& line, int column, const QFont& font)
{
    if (column == OverviewModel::Meaning)
        return widgets::meaningWidth(font, line.meaning);
    return column == OverviewModel::First ? int(sideWidth(line)) + valueWidth(line.first, {})
                                          : valueWidth(line.now, line.day);
}

} // namespace

QRectF courseArea(const QRectF& column)
{
    return column.adjusted(widgets::space2, widgets::space1, -widgets::space2, -widgets::space1);
}

int overviewHeight(const QFont& font)
{
    return std::max(leastHeight, 2 * QFontMetrics(font).height() + widgets::space2);
}

void OverviewDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const
{
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const charts::ChartLook look{widgets::coloursFor(item.palette), true, {}};
    const OverviewModel& model = modelOf(index);
    const OverviewRow& row = model.row(index.row());
    const QStyle& style = *item.widget->style();
    item.text.clear();
    painter->save();
    style.drawControl(QStyle::CE_ItemViewItem, &item, painter, item.widget);
    const QRectF box = QRectF(item.rect).adjusted(widgets::space2, 0, -widgets::space2, 0);
    painter->setFont(item.font);
    if (index.column() == OverviewModel::Test) {
        paintTest(*painter, style.subElementRect(QStyle::SE_ItemViewItemText, &item, item.widget), row,
                  look.colours);
    } else if (index.column() == OverviewModel::Course) {
        paintCourse(*painter, item.rect, row, model.time(), look);
    } else {
        for (size_t place = 0; place < row.lines.size(); ++place)
            paintLine(*painter, lineBox(box, place, row.lines.size()), row.lines[place], index.column(),
                      item.font, look);
    }
    painter->restore();
}

QSize OverviewDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    const OverviewRow& row = modelOf(index).row(index.row());
    int width = 0;
    if (index.column() >= OverviewModel::First) {
        for (const OverviewLine& line : row.lines)
            width = std::max(width, lineWidth(line, index.column(), option.font));
    }
    return {width, overviewHeight(option.font)};
}

} // namespace trends
