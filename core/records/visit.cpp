#include "core/records/visit.h"

#include "core/records/codes.h"

#include <algorithm>

namespace records
{

namespace
{

constexpr std::array states = {"draft", "signed", "amended"};

bool counts(const Visit& candidate, const Visit& rival, bool draftsToo)
{
    const bool isDraft = candidate.state == VisitState::Draft;
    const bool rivalIsDraft = rival.state == VisitState::Draft;
    if (!draftsToo && isDraft != rivalIsDraft)
        return rivalIsDraft;
    return candidate.version > rival.version;
}

} // namespace

QString code(VisitState state)
{
    return QString::fromLatin1(states.at(static_cast<size_t>(state)));
}

std::optional<VisitState> visitStateFromCode(const QString& text)
{
    return fromCode<VisitState>(states, text);
}

const Finding* Visit::finding(const QString& measure, Side side) const
{
    const auto found = std::ranges::find_if(
        findings, [&](const Finding& finding) { return finding.measure == measure && finding.side == side; });
    return found == findings.end() ? nullptr : &*found;
}

void take(Visit& visit, const QString& measure, Side side, const FindingRead& read)
{
    visit.revision = read.revision;
    const auto place = std::ranges::find_if(visit.findings, [&](const Finding& finding) {
        return finding.measure == measure && finding.side == side;
    });
    const bool isNew = place == visit.findings.end();
    if (read.finding && isNew)
        visit.findings.push_back(*read.finding);
    else if (read.finding)
        *place = *read.finding;
    else if (!isNew)
        visit.findings.erase(place);
}

namespace
{

/// Of each series one version, oldest day first.
std::vector<Visit> ofEachSeries(const std::vector<Visit>& versions, bool draftsToo)
{
    std::map<QString, Visit> bySeries;
    for (const Visit& version : versions) {
        const auto [place, isFirst] = bySeries.try_emplace(version.series.text, version);
        if (!isFirst && counts(version, place->second, draftsToo))
            place->second = version;
    }
    std::vector<Visit> chosen;
    chosen.reserve(bySeries.size());
    for (auto& [series, visit] : bySeries)
        chosen.push_back(std::move(visit));
    std::ranges::sort(chosen, [](const Visit& a, const Visit& b) {
        return std::pair(a.day, a.series.text) < std::pair(b.day, b.series.text);
    });
    return chosen;
}

} // namespace

std::vector<Visit> current(const std::vector<Visit>& versions, bool draftsToo)
{
    std::vector<Visit> chosen = ofEachSeries(versions, draftsToo);
    std::erase_if(chosen, [](const Visit& visit) { return visit.withdrawn.has_value(); });
    return chosen;
}

std::vector<Visit> onRecord(const std::vector<Visit>& versions)
{
    return ofEachSeries(versions, true);
}

} // namespace records
