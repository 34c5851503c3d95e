#include "core/reading/facts.h"

#include <algorithm>
#include <span>

using namespace Qt::StringLiterals;

namespace reading
{

namespace
{

using records::Finding;
using records::Visit;

const QString nystagmus = u"nystagmus"_s;
const QString vertical = u"upbeat-or-downbeat"_s;
const QString injury = u"with injury"_s;

/// What was found at the newest of these visits at which the test was done or tried.
struct Earlier {
    const Finding* finding = nullptr;
    QDate day;
};

Earlier earlier(std::span<const Visit> visits, const Finding& now)
{
    for (size_t place = visits.size(); place > 0; --place) {
        const Visit& visit = visits[place - 1];
        const Finding* found = visit.finding(now.measure, now.side);
        if (found != nullptr && (values::isDone(found->value) || values::isUnable(found->value)))
            return {found, visit.day};
    }
    return {};
}

Fact factOf(Fact::Kind kind, const Finding& now, const Earlier& before)
{
    Fact fact{kind, now.measure, now.side, std::nullopt, before.day, {}};
    if (before.finding != nullptr)
        fact.before = *before.finding;
    return fact;
}

bool isVertical(const Finding& finding)
{
    const auto* choice = std::get_if<values::Choice>(&finding.value);
    return finding.measure == nystagmus && choice != nullptr && choice->key == vertical;
}

} // namespace

std::vector<Fact> facts(const records::VisitId& id, const std::vector<Visit>& visits,
                        const std::vector<records::Happening>& happenings,
                        const catalogue::Catalogue& catalogue)
{
    const auto now = std::ranges::find(visits, id, &Visit::id);
    if (now == visits.end())
        return {};
    const std::span<const Visit> before(visits.data(), size_t(now - visits.begin()));
    std::vector<Fact> all;
    for (const Finding& finding : now->findings) {
        const catalogue::Measure* measure = catalogue.measure(finding.measure);
        if (measure == nullptr)
            continue;
        const Earlier known = earlier(before, finding);
        if (isVertical(finding) && (known.finding == nullptr || !isVertical(*known.finding)))
            all.push_back(factOf(Fact::Kind::VerticalNystagmus, finding, known));
        if (measure->countsEvents && finding.signs.contains(injury))
            all.push_back(factOf(Fact::Kind::InjuriousFall, finding, {}));
        if (values::isUnable(finding.value) && known.finding != nullptr &&
            values::isDone(known.finding->value))
            all.push_back(factOf(Fact::Kind::BecameUnable, finding, known));
    }
    for (const records::Happening& each : happenings) {
        const bool isSince = before.empty() || each.from > before.back().day;
        if (each.kind == records::HappeningKind::Fall && each.injury == records::Injury::Yes && isSince &&
            each.from <= now->day)
            all.push_back(
                {Fact::Kind::InjuriousFall, {}, records::Side::None, std::nullopt, each.from, each.words});
    }
    return all;
}

} // namespace reading
