#include "app/charts/happening_row.h"

#include "app/widgets/happening_mark.h"
#include "app/widgets/theme.h"

#include <algorithm>

namespace charts
{

namespace
{

/// a to z, then aa, ab …
QString letterOf(size_t place)
{
    constexpr size_t letters = 26;
    const QString last(QChar(u'a' + char16_t(place % letters)));
    return place < letters ? last : letterOf(place / letters - 1) + last;
}

} // namespace

std::vector<TrendHappening> happeningsWithin(const std::vector<records::Happening>& happenings, QDate from,
                                             QDate to, const base::Phrasebook& phrases)
{
    std::vector<TrendHappening> made;
    for (const records::Happening& each : happenings) {
        const QDate until = each.until.value_or(each.from);
        if (until < from || each.from > to)
            continue;
        made.push_back(
            {std::max(from, each.from), std::min(to, until), each.kind, letterOf(made.size()),
             phrases("%1 (%2)").arg(records::kindWords(each, phrases), records::daysInWords(each, phrases))});
    }
    return made;
}

QString happeningsTold(const std::vector<TrendHappening>& happenings, const base::Phrasebook& phrases)
{
    QStringList told;
    for (const TrendHappening& each : happenings)
        told << phrases("%1: %2").arg(each.letter, each.words);
    return told.isEmpty() ? QString() : phrases("Between visits: %1.").arg(phrases.joined("%1; %2", told));
}

void drawHappenings(QPainter& painter, const std::vector<TrendHappening>& happenings, const QRectF& row,
                    const std::function<double(QDate)>& x, const widgets::Colours& colours)
{
    for (const TrendHappening& each : happenings) {
        const QPointF first(x(each.from), row.center().y());
        const QPointF last(x(each.until), row.center().y());
        painter.setPen(QPen(colours.quiet, 3, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(first, last);
        widgets::drawHappening(painter, first, 8, each.kind, colours.text);
        painter.setPen(colours.text);
        const double room = 2 * row.height(); // before the mark, since a bar may follow it
        painter.drawText(QRectF(first.x() - 7 - room, row.top(), room, row.height()),
                         Qt::AlignRight | Qt::AlignVCenter, each.letter);
    }
}

} // namespace charts
