#include "core/records/occasion.h"

#include "core/records/visit.h"

namespace records
{

Occasion occasionOf(const Visit& visit, Finding finding)
{
    Conditions conditions = withExceptions(visit.conditions, finding.exceptions);
    return {visit.id, visit.day, visit.state, std::move(finding), std::move(conditions), {}, visit.series};
}

bool isNumber(const Occasion& occasion)
{
    return std::holds_alternative<values::Quantity>(occasion.finding.value);
}

bool isAnswered(const Finding& finding)
{
    const auto* missing = std::get_if<values::Missing>(&finding.value);
    return missing == nullptr || missing->why != values::Absence::NotAsked;
}

} // namespace records
