#include "app/charts/letter_figure.h"

#include "app/charts/chart_files.h"

namespace charts
{

std::optional<letters::Figure> letterFigure(const TrendQuestion& question,
                                            const std::vector<records::Visit>& visits,
                                            const records::Patient& patient,
                                            const catalogue::Catalogue& catalogue,
                                            const base::Phrasebook& phrases)
{
    const TrendPoints points = trendPoints(question, visits, patient, catalogue, phrases);
    if (points.isEmpty())
        return std::nullopt;
    constexpr double widthMm = 165;
    const ChartLook look = paperLook();
    return letters::Figure{points.title, QSizeF(widthMm, heightForWidth(points, look, widthMm)),
                           [points, look, phrases](QPainter& painter, const QRectF& area) {
                               draw(points, look, phrases, painter, area);
                           }};
}

} // namespace charts
