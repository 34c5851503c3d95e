#include "app/charts/scene_drawing.h"

#include <QGraphicsScene>
#include <QPainter>

namespace charts
{

void drawChart(std::unique_ptr<QChart> chart, QPainter& painter, const QRectF& area, double pixelsWide)
{
    QGraphicsScene scene;
    QChart* drawn = chart.release();
    scene.addItem(drawn);
    const QRectF size(0, 0, pixelsWide, pixelsWide * area.height() / area.width());
    drawn->resize(size.size());
    scene.setSceneRect(size);
    painter.save();
    scene.render(&painter, area, size);
    painter.restore();
}

} // namespace charts
