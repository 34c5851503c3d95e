#include "core/judging/composite.h"

#include "core/judging/comparability.h"
#include "core/values/quantity.h"

#include <array>

using namespace Qt::StringLiterals;

namespace judging
{

namespace
{

using records::Occasion;
using records::Side;

constexpr double worseBy = 1.2;
constexpr qint64 daysOfAWeek = 7;

struct Component {
    QString measure;
    Side side = Side::None;
};

const std::array<Component, 3>& components()
{
    static const std::array<Component, 3> all = {{{u"timed-25-foot-walk"_s, Side::None},
                                                  {u"nine-hole-peg"_s, Side::Right},
                                                  {u"nine-hole-peg"_s, Side::Left}}};
    return all;
}

/// The numbers that are comparable with the first of them, oldest first.
std::vector<RunPoint> comparableWithFirst(const std::vector<Occasion>& history,
                                          const catalogue::Measure& measure, const Ground& ground)
{
    std::vector<RunPoint> points;
    const Occasion* first = nullptr;
    for (const Occasion& occasion : history) {
        if (!values::number(occasion.finding.value))
            continue;
        if (first == nullptr)
            first = &occasion;
        if (comparability(measure, ground.catalogue, ground.patient.population, *first, occasion)
                .isComparable())
            points.push_back(pointOf(occasion));
    }
    return points;
}

std::optional<CompositeWorsening> worsening(const Component& component, const Ground& ground)
{
    const catalogue::Measure* measure = ground.catalogue.measure(component.measure);
    if (measure == nullptr)
        return std::nullopt;
    const std::vector<RunPoint> points =
        comparableWithFirst(records::history(ground.visits, ground.catalogue, component.measure,
                                             component.side, ground.patient.declared),
                            *measure, ground);
    const RunPoint* seen = nullptr;
    for (const RunPoint& point : points) {
        if (values::exceeds(*points.front().number * worseBy, *point.number)) {
            seen = nullptr;
        } else if (seen == nullptr) {
            seen = &point;
        } else if (seen->day.daysTo(point.day) >= daysOfAWeek * *ground.judging.compositeWeeks) {
            const double percent = (*point.number / *points.front().number - 1) * 100;
            return CompositeWorsening{
                component.measure, component.side, points.front(), *seen, point, percent};
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<CompositeWorsening> compositeWorsenings(const Ground& ground)
{
    std::vector<CompositeWorsening> found;
    if (!ground.judging.compositeWeeks ||
        !ground.catalogue.isWithin(ground.patient.population, u"multiple-sclerosis"_s))
        return found;
    for (const Component& component : components()) {
        if (const auto worse = worsening(component, ground))
            found.push_back(*worse);
    }
    return found;
}

} // namespace judging
