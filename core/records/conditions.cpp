#include "core/records/conditions.h"

namespace records
{

Conditions withExceptions(Conditions conditions, const Conditions& exceptions)
{
    for (const auto& [id, value] : exceptions.asKeyValueRange())
        conditions[id] = value;
    return conditions;
}

} // namespace records
