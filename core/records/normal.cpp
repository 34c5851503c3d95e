#include "core/records/normal.h"

#include <algorithm>

namespace records
{

std::optional<values::Value> normalValue(const catalogue::Measure& measure)
{
    if (measure.kind == catalogue::Kind::Grade && measure.lowest && measure.highest) {
        if (measure.better == catalogue::Direction::Neither)
            return std::nullopt;
        const bool lowIsBest = measure.better == catalogue::Direction::LowerIsBetter;
        return values::Grade{int(lowIsBest ? *measure.lowest : *measure.highest)};
    }
    if (measure.kind == catalogue::Kind::Choice) {
        static const QStringList normal = {QStringLiteral("normal"), QStringLiteral("none"),
                                           QStringLiteral("negative")};
        const auto found = std::ranges::find_if(
            measure.options, [](const catalogue::Option& option) { return normal.contains(option.key); });
        if (found != measure.options.end())
            return values::Choice{found->key};
    }
    return std::nullopt;
}

} // namespace records
