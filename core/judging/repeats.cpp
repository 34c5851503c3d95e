#include "core/judging/repeats.h"

#include "core/judging/comparability.h"
#include "core/records/history.h"
#include "core/records/visit.h"

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace judging
{

namespace
{

using records::Occasion;
using records::Visit;

bool isMarked(const Visit& visit)
{
    return records::recorded(visit.conditions, u"retest"_s) == u"no-change-expected";
}

void addTrials(RepeatCandidates& candidates, const Occasion& occasion)
{
    const std::vector<double>& trials = occasion.finding.trials;
    candidates.isAsked = candidates.isAsked || values::isDone(occasion.finding.value);
    if (trials.size() > 1 && !occasion.finding.capReached)
        candidates.results.push_back({occasion.day, 0, trials});
}

void addPair(RepeatCandidates& candidates, const std::optional<Occasion>& before, const Occasion& now,
             const QString& population, const catalogue::Measure& measure,
             const catalogue::Catalogue& catalogue)
{
    const auto second = values::number(now.finding.value);
    candidates.isAsked = candidates.isAsked || second.has_value();
    const auto first = before ? values::number(before->finding.value) : std::nullopt;
    if (!first || !second || before->day >= now.day || before->finding.capReached || now.finding.capReached ||
        !comparability(measure, catalogue, population, *before, now).isComparable())
        return;
    candidates.results.push_back({now.day, int(before->day.daysTo(now.day)), {*first, *second}});
}

/// The number of values most results have.
size_t usualLength(const std::vector<RepeatCandidates>& patients)
{
    std::map<size_t, int> counts;
    for (const RepeatCandidates& patient : patients) {
        for (const RepeatedResult& result : patient.results)
            ++counts[result.values.size()];
    }
    size_t usual = 0;
    for (const auto& [length, count] : counts) {
        if (usual == 0 || count >= counts.at(usual))
            usual = length;
    }
    return usual;
}

void add(RepeatedResults& all, const RepeatedResult& result)
{
    const QDate first = result.day.addDays(-result.days);
    const bool isFirst = all.repeats.empty();
    all.from = isFirst ? first : std::min(all.from, first);
    all.to = isFirst ? result.day : std::max(all.to, result.day);
    all.fewestDays = isFirst ? result.days : std::min(all.fewestDays, result.days);
    all.mostDays = std::max(all.mostDays, result.days);
    all.repeats.push_back(result.values);
}

} // namespace

RepeatCandidates repeatCandidates(const RepeatQuestion& question, const std::vector<Visit>& visits,
                                  const QString& population, const catalogue::Catalogue& catalogue)
{
    RepeatCandidates candidates;
    const catalogue::Measure* measure = catalogue.measure(question.measure);
    const bool isOfThem =
        question.population.isEmpty() || catalogue.isWithin(population, question.population);
    if (measure == nullptr || !isOfThem)
        return candidates;
    const Visit* previous = nullptr;
    for (const Visit& visit : visits) {
        if (visit.state == records::VisitState::Draft)
            continue;
        const auto occasion = [&](const Visit& at) {
            return records::occasionAt(at, catalogue, question.measure, question.side);
        };
        const auto now = occasion(visit);
        if (now && question.source == RepeatSource::Trials)
            addTrials(candidates, *now);
        else if (now && isMarked(visit))
            addPair(candidates, previous == nullptr ? std::nullopt : occasion(*previous), *now, population,
                    *measure, catalogue);
        previous = &visit;
    }
    return candidates;
}

RepeatedResults repeatedResults(const std::vector<RepeatCandidates>& patients)
{
    RepeatedResults all;
    const size_t length = usualLength(patients);
    for (const RepeatCandidates& patient : patients) {
        const auto found = std::ranges::find_if(
            patient.results, [&](const RepeatedResult& result) { return result.values.size() == length; });
        if (found != patient.results.end())
            add(all, *found);
        else if (patient.isAsked)
            ++all.leftOut;
    }
    return all;
}

} // namespace judging
