#pragma once

#include "app/charts/axis.h"
#include "app/charts/chart_look.h"

#include <QChart>
#include <QValueAxis>

#include <optional>
#include <vector>

namespace charts
{

/// A Bland–Altman plot: differences of repeated results against their mean. Bland & Altman 1986, Lancet
/// i:307.
struct AgreementPoints {
    QString meanWords;           ///< along the foot: "Mean of both trials (s)"
    QString differenceWords;     ///< above the plot: "First − second (s)"
    std::vector<QPointF> points; ///< mean, difference
    double middle = 0;           ///< the line all would lie on without error; of two trials the bias
    QString middleWords;
    std::optional<double> lower; ///< limits of agreement
    std::optional<double> upper;
    QString lowerWords;
    QString upperWords;
    QString spoken; ///< the plot for someone who cannot see it
};

class AgreementChart : public QChart
{
public:
    AgreementChart(const AgreementPoints& points, const ChartLook& look, QGraphicsItem* parent = nullptr);

private:
    void addPoints(const AgreementPoints& points);
    void attach(QAbstractSeries* series);
    void addLine(double height, Qt::PenStyle style, const QString& words);
    QGraphicsSimpleTextItem* madeWords(const QString& words, bool isQuiet);
    void settle();

    struct Label {
        QGraphicsSimpleTextItem* words = nullptr;
        QGraphicsLineItem* line = nullptr; ///< of the grid; a line of the plot has none
        double at = 0;
    };

    std::vector<Label> madeTicks(const Axis& axis);
    double x(double mean) const;
    double y(double difference) const;

    ChartLook m_look;
    Axis m_foot;
    Axis m_side;
    QGraphicsSimpleTextItem* m_footWords;
    QGraphicsSimpleTextItem* m_sideWords;
    std::vector<Label> m_labels; ///< of the lines
    std::vector<Label> m_footTicks;
    std::vector<Label> m_sideTicks;
};

/// Draws the plot into the rectangle as vectors, its type scaled as in a chart of `pixelsWide` pixels.
void draw(const AgreementPoints& points, const ChartLook& look, QPainter& painter, const QRectF& area,
          double pixelsWide = 720);

} // namespace charts
