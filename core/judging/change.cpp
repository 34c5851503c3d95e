#include "core/judging/change.h"

#include "core/judging/own_scatter.h"
#include "core/judging/run_trend.h"
#include "core/records/visit.h"

#include <algorithm>

namespace judging
{

namespace
{

using records::Occasion;
using records::Side;
using records::Visit;
using statistics::FlagRule;
using Run = std::vector<const Occasion*>;

bool counts(const Occasion& occasion)
{
    return values::isDone(occasion.finding.value) || values::isUnable(occasion.finding.value);
}

bool isComparable(const Occasion& earlier, const Occasion& now, const QString& population,
                  const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(now.finding.measure);
    return measure != nullptr && comparability(*measure, catalogue, population, earlier, now).isComparable();
}

bool haveSameConditions(const Occasion& one, const Occasion& other)
{
    return one.conditions == other.conditions && one.declared == other.declared;
}

/// The best of the earlier numbers; the first of equal ones.
const Occasion* bestOf(const Run& earlier, catalogue::Direction better)
{
    const Occasion* best = nullptr;
    for (const Occasion* occasion : earlier) {
        if (!isNumber(*occasion) || better == catalogue::Direction::Neither)
            continue;
        const double number = *values::number(occasion->finding.value);
        const double soFar = best == nullptr ? number : *values::number(best->finding.value);
        const bool isBetter =
            better == catalogue::Direction::HigherIsBetter ? number > soFar : number < soFar;
        if (best == nullptr || isBetter)
            best = occasion;
    }
    return best;
}

/// Holds the newest of a run against what is asked for.
struct Judge {
    const Ground& ground;
    const Occasion& now;
    const Run& run; ///< comparable with now, now the last
    const Course& course;

    Comparison against(const Occasion& reference, FlagRule rule) const
    {
        Comparison held = ground.compared(reference, now);
        if (held.comparability.isComparable())
            strengthen(held, rule, run, course, ground);
        return held;
    }

    std::optional<Comparison> againstFirstTwo() const
    {
        const Run numbers = numbersOf(run);
        if (numbers.size() < 3 || numbers.back() != &now)
            return std::nullopt;
        Occasion mean = *numbers[1];
        auto& quantity = std::get<values::Quantity>(mean.finding.value);
        quantity.number = (*values::number(numbers[0]->finding.value) + quantity.number) / 2;
        mean.finding.trials.clear();
        return ground.compared(mean, now, {2, 1});
    }

