#pragma once

#include <QColor>
#include <QPainterPath>

#include <vector>

namespace charts
{

/// An area of a chart that is shaded, in the numbers of its axes.
struct Tint {
    QPainterPath area;
    QColor colour; ///< with its alpha
};

/// The same look on a ground in opaque colours, as PDF/A-1b asks: where tints overlap there is one of its own
/// for what they have in common. To be painted in this order.
std::vector<Tint> opaque(const std::vector<Tint>& tints, const QColor& ground);

} // namespace charts
