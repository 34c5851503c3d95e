#include "app/charts/figure.h"

#include "app/charts/chart_files.h"

#include <QPainter>

namespace charts
{

letters::Figure figure(const TrendPoints& points, const base::Phrasebook& phrases)
{
    constexpr double widthMm = 165;
    const ChartLook look = paperLook();
    return {points.title, QSizeF(widthMm, heightForWidth(points, look, widthMm)),
            [points, look, phrases](QPainter& painter, const QRectF& area) {
                draw(points, look, phrases, painter, area);
            }};
}

} // namespace charts
