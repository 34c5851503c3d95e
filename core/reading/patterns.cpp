#include "core/reading/patterns.h"

#include "core/records/history.h"

#include <algorithm>

namespace reading
{

namespace
{

using catalogue::Look;
using catalogue::Measure;
using catalogue::PatternRule;
using records::Finding;
using records::Side;

/// Whether the test was done, so that something was seen.
bool isDone(const Finding* finding)
{
    return finding != nullptr && values::isDone(finding->value);
}

std::optional<double> numberOf(const Finding& finding)
{
    if (const auto* grade = std::get_if<values::Grade>(&finding.value))
        return grade->step;
    return values::number(finding.value);
}

bool holds(const Look& look, const Finding& finding)
{
    const auto* choice = std::get_if<values::Choice>(&finding.value);
    if (!look.options.isEmpty() && (choice == nullptr || !look.options.contains(choice->key)))
        return false;
    if (look.from || look.to) {
        const auto number = numberOf(finding);
        if (!number || (look.from && *number < *look.from) || (look.to && *number > *look.to))
            return false;
    }
    return look.signs.isEmpty() ||
           std::ranges::any_of(look.signs, [&](const QString& sign) { return finding.signs.contains(sign); });
}

class Reader
{
public:
    Reader(const records::Visit& visit, const catalogue::Catalogue& catalogue)
        : m_visit(visit), m_catalogue(catalogue)
    {
    }

    PatternReading read(const catalogue::Pattern& pattern)
    {
        PatternReading reading;
        reading.pattern = pattern.id;
        for (const QString& id : pattern.needs) {
            const Measure* measure = m_catalogue.measure(id);
            for (const Side side : measure == nullptr ? std::vector<Side>() : records::sidesOf(*measure))
                addUntested(reading.needed, {id, side});
        }
        if (!reading.needed.empty())
            return reading;
        reading.supports = bearings(pattern.supports, reading.notTested);
        reading.contradicts = bearings(pattern.contradicts, reading.notTested);
        return reading;
    }

private:
    void addUntested(std::vector<Place>& places, const Place& place) const
    {
        if (!isDone(m_visit.finding(place.measure, place.side)) &&
            std::ranges::find(places, place) == places.end())
            places.push_back(place);
    }

    /// The sides on which a rule is looked at: right and left where any of its tests has sides.
    std::vector<Side> sidesOf(const PatternRule& rule) const
    {
        const bool hasSides = std::ranges::any_of(rule.looks, [&](const Look& look) {
            const Measure* measure = m_catalogue.measure(look.measure);
            return measure != nullptr && measure->hasSides;
        });
        return hasSides ? std::vector<Side>{Side::Right, Side::Left} : std::vector<Side>{Side::None};
    }

    Place placeOf(const Look& look, Side side) const
    {
        const Measure* measure = m_catalogue.measure(look.measure);
        return {look.measure, measure != nullptr && measure->hasSides ? side : Side::None};
    }

    std::vector<Bearing> bearings(const std::vector<PatternRule>& rules, std::vector<Place>& notTested) const
    {
        std::vector<Bearing> all;
        for (size_t rule = 0; rule < rules.size(); ++rule) {
            for (const Side side : sidesOf(rules[rule])) {
                Bearing bearing{{}, rule};
                bool isHeld = true;
                for (const Look& look : rules[rule].looks) {
                    const Place place = placeOf(look, side);
                    const Finding* finding = m_visit.finding(place.measure, place.side);
                    bearing.places.push_back(place);
                    isHeld = isHeld && isDone(finding) && holds(look, *finding);
                    addUntested(notTested, place);
                }
                if (isHeld)
                    all.push_back(std::move(bearing));
            }
        }
        return all;
    }

    const records::Visit& m_visit;
    const catalogue::Catalogue& m_catalogue;
};

} // namespace

std::vector<PatternReading> readings(const records::Visit& visit, const catalogue::Catalogue& catalogue)
{
    Reader reader(visit, catalogue);
    std::vector<PatternReading> all;
    all.reserve(catalogue.patterns.size());
    for (const catalogue::Pattern& pattern : catalogue.patterns)
        all.push_back(reader.read(pattern));
    return all;
}

} // namespace reading
