#include "app/widgets/window_place.h"

#include <QMargins>
#include <QScreen>
#include <QWidget>

#include <algorithm>

namespace widgets
{

namespace
{

constexpr QMargins frame(4, 34, 4, 4); // title and border, as wide as usual desktops draw them

} // namespace

QRect fitted(QRect wished, const QRect& room)
{
    const QRect inside = room.marginsRemoved(frame);
    wished.setSize(wished.size().boundedTo(inside.size()));
    const QPoint last = inside.bottomRight() - QPoint(wished.width() - 1, wished.height() - 1);
    wished.moveTo(std::clamp(wished.x(), inside.x(), last.x()), std::clamp(wished.y(), inside.y(), last.y()));
    return wished;
}

void resizeTo(QSize wished, QWidget& window)
{
    window.resize(fitted({{0, 0}, wished}, window.screen()->availableGeometry()).size());
}

} // namespace widgets
