#pragma once

#include <QPainter>

namespace charts
{

inline constexpr double gap = 6; ///< between a mark and its word

/// One line of the painter's type in a box, elided where it is too long.
void drawElided(QPainter& painter, const QRectF& box, Qt::Alignment where, const QString& text);

} // namespace charts
