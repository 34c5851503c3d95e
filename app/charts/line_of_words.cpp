#include "app/charts/line_of_words.h"

#include <QFontMetricsF>

namespace charts
{

void drawElided(QPainter& painter, const QRectF& box, Qt::Alignment where, const QString& text)
{
    const QFontMetricsF metrics(painter.font());
    painter.drawText(box, int(where | Qt::TextSingleLine),
                     metrics.elidedText(text, Qt::ElideRight, box.width() + 1));
}

} // namespace charts
