#include "app/trends/overview.h"

#include "app/widgets/verdict_mark.h"
#include "core/base/text.h"
#include "core/records/history.h"
#include "core/records/visit.h"
#include "core/records/wording.h"

#include <algorithm>
#include <map>
#include <set>

namespace trends
{

namespace
{

using judging::Strength;

/// The results of a measure and side, and what the newest of them comes to.
struct Newest {
    records::History results;
    std::optional<judging::Change> change;
    judging::Outcome outcome;
};

bool isResult(const records::Occasion& occasion)
{
    return values::isDone(occasion.finding.value) || values::isUnable(occasion.finding.value);
}

std::vector<Newest> resultsOf(const records::AsOf& until, const records::Patient& patient,
                              const catalogue::Catalogue& catalogue)
{
    std::vector<Newest> found;
    records::eachHistory(until.visits(), catalogue, patient.declared, [&](records::History each) {
        std::erase_if(each.occasions, [](const auto& occasion) { return !isResult(occasion); });
        if (!each.occasions.empty())
            found.push_back({std::move(each), {}, {}});
    });
    std::set<QString> twice;
    for (const Newest& each : found) {
        if (each.results.occasions.size() > 1)
            twice.insert(each.results.measure);
    }
    std::erase_if(found, [&](const Newest& each) { return !twice.contains(each.results.measure); });
    return found;
}

/// Each visit that holds a newest result is judged as it stood then.
void judge(std::vector<Newest>& all, const records::AsOf& until, const records::Patient& patient,
           const catalogue::Catalogue& catalogue, const records::Judging& judging)
{
    std::map<records::VisitId, std::vector<Newest*>> ofVisit;
    for (Newest& each : all)
        ofVisit[each.results.occasions.back().visit].push_back(&each);
    for (const auto& [visit, newest] : ofVisit) {
        const records::AsOf then(visit, until.visits());
        const auto glance =
            judging::glanceAt(visit, std::nullopt, {then.visits(), patient, catalogue, judging});
        for (Newest* each : newest) {
            const auto change = std::ranges::find_if(glance->changes, [&](const judging::Change& one) {
                return one.measure == each->results.measure && one.side == each->results.side;
            });
            if (change == glance->changes.end())
                continue;
            each->change = *change;
            each->outcome = glance->outcomes[size_t(change - glance->changes.begin())];
        }
    }
}

OverviewLine lineOf(const Newest& newest, const records::AsOf& until, const catalogue::Measure& measure,
                    const base::Phrasebook& phrases)
{
    const judging::Change& change = *newest.change;
    OverviewLine line;
    line.side = change.side;
    line.name = records::written(change.side, phrases);
    line.now = records::written(change.now.finding.value, measure, phrases);
    if (change.now.visit != until.visit()->id)
        line.day = records::dayInWords(change.now.day, phrases);
    if (const judging::Comparison* held = judging::decidingOf(change)) {
        line.first = records::written(held->reference.finding.value, measure, phrases);
        line.firstDay = records::dayInWords(held->reference.day, phrases);
    }
    line.meaning = widgets::meaningOf(newest.outcome, change, phrases);
    line.course = charts::coursePoints(change, newest.results.occasions, measure);
    return line;
}

bool isConfirmed(const judging::Outcome& outcome)
{
    return outcome.claim &&
           (outcome.claim->strength == Strength::Confirmed || outcome.claim->strength == Strength::Sustained);
}

bool isIn(OverviewAsked::Group group, const OverviewRow& row)
{
    switch (group) {
    case OverviewAsked::Group::All:
        break;
    case OverviewAsked::Group::Changed:
        return row.isChanged;
    case OverviewAsked::Group::Confirmed:
        return row.isConfirmed;
    }
    return true;
}

} // namespace

std::vector<OverviewRow> overview(const records::AsOf& until, const records::Patient& patient,
                                  const catalogue::Catalogue& catalogue, const records::Judging& judging,
                                  const std::vector<judging::TargetProgress>& targets,
                                  const base::Phrasebook& phrases)
{
    std::vector<Newest> all = resultsOf(until, patient, catalogue);
    judge(all, until, patient, catalogue, judging);
    std::erase_if(all, [](const Newest& each) { return !each.change; });
    std::vector<judging::Outcome> outcomes;
    outcomes.reserve(all.size());
    for (const Newest& each : all)
        outcomes.push_back(each.outcome);

    std::vector<OverviewRow> rows;
    std::map<QString, size_t> places;
    for (const size_t place : judging::byWeight(outcomes)) {
        const Newest& newest = all[place];
        const QString& id = newest.results.measure;
        const catalogue::Measure& measure = *catalogue.measure(id);
        if (places.try_emplace(id, rows.size()).second) {
            const catalogue::Section* section = catalogue.section(measure.section);
            rows.push_back({id,
                            records::titled(measure, phrases),
                            measure.section,
                            section != nullptr ? section->title : QString(),
                            base::folded(measure.title + u' ' + measure.shortForm),
                            {}});
        }
        OverviewRow& row = rows[places[id]];
        row.lines.push_back(lineOf(newest, until, measure, phrases));
        const auto target = std::ranges::find_if(targets, [&](const judging::TargetProgress& each) {
            return each.target.measure == id && each.target.side == newest.results.side;
        });
        if (target != targets.end())
            row.lines.back().target = target->target.value;
        row.isChanged = row.isChanged || widgets::markOf(newest.outcome.kind).has_value();
        row.isConfirmed = row.isConfirmed || isConfirmed(newest.outcome);
    }
    for (OverviewRow& row : rows)
        std::ranges::sort(row.lines, {}, &OverviewLine::side);
    return rows;
}

std::vector<size_t> shownOf(const std::vector<OverviewRow>& rows, const OverviewAsked& asked)
{
    const QStringList words = base::folded(asked.typed).split(u' ', Qt::SkipEmptyParts);
    std::vector<size_t> shown;
    for (size_t place = 0; place < rows.size(); ++place) {
        const OverviewRow& row = rows[place];
        const bool isFound =
            std::ranges::all_of(words, [&](const QString& word) { return row.folded.contains(word); });
        if (isFound && isIn(asked.group, row) && (asked.section.isEmpty() || asked.section == row.sectionId))
            shown.push_back(place);
    }
    return shown;
}

} // namespace trends
