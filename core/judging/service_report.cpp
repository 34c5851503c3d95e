#include "core/judging/service_report.h"

#include "core/judging/change.h"
#include "core/records/review.h"
#include "core/records/visit_form.h"
#include "core/statistics/multiplicity.h"

#include <algorithm>
#include <tuple>

namespace judging
{

namespace
{

Counted counted(int people)
{
    return people < fewestCounted ? Counted() : Counted(people);
}

/// Where every part is told, so is what is left of the whole; where that is a few people, the smaller part is
/// not told.
void keepRest(int whole, Counted& one, Counted& other)
{
    if (!one || !other)
        return;
    const int rest = whole - *one - *other;
    if (rest > 0 && rest < fewestCounted)
        (*one < *other ? one : other).reset();
}

/// The place in the catalogue; behind all where it is not there.
template <class Entry>
qsizetype placeOf(const std::vector<Entry>& entries, const QString& id)
{
    return std::ranges::find(entries, id, &Entry::id) - entries.begin();
}

} // namespace

std::optional<double> ServiceRow::expectedFalse() const
{
    return judged ? std::optional(statistics::expectedFalseFlags(*judged, judgedAt)) : std::nullopt;
}

void ServiceTally::add(const records::Patient& patient, const std::vector<records::Visit>& visits,
                       const std::vector<records::LetterSigned>& letters)
{
    addDue(patient, visits);
    std::vector<records::Visit> here;
    std::ranges::copy_if(visits, std::back_inserter(here),
                         [&](const records::Visit& visit) { return m_period.holds(visit.day); });
    if (here.empty())
        return;
    ++m_counts.patients;
    m_counts.visits += int(here.size());
    for (const records::Visit& visit : here) {
        ++(visit.state == records::VisitState::Draft ? m_counts.drafts : m_counts.signedVisits);
        m_counts.complete += int(records::isComplete(visit, m_catalogue));
    }
    addLetters(here, letters);
    for (const Change& change : latestChanges(here, patient, m_catalogue, m_clinic.judging)) {
        if (!change.baseline || !change.baseline->comparability.isComparable())
            continue;
        const Comparison& held = *change.baseline;
        Cell& cell = m_cells[{patient.population, change.measure, change.side}];
        ++cell.patients;
        const auto first = values::number(held.reference.finding.value);
        const auto latest = values::number(held.now.finding.value);
        if (first && latest) {
            cell.first.push_back(*first);
            cell.latest.push_back(*latest);
        }
        cell.better += int(held.verdict == Verdict::Better);
        cell.worse += int(held.verdict == Verdict::Worse);
        cell.judged += int(isBeyondError(held.verdict) || held.verdict == Verdict::WithinError);
        cell.becameUnable += int(held.verdict == Verdict::BecameUnable);
        cell.becameAble += int(held.verdict == Verdict::BecameAble);
    }
}

/// As it stood on the last day of the period.
void ServiceTally::addDue(const records::Patient& patient, const std::vector<records::Visit>& visits)
{
    const auto last = std::find_if(visits.rbegin(), visits.rend(), [&](const records::Visit& visit) {
        return visit.state != records::VisitState::Draft && visit.day <= m_period.until;
    });
    if (last == visits.rend())
        return;
    const auto due = records::dueOn(m_clinic.reviews, last->form, patient.population, last->day, m_catalogue);
    m_withInterval += int(due.has_value());
    m_due += int(due && *due <= m_period.until);
}

void ServiceTally::addLetters(const std::vector<records::Visit>& visits,
                              const std::vector<records::LetterSigned>& letters)
{
    bool hasLetter = false;
    for (const records::Visit& visit : visits) {
        if (visit.state == records::VisitState::Draft)
            continue;
        std::optional<qint64> days;
        for (const records::LetterSigned& letter : letters) {
            const qint64 after = visit.day.daysTo(letter.at.toLocalTime().date());
            if (letter.series == visit.series)
                days = std::min(days.value_or(after), after);
        }
        ++(days ? m_counts.withLetter : m_counts.withoutLetter);
        hasLetter = hasLetter || days;
        if (days)
            m_daysToLetter.push_back(double(*days));
    }
    m_patientsWithLetter += int(hasLetter);
}

ServiceRow ServiceTally::rowOf(const Key& key, const Cell& cell) const
{
    ServiceRow row{key.population, key.measure, key.side, counted(cell.patients), {}, {}, {}, {}, {}, {}, {}};
    if (counted(int(cell.first.size()))) {
        const catalogue::Measure* measure = m_catalogue.measure(key.measure);
        const bool isGrade = measure != nullptr && measure->kind == catalogue::Kind::Grade;
        const auto quartilesOf = isGrade ? statistics::quartilesOfSteps : statistics::quartiles;
        row.first = quartilesOf(cell.first);
        row.latest = quartilesOf(cell.latest);
    }
    row.judged = counted(cell.judged);
    row.better = counted(cell.better);
    row.worse = counted(cell.worse);
    row.becameUnable = counted(cell.becameUnable);
    row.becameAble = counted(cell.becameAble);
    keepRest(cell.judged, row.better, row.worse);
    keepRest(cell.patients - cell.judged, row.becameUnable, row.becameAble);
    return row;
}

ServiceReport ServiceTally::report() const
{
    ServiceReport report{m_period, m_counts.visits == 0, {}, {}};
    if (!counted(m_counts.patients))
        return report;
    report.counts = m_counts;
    if (counted(m_patientsWithLetter))
        report.counts->daysToLetter = statistics::quartiles(m_daysToLetter);
    report.counts->withInterval = counted(m_withInterval);
    if (const int rest = m_withInterval - m_due; rest == 0 || counted(rest))
        report.counts->due = counted(m_due);
    for (const auto& [key, cell] : m_cells)
        report.rows.push_back(rowOf(key, cell));
    std::ranges::stable_sort(report.rows, {}, [&](const ServiceRow& row) {
        return std::tuple(row.population.isEmpty(), placeOf(m_catalogue.populations, row.population),
                          placeOf(m_catalogue.measures, row.measure), row.side);
    });
    return report;
}

} // namespace judging
