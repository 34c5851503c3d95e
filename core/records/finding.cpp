#include "core/records/finding.h"

#include <array>

namespace records
{

namespace
{

constexpr std::array sides = {"none", "right", "left"};

} // namespace

QString code(Side side)
{
    return QString::fromLatin1(sides.at(static_cast<size_t>(side)));
}

std::optional<Side> sideFromCode(const QString& text)
{
    for (size_t i = 0; i < sides.size(); ++i) {
        if (text == QLatin1String(sides[i]))
            return static_cast<Side>(i);
    }
    return std::nullopt;
}

} // namespace records
