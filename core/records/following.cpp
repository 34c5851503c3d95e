#include "core/records/following.h"

namespace records
{

std::optional<values::Choice> followingChoice(const catalogue::Measure& measure, const Visit& visit)
{
    if (!measure.following)
        return std::nullopt;
    const Finding* hold = visit.finding(measure.following->hold, Side::None);
    if (hold == nullptr)
        return std::nullopt;
    const auto* missing = std::get_if<values::Missing>(&hold->value);
    const auto seconds = values::number(hold->value);
    const bool isUnsteady = missing != nullptr ? missing->why == values::Absence::Unable
                                               : seconds && *seconds < measure.following->steadyFrom;
    return isUnsteady ? std::optional(values::Choice{measure.following->choice}) : std::nullopt;
}

} // namespace records
