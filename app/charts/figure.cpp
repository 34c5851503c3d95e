#include "app/charts/figure.h"

#include "app/charts/chart_files.h"
#include "app/charts/trend_words.h"

#include <QPainter>

namespace charts
{

std::optional<letters::Figure> figureOf(const QString& chart, const letters::Material& material,
                                        const catalogue::Catalogue& catalogue,
                                        const base::Phrasebook& phrases)
{
    const records::Visit* visit = material.record.visit();
    if (visit == nullptr)
        return std::nullopt;
    TrendQuestion question{chart.section(u'/', 0, 0), std::nullopt, visit->id, material.letter.reference};
    const auto side = records::sideFromCode(chart.section(u'/', 1));
    if (side && *side != records::Side::None)
        question.side = side;
    const TrendPoints points = trendPoints(question, material.record.visits(), material.patient, catalogue,
                                           phrases, material.clinic.judging);
    return points.isEmpty() ? std::nullopt : std::optional(figure(points, phrases));
}

letters::Figure figure(const TrendPoints& points, const base::Phrasebook& phrases)
{
    constexpr double widthMm = 165;
    const ChartLook look = paperLook();
    return {points.title, QSizeF(widthMm, heightForWidth(points, look, widthMm)),
            [points, look, phrases](QPainter& painter, const QRectF& area) {
                draw(points, look, phrases, painter, area);
            },
            spoken(points, phrases)};
}

} // namespace charts
