#include "core/records/finding.h"

#include "core/records/codes.h"

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
    return fromCode<Side>(sides, text);
}

} // namespace records
