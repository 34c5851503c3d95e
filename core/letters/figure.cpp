#include "core/letters/figure.h"

namespace letters
{

QImage pictureOf(const Figure& figure, double dotsPerInch)
{
    const QSizeF inches = figure.sizeMm / 25.4;
    QImage picture((inches * dotsPerInch).toSize(), QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(dotsPerInch / pixelsPerInch, dotsPerInch / pixelsPerInch);
    figure.draw(painter, QRectF(QPointF(0, 0), inches * pixelsPerInch));
    return picture;
}

} // namespace letters
