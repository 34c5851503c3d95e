#include "core/judging/drift.h"

#include "core/statistics/sign_test.h"

#include <algorithm>

namespace judging
{

namespace
{

constexpr double level = 0.05;

bool isSaidTwice(const catalogue::Measure& measure, const Glance& glance,
                 const catalogue::Catalogue& catalogue)
{
    const auto isThere = [&](const QString& id) {
        return std::ranges::any_of(glance.order,
                                   [&](size_t place) { return glance.changes[place].measure == id; });
    };
    if (!measure.partOf.isEmpty() && isThere(measure.partOf))
        return true;
    return measure.computed && std::ranges::any_of(measure.computed->parts, [&](const QString& part) {
               const catalogue::Measure* other = catalogue.measure(part);
               return other != nullptr && other->partOf != measure.id && isThere(part);
           });
}

} // namespace

std::optional<Drift> driftOf(const Glance& glance, const catalogue::Catalogue& catalogue)
{
    int better = 0;
    int worse = 0;
    for (const size_t place : glance.order) {
        const Comparison* held = decidingOf(glance.changes[place]);
        const catalogue::Measure* measure = catalogue.measure(glance.changes[place].measure);
        const bool isWithin = held != nullptr && glance.outcomes[place].kind == OutcomeKind::AsBefore &&
                              held->verdict == Verdict::WithinError && !held->own &&
                              held->difference.value_or(0) != 0;
        if (!isWithin || measure == nullptr || measure->better == catalogue::Direction::Neither ||
            isSaidTwice(*measure, glance, catalogue))
            continue;
        const bool isUp = *held->difference > 0;
        ++(isUp == (measure->better == catalogue::Direction::HigherIsBetter) ? better : worse);
    }
    const double p = statistics::signTest(better, worse);
    if (p > level)
        return std::nullopt;
    return Drift{better > worse ? Verdict::Better : Verdict::Worse, std::max(better, worse), better + worse,
                 p};
}

} // namespace judging
