#include "core/exchange/merge.h"

#include "core/exchange/agreement.h"
#include "core/exchange/columns.h"
#include "core/records/check.h"

#include <algorithm>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

base::Error differs(const Place& place, const QString& part)
{
    return wrongAt(
        place, part,
        base::said(
            "Allowed is what the records hold for this patient, date, measure, side and trial; a recorded "
            "finding is changed by an amendment, not by an import."));
}

std::vector<double> trialsOf(const records::Finding& finding)
{
    const auto* quantity = std::get_if<values::Quantity>(&finding.value);
    return finding.trials.empty() && quantity != nullptr ? std::vector{quantity->number} : finding.trials;
}

bool isSame(double a, double b)
{
    return !values::exceeds(a, b) && !values::exceeds(b, a);
}

/// The stored finding with the trials that are new in the file; unchanged when there are none.
base::Result<records::Finding> merged(const records::Finding& stored, const records::Finding& said,
                                      const Origin& origin, const catalogue::Catalogue& catalogue)
{
    const Place& first = origin.places.front();
    if (values::stateCode(stored.value) != values::stateCode(said.value))
        return differs(first, u"state"_s);
    if (!values::isDone(said.value) && origin.saysCapped && stored.capReached != said.capReached)
        return differs(first, cappedColumn);
    if (!values::isDone(said.value))
        return stored.value == said.value ? base::Result(stored) : differs(first, u"reason"_s);
    if (!stored.note.contains(said.note))
        return differs(first, u"reason"_s);
    if (said.trials.empty())
        return stored.value == said.value ? base::Result(stored) : differs(first, u"value"_s);

    records::Finding finding = stored;
    if (!stored.trialNumbers.empty())
        return stored.trials == said.trials && stored.value == said.value ? base::Result(stored)
                                                                          : differs(first, u"trial"_s);
    finding.trials = trialsOf(stored);
    const size_t known = finding.trials.size();
    for (size_t i = 0; i < said.trials.size(); ++i) {
        const size_t trial = size_t(origin.firstTrial) - 1 + i;
        if (trial > finding.trials.size())
            return wrongAt(origin.places[i], u"trial"_s,
                           base::said("The next trial of this finding is %1.").arg(qint64(known) + 1));
        if (trial < known && !isSame(finding.trials[trial], said.trials[i]))
            return differs(origin.places[i], u"value"_s);
        if (trial == finding.trials.size())
            finding.trials.push_back(said.trials[i]);
    }
    const bool isAllOfIt = said.trials.size() == known;
    if (origin.saysCapped && isAllOfIt && finding.trials.size() == known &&
        said.capReached != stored.capReached)
        return differs(first, cappedColumn);
    if (finding.trials.size() == known)
        return stored;
    finding.value = records::valueOfTrials(finding.trials, *catalogue.measure(finding.measure));
    finding.capReached = stored.capReached || said.capReached;
    if (const auto wrong = records::wrongWith(finding, catalogue))
        return wrongAt(origin.places.back(), u"value"_s, wrong->what);
    return finding;
}

/// The visit of the day that holds the finding; else an open draft; else the last. nullptr where the day has
/// none.
const records::Visit* placeFor(const records::Finding& finding, const std::vector<records::Visit>& ofDay)
{
    const records::Visit* place = nullptr;
    for (const records::Visit& visit : ofDay) {
        if (visit.finding(finding.measure, finding.side) != nullptr)
            return &visit;
        if (place == nullptr || place->state != records::VisitState::Draft)
            place = &visit;
    }
    return place;
}

void addFurther(std::vector<FurtherFindings>& further, const records::Visit& visit,
                const records::Finding& finding)
{
    auto place = std::ranges::find(further, visit.id, &FurtherFindings::visit);
    if (place == further.end())
        place = further.insert(place, {visit.id, visit.state == records::VisitState::Draft, {}});
    place->findings.push_back(finding);
}

/// A total that would then contradict its parts.
base::Result<void> refuseWrongTotals(const std::vector<FurtherFindings>& further,
                                     const std::vector<records::Visit>& ofDay, const ImportedVisit& imported,
                                     const catalogue::Catalogue& catalogue)
{
    for (records::Visit wished : ofDay) {
        const auto added = std::ranges::find(further, wished.id, &FurtherFindings::visit);
        if (added == further.end())
            continue;
        for (const records::Finding& finding : added->findings) {
            std::erase_if(wished.findings, [&](const records::Finding& old) {
                return old.measure == finding.measure && old.side == finding.side;
            });
            wished.findings.push_back(finding);
        }
        for (size_t i = 0; i < imported.visit.findings.size(); ++i) {
            const records::Finding& finding = imported.visit.findings[i];
            const records::Finding* there = wished.finding(finding.measure, finding.side);
            const auto wrong =
                there == nullptr ? std::nullopt : records::wrongWith(wished, *there, catalogue);
            if (wrong)
                return wrongAt(imported.origins[i].places.front(), u"value"_s, wrong->what);
        }
    }
    return {};
}

