#include "app/widgets/big_key.h"

#include "app/widgets/theme.h"

#include <QAbstractButton>
#include <QPainter>

namespace widgets
{

void drawBigKey(QAbstractButton& key, bool isRunning, const QString& number, const QString& below)
{
    const Colours& colours = coloursFor(key.palette());
    QPainter painter(&key);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colours.accent, key.hasFocus() ? 2.5 : 1.5));
    painter.setBrush(isRunning ? colours.accent : key.underMouse() ? colours.accentSoft : colours.panel);
    painter.drawRoundedRect(QRectF(key.rect()).adjusted(1, 1, -1, -1), 8, 8);
    painter.setPen(isRunning ? colours.onAccent : colours.accent);
    painter.setFont(headingFont());
    const QRect room = key.rect().adjusted(0, space1, 0, -space1);
    painter.drawText(room.adjusted(0, 0, 0, -room.height() * 2 / 5), Qt::AlignCenter, number);
    painter.setFont(captionFont());
    painter.drawText(room.adjusted(0, room.height() * 3 / 5, 0, 0), Qt::AlignCenter, below);
}

} // namespace widgets
