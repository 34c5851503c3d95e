#include "app/trends/overview_header.h"

#include "app/charts/happening_row.h"
#include "app/session/messages.h"
#include "app/trends/overview_delegate.h"
#include "app/trends/overview_model.h"
#include "app/widgets/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace trends
{

namespace
{

double headerRow()
{
    return QFontMetricsF(widgets::captionFont()).height() + 2;
}

} // namespace

OverviewHeader::OverviewHeader(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {}

QSize OverviewHeader::sizeHint() const
{
    return {QHeaderView::sizeHint().width(), int(3 * headerRow()) + widgets::space1};
}

void OverviewHeader::paintSection(QPainter* painter, const QRect& rect, int column) const
{
    painter->save();
    QHeaderView::paintSection(painter, rect, column);
    painter->restore();
    const auto* shown = qobject_cast<const OverviewModel*>(model());
    if (column != OverviewModel::Course || shown == nullptr)
        return;
    const OverviewTime& time = shown->time();
    const widgets::Colours& colours = widgets::coloursFor(palette());
    const QRectF area = courseArea(rect);
    const auto x = [&](QDate day) { return charts::courseX(time.axis, area, day); };
    const double height = headerRow();
    painter->save();
    painter->setClipRect(rect);
    painter->setLayoutDirection(Qt::LeftToRight); // time runs so in every language
    painter->setFont(widgets::captionFont());
    charts::drawHappenings(*painter, time.happenings, {area.left(), area.top(), area.width(), height}, x,
                           colours);
    const auto words = [&](double at, double top, const QString& text) {
        const double width = QFontMetricsF(painter->font()).horizontalAdvance(text);
        const double left =
            std::clamp(at - width / 2, area.left(), std::max(area.left(), area.right() - width));
        painter->setPen(colours.quiet);
        painter->drawText(QRectF(left, top, width + 1, height), Qt::AlignLeft | Qt::AlignVCenter, text);
        return left;
    };
    const double middle = area.top() + height;
    double room = area.right();
    if (time.visitDay)
        room = words(x(*time.visitDay), middle, tr("this visit")) - widgets::space2;
    if (time.referenceDay && *time.referenceDay != time.visitDay) {
        const QString reference = tr("reference visit");
        const double half = QFontMetricsF(painter->font()).horizontalAdvance(reference) / 2;
        words(std::min(x(*time.referenceDay), room - half), middle, reference);
    }
    const charts::Axis dated =
        charts::withDates(time.axis, std::max(2, int(area.width() / 70)), session::screenPhrases());
    for (const charts::Tick& tick : dated.ticks)
        words(x(QDate::fromJulianDay(qint64(tick.at))), middle + height, tick.words);
    painter->restore();
}

} // namespace trends
