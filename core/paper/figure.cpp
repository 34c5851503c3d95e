#include "core/paper/figure.h"

#include <QPainter>

namespace paper
{

std::optional<letters::Figure> logoFrom(const QByteArray& bytes)
{
    const QImage picture = QImage::fromData(bytes).convertToFormat(QImage::Format_ARGB32);
    if (picture.isNull())
        return std::nullopt;
    QImage opaque(picture.size(), QImage::Format_RGB32); // PDF/A knows no half seen colours
    opaque.fill(Qt::white);
    QPainter(&opaque).drawImage(0, 0, picture);
    return letters::Figure{
        {},
        QSizeF(opaque.size()).scaled(60, 16, Qt::KeepAspectRatio),
        [opaque](QPainter& painter, const QRectF& place) { painter.drawImage(place, opaque); }};
}

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
