#include "core/paper/figure.h"

#include <QPainter>

namespace paper
{

QImage pictureOf(const letters::Figure& figure, double dotsPerInch)
{
    const QSizeF inches = figure.sizeMm / 25.4;
    QImage picture((inches * dotsPerInch).toSize(), QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(dotsPerInch / letters::pixelsPerInch, dotsPerInch / letters::pixelsPerInch);
    figure.draw(painter, QRectF(QPointF(0, 0), inches * letters::pixelsPerInch));
    return picture;
}

} // namespace paper