base::Result<void> addVisit(Addition& addition, const ImportedVisit& imported,
                            const std::vector<records::Visit>& ofDay, const catalogue::Catalogue& catalogue)
{
    for (size_t i = 0; i < imported.visit.findings.size(); ++i) {
        records::Finding finding = imported.visit.findings[i];
        const Origin& origin = imported.origins[i];
        const records::Visit* visit = placeFor(finding, ofDay);
        const records::Finding* stored =
            visit == nullptr ? nullptr : visit->finding(finding.measure, finding.side);
        if (stored == nullptr && origin.firstTrial != 1)
            return wrongAt(origin.places.front(), u"trial"_s,
                           base::said("The first trial of a finding is 1."));
        if (visit == nullptr)
            continue;
        const auto own = records::withExceptions(imported.visit.conditions, finding.exceptions);
        if (stored == nullptr) {
            finding.exceptions = exceptionsOn(visit->conditions, own, imported.conditions);
            addFurther(addition.further, *visit, finding);
            continue;
        }
        const auto theirs = records::withExceptions(visit->conditions, stored->exceptions);
        if (const QString part = differingCondition(own, theirs, imported.conditions); !part.isEmpty())
            return differs(origin.places.front(), part);
        const auto both = merged(*stored, finding, origin, catalogue);
        if (!both)
            return both.error();
        if (*both != *stored)
            addFurther(addition.further, *visit, *both);
    }
    if (ofDay.empty())
        addition.newVisits.push_back(imported.visit);
    return refuseWrongTotals(addition.further, ofDay, imported, catalogue);
}

/// Whether a visit entered in error holds all of it: bringing the same file again does not bring the error
/// back.
bool isHeldInError(const ImportedVisit& imported, const std::vector<records::Visit>& versions,
                   const catalogue::Catalogue& catalogue)
{
    const auto holdsAll = [&](const records::Visit& visit) {
        for (size_t i = 0; i < imported.visit.findings.size(); ++i) {
            const records::Finding& said = imported.visit.findings[i];
            const records::Finding* stored = visit.finding(said.measure, said.side);
            const auto both = stored == nullptr ? base::Result<records::Finding>(said)
                                                : merged(*stored, said, imported.origins[i], catalogue);
            if (stored == nullptr || !both || *both != *stored)
                return false;
        }
        return true;
    };
    return std::ranges::any_of(versions, [&](const records::Visit& visit) {
        return visit.withdrawn && visit.day == imported.visit.day && holdsAll(visit);
    });
}

} // namespace

base::Result<Addition> addition(const ImportedPatient& imported,
                                const std::optional<records::Patient>& stored,
                                const std::vector<records::Visit>& versions,
                                const catalogue::Catalogue& catalogue)
{
    Addition addition;
    addition.patient = imported.patient;
    addition.isPatientChanged = true;
    if (stored) {
        addition.patient = *stored;
        if (const QString part = takeIdentity(addition.patient, imported.patient); !part.isEmpty())
            return wrongAt(imported.place, part,
                           base::said("Allowed is what the records hold for this number, or nothing."));
        addition.isPatientChanged = addition.patient != *stored;
    }
    const std::vector<records::Visit> current = records::current(versions, true);
    for (const ImportedVisit& visit : imported.visits) {
        if (stored && stored->born && visit.visit.day < *stored->born) {
            return wrongAt(visit.origins.front().places.front(), u"date"_s,
                           base::said("Allowed is a day from the birth date in the records to today."));
        }
        std::vector<records::Visit> ofDay;
        std::ranges::copy_if(current, std::back_inserter(ofDay),
                             [&](const records::Visit& other) { return other.day == visit.visit.day; });
        if (ofDay.empty() && isHeldInError(visit, versions, catalogue))
            continue;
        if (const auto added = addVisit(addition, visit, ofDay, catalogue); !added)
            return added.error();
    }
    return addition;
}

} // namespace exchange
