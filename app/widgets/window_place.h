#pragma once

#include <QRect>

class QWidget;

namespace widgets
{

/// Where a window stands on a screen: as wished, but moved and made smaller as far as the screen's room, less
/// what the desktop draws around a window, asks for it.
QRect fitted(QRect wished, const QRect& room);

/// Makes a window that is not shown yet as large as wished, as far as its screen has room.
void resizeTo(QSize wished, QWidget& window);

} // namespace widgets
