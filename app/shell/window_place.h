#pragma once

#include <QRect>

namespace shell
{

/// Where a window stands on a screen: as wished, but moved and made smaller as far as the screen's room, less
/// what the desktop draws around a window, asks for it.
QRect fitted(QRect wished, const QRect& room);

} // namespace shell
