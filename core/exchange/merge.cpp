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
                const records::Finding& finding, const records::Finding* before)
{
    auto place = std::ranges::find(further, visit.id, &FurtherFindings::visit);
    if (place == further.end())
        place =
            further.insert(place, {visit.id, visit.state == records::VisitState::Draft, {}, {}, visit.day});
    place->findings.push_back(finding);
    place->before.push_back(before == nullptr ? std::nullopt : std::optional(*before));
}

records::Visit withFurther(records::Visit visit, const FurtherFindings& further)
{
    for (const records::Finding& finding : further.findings) {
        std::erase_if(visit.findings, [&](const records::Finding& old) {
            return old.measure == finding.measure && old.side == finding.side;
        });
        visit.findings.push_back(finding);
    }
    return visit;
}

/// What an import is read against.
struct Merging {
    const catalogue::Catalogue& catalogue;
    QDate today;
    Faults& faults;
    Addition addition = {};

    /// A total that would then contradict its parts, and what keeps an amendment from being signed.
    void refuseWrong(const std::vector<records::Visit>& ofDay, const ImportedVisit& imported)
    {
        const qint64 before = faults.count();
        const Place& start = imported.origins.front().places.front();
        for (const records::Visit& visit : ofDay) {
            const auto added = std::ranges::find(addition.further, visit.id, &FurtherFindings::visit);
            if (added == addition.further.end())
                continue;
            const records::Visit wished = withFurther(visit, *added);
            for (size_t i = 0; i < imported.visit.findings.size(); ++i) {
                const records::Finding& finding = imported.visit.findings[i];
                const records::Finding* there = wished.finding(finding.measure, finding.side);
                const Place& place = imported.origins[i].places.front();
                const auto wrong =
                    there == nullptr ? std::nullopt : records::wrongWith(wished, *there, catalogue);
                if (wrong)
                    faults.add(place, wrongAt(place, u"value"_s, wrong->what));
            }
            const auto wrong = added->isDraft
                                   ? std::nullopt
                                   : records::wrongWith(wished, addition.patient, catalogue, today);
            if (wrong && faults.count() == before)
                faults.add(start, *wrong);
        }
    }

    /// What the finding adds to a visit of the day that is in the records.
    base::Result<void> addFinding(records::Finding finding, const Origin& origin,
                                  const ImportedVisit& imported, const std::vector<records::Visit>& ofDay)
    {
        const records::Visit* visit = placeFor(finding, ofDay);
        const records::Finding* stored =
            visit == nullptr ? nullptr : visit->finding(finding.measure, finding.side);
        if (stored == nullptr && origin.firstTrial != 1)
            return wrongAt(origin.places.front(), u"trial"_s,
                           base::said("The first trial of a finding is 1."));
        if (visit == nullptr)
            return {};
        const auto own = records::withExceptions(imported.visit.conditions, finding.exceptions);
        if (stored == nullptr) {
            finding.exceptions = exceptionsOn(visit->conditions, own, imported.conditions);
            addFurther(addition.further, *visit, finding, nullptr);
            return {};
        }
        const auto theirs = records::withExceptions(visit->conditions, stored->exceptions);
        if (const QString part = differingCondition(own, theirs, imported.conditions); !part.isEmpty())
            return differs(origin.places.front(), part);
        const auto both = merged(*stored, finding, origin, catalogue);
        if (!both)
            return both.error();
        if (*both != *stored)
            addFurther(addition.further, *visit, *both, stored);
        return {};
    }

    Becomes addVisit(const ImportedVisit& imported, const std::vector<records::Visit>& ofDay)
    {
        const qint64 before = faults.count();
        const size_t further = addition.further.size();
        for (size_t i = 0; i < imported.visit.findings.size(); ++i) {
            const Origin& origin = imported.origins[i];
            if (const auto added = addFinding(imported.visit.findings[i], origin, imported, ofDay); !added)
                faults.add(origin.places.front(), added.error());
        }
        if (faults.count() != before)
            return Becomes::Refused;
        if (ofDay.empty()) {
            if (const auto wrong = records::wrongWith(imported.visit, addition.patient, catalogue, today))
                faults.add(imported.origins.front().places.front(), *wrong);
            addition.newVisits.push_back(imported.visit);
        }
        refuseWrong(ofDay, imported);
        if (faults.count() != before)
            return Becomes::Refused;
        return ofDay.empty()                        ? Becomes::New
               : addition.further.size() != further ? Becomes::Changed
                                                    : Becomes::AsRecorded;
    }
};

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

Addition addition(const ImportedPatient& imported, const std::optional<records::Patient>& stored,
                  const std::vector<records::Visit>& versions, const catalogue::Catalogue& catalogue,
                  QDate today, Faults& faults)
{
    Merging merging{catalogue, today, faults};
    records::Patient& patient = merging.addition.patient;
    patient = imported.patient;
    merging.addition.isPatientChanged = true;
    const QString& number = imported.patient.recordNumber;
    faults.about(number, imported.visits.empty() ? QDate() : imported.visits.front().visit.day);
    if (stored) {
        patient = *stored;
        if (const QString part = takeIdentity(patient, imported.patient); !part.isEmpty())
            faults.add(imported.place,
                       wrongAt(imported.place, part,
                               base::said("Allowed is what the records hold for this number, or nothing.")));
        merging.addition.isPatientChanged = patient != *stored;
    }
    const auto wrong =
        merging.addition.isPatientChanged ? records::wrongWith(patient, catalogue, today) : std::nullopt;
    if (wrong)
        faults.add(imported.place, *wrong);
    const std::vector<records::Visit> current = records::current(versions, true);
    for (const ImportedVisit& visit : imported.visits) {
        const QDate day = visit.visit.day;
        const Place& place = visit.origins.front().places.front();
        faults.about(number, day);
        if (stored && stored->born && day < *stored->born) {
            faults.add(place,
                       wrongAt(place, u"date"_s,
                               base::said("Allowed is a day from the birth date in the records to today.")));
            merging.addition.becomes.push_back(Becomes::Refused);
            continue;
        }
        std::vector<records::Visit> ofDay;
        std::ranges::copy_if(current, std::back_inserter(ofDay),
                             [day](const records::Visit& other) { return other.day == day; });
        const bool isInError = ofDay.empty() && isHeldInError(visit, versions, catalogue);
        merging.addition.becomes.push_back(isInError ? Becomes::InError : merging.addVisit(visit, ofDay));
    }
    return merging.addition;
}

} // namespace exchange