    std::optional<Comparison> againstLastConfirmed() const
    {
        const auto isEarlier = [&](const Confirmation& each) { return each.confirmed.visit != now.visit; };
        const auto last = std::find_if(course.confirmations.rbegin(), course.confirmations.rend(), isEarlier);
        if (last == course.confirmations.rend())
            return std::nullopt;
        const auto level = std::ranges::find(run, last->confirmed.visit,
                                             [](const Occasion* occasion) { return occasion->visit; });
        return against(**level, FlagRule::FirstVisit);
    }
};

/// Where no error is known for this measure, every comparison of the result says how it lies in the patient's
/// own scatter.
void judgeByOwnScatter(Change& change, const Run& run, const catalogue::Measure& measure,
                       const Ground& ground)
{
    const statistics::Plan plan = planOf(ground.judging);
    const auto own = ownScatterOf(run, measure, plan);
    if (!own)
        return;
    for (auto* held : {&change.previous, &change.baseline, &change.chosen, &change.best}) {
        if (*held && (*held)->comparability.isComparable())
            judgeByOwn(**held, *own, plan, measure.better);
    }
    const auto& trend = change.course.trend;
    if (change.baseline && change.baseline->own && trend && trend->direction == change.baseline->verdict) {
        change.baseline->strength = trend->strength;
        change.baseline->raised = trend->raised;
    }
}

Change changeOf(const std::vector<Occasion>& history, const Occasion& now,
                const std::optional<records::VisitId>& reference, const Ground& ground)
{
    Run earlier;
    Run run;
    bool isOfRun = false;
    for (const Occasion* occasion = history.data(); occasion != &now; ++occasion) {
        if (!counts(*occasion))
            continue;
        const bool isAsBefore = !earlier.empty() && haveSameConditions(*earlier.back(), *occasion);
        isOfRun =
            isAsBefore ? isOfRun : isComparable(*occasion, now, ground.patient.population, ground.catalogue);
        earlier.push_back(occasion);
        if (isOfRun)
            run.push_back(occasion);
    }
    Change change;
    change.measure = now.finding.measure;
    change.side = now.finding.side;
    change.now = now;
    const Run comparable = run;
    run.push_back(&now);
    change.course = courseOf(run, ground);
    if (earlier.empty())
        return change;

    const Judge judge{ground, now, run, change.course};
    change.baseline =
        judge.against(comparable.empty() ? *earlier.front() : *comparable.front(), FlagRule::FirstVisit);
    change.previous =
        judge.against(comparable.empty() ? *earlier.back() : *comparable.back(), FlagRule::PreviousVisit);
    const catalogue::Measure* measure = ground.catalogue.measure(change.measure);
    if (measure != nullptr && measure->practice)
        change.practiceUntil = earlier[std::min(earlier.size(), size_t(measure->practice->visits)) - 1]->day;
    if (const Occasion* best = measure == nullptr ? nullptr : bestOf(comparable, measure->better))
        change.best = judge.against(*best, FlagRule::BestVisit);
    change.lastConfirmed = judge.againstLastConfirmed();
    change.firstTwo = judge.againstFirstTwo();
    for (const Occasion* occasion : earlier) {
        if (reference && occasion->visit == *reference)
            change.chosen = judge.against(*occasion, FlagRule::FirstVisit);
    }
    if (measure != nullptr)
        judgeByOwnScatter(change, run, *measure, ground);
    return change;
}

/// What a visit found, or the last one before it; nullptr where there is none. Without a visit the last.
const Occasion* resultAt(const std::vector<Occasion>& history, const std::optional<records::VisitId>& id,
                         const std::vector<Visit>& visits)
{
    const auto visit = std::ranges::find(visits, id.value_or(records::VisitId()), &Visit::id);
    const Occasion* now = nullptr;
    for (const Occasion& occasion : history) {
        const bool isLater =
            visit != visits.end() && (occasion.day > visit->day || (now != nullptr && now->visit == *id));
        if (counts(occasion) && !isLater)
            now = &occasion;
    }
    return now;
}

template <class Chooses>
std::vector<Change> changes(const Ground& ground, const std::optional<records::VisitId>& reference,
                            Chooses chooses)
{
    std::vector<Change> all;
    records::eachHistory(
        ground.visits, ground.catalogue, ground.patient.declared, [&](const records::History& each) {
            const auto now = std::find_if(each.occasions.rbegin(), each.occasions.rend(), chooses);
            if (now != each.occasions.rend())
                all.push_back(changeOf(each.occasions, *now, reference, ground));
        });
    return all;
}

} // namespace

int coursesWatched(const Change& change)
{
    const auto& trend = change.course.trend;
    const bool isTrendWatched = trend && (trend->z || trend->pDue);
    return int(isTrendWatched) + int(change.baseline && change.baseline->own);
}

std::map<QString, double> levelsAt(const records::VisitId& id, const QString& measure, Side side,
                                   const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue)
{
    std::map<QString, double> levels;
    for (const catalogue::Threshold& row : catalogue.thresholds) {
        if (row.measure != measure || row.bandOf.isEmpty() || levels.contains(row.bandOf))
            continue;
        const auto visit = std::ranges::find(visits, id, &Visit::id);
        const catalogue::Measure* level = catalogue.measure(row.bandOf);
        if (visit == visits.end() || level == nullptr)
            continue;
        const auto occasion =
            records::occasionAt(*visit, catalogue, row.bandOf, level->hasSides ? side : Side::None);
        const auto* quantity = occasion ? std::get_if<values::Quantity>(&occasion->finding.value) : nullptr;
        if (quantity != nullptr)
            levels[row.bandOf] = quantity->number;
    }
    return levels;
}

std::vector<Change> changesAt(const records::VisitId& visit, const std::optional<records::VisitId>& reference,
                              const std::vector<Visit>& visits, const records::Patient& patient,
                              const catalogue::Catalogue& catalogue, const records::Judging& judging)
{
    const auto isHere = [&](const Occasion& occasion) { return occasion.visit == visit && counts(occasion); };
    return changes({visits, patient, catalogue, judging}, reference, isHere);
}

std::vector<Change> latestChanges(const std::vector<Visit>& visits, const records::Patient& patient,
                                  const catalogue::Catalogue& catalogue, const records::Judging& judging)
{
    return changes({visits, patient, catalogue, judging}, std::nullopt, counts);
}

Progress progress(const ProgressQuestion& question, const Ground& ground)
{
    Progress found;
    const catalogue::Measure* measure = ground.catalogue.measure(question.measure);
    const auto history = records::history(ground.visits, ground.catalogue, question.measure, question.side,
                                          ground.patient.declared);
    const Occasion* now = resultAt(history, question.visit, ground.visits);
    if (measure != nullptr && now != nullptr) {
        found.change = changeOf(history, *now, question.reference, ground);
        found.held = question.reference ? found.change->chosen : found.change->baseline;
    }
    const Occasion* before = nullptr;
    bool isAfter = false;
    for (const Occasion& occasion : history) {
        Stage stage{occasion, {}, {}};
        if (values::isDone(occasion.finding.value)) {
            if (before != nullptr && measure != nullptr)
                stage.sinceBefore =
                    comparability(*measure, ground.catalogue, ground.patient.population, *before, occasion);
            before = &occasion;
        }
        if (isAfter && counts(occasion))
            stage.held = &occasion == now
                             ? found.held
                             : changeOf(history, occasion, found.held->reference.visit, ground).chosen;
        isAfter = isAfter || (found.held && occasion.visit == found.held->reference.visit);
        found.stages.push_back(std::move(stage));
    }
    return found;
}

std::optional<Occasion> lastComparable(const std::vector<Occasion>& earlier, const Occasion& now,
                                       const records::Patient& patient, const catalogue::Catalogue& catalogue)
{
    const auto found = std::find_if(earlier.rbegin(), earlier.rend(), [&](const Occasion& occasion) {
        return counts(occasion) && occasion.visit != now.visit &&
               isComparable(occasion, now, patient.population, catalogue);
    });
    if (found == earlier.rend())
        return std::nullopt;
    return *found;
}

} // namespace judging
