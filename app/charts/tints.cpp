#include "app/charts/tints.h"

namespace charts
{

namespace
{

/// What is seen of a colour over an opaque one (Porter & Duff 1984, "over").
QColor over(const QColor& colour, const QColor& ground)
{
    const auto mixed = [&](float above, float below) {
        return above * colour.alphaF() + below * (1 - colour.alphaF());
    };
    return QColor::fromRgbF(mixed(colour.redF(), ground.redF()), mixed(colour.greenF(), ground.greenF()),
                            mixed(colour.blueF(), ground.blueF()));
}

} // namespace

std::vector<Tint> opaque(const std::vector<Tint>& tints, const QColor& ground)
{
    std::vector<Tint> all;
    for (const Tint& tint : tints) {
        const std::vector<Tint> below = all;
        all.push_back({tint.area, over(tint.colour, ground)});
        for (const Tint& other : below) {
            if (const QPainterPath common = other.area.intersected(tint.area); !common.isEmpty())
                all.push_back({common, over(tint.colour, other.colour)});
        }
    }
    return all;
}

} // namespace charts
