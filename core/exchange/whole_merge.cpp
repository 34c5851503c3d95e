#include "core/exchange/whole_merge.h"

#include "core/exchange/columns.h"

#include <algorithm>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

/// As it was signed or entered: how often it was saved, and whether it counts, is another matter.
records::Visit contentOnly(records::Visit visit)
{
    visit.revision = 0;
    visit.withdrawn.reset();
    return visit;
}

records::Patient contentOnly(records::Patient patient)
{
    patient.revision = 0;
    patient.choices.clear();
    patient.declared.clear();
    return patient;
}

/// Sets a record that was read against what is stored.
struct WholeMerging {
    const ReadRecord& read;
    const records::WholeRecord& stored;
    Faults& faults;
    WholeAddition addition = {};

    void refuse(int line, const base::Message& why)
    {
        faults.add(line, wrongAt(faults.place(line), {base::ErrorKind::Refused, why, {}}));
    }

    void takeVisits()
    {
        for (const records::Visit& visit : read.record.visits) {
            const int line = read.lines.value(visit.id.text);
            faults.about(read.record.patient.recordNumber, visit.day);
            const auto there = std::ranges::find_if(stored.visits, [&](const records::Visit& kept) {
                return kept.series == visit.series && kept.version == visit.version;
            });
            if (there != stored.visits.end()) {
                if (contentOnly(*there) != contentOnly(visit))
                    refuse(line, base::said("The records hold another visit in its place."));
                continue;
            }
            const auto last = std::ranges::find_if(stored.visits, [&](const records::Visit& kept) {
                return kept.series == visit.series &&
                       (kept.withdrawn || kept.state == records::VisitState::Draft);
            });
            if (last != stored.visits.end())
                refuse(line,
                       base::said("The records hold a draft of this visit, or it was entered in error there, "
                                  "so no version follows."));
            addition.added.visits.push_back(visit);
        }
    }

    void takeWithdrawals()
    {
        for (const records::Visit& visit : read.record.visits) {
            if (!visit.withdrawn || visit.id != visit.series)
                continue;
            const auto there = std::ranges::find(stored.visits, visit.id, &records::Visit::id);
            if (there == stored.visits.end() || !there->withdrawn) {
                addition.withdrawn.emplace_back(visit.series, *visit.withdrawn);
                addition.entries += there == stored.visits.end() ? 0 : 1;
            } else if (there->withdrawn != visit.withdrawn) {
                refuse(read.lines.value(visit.id.text),
                       base::said("The records say otherwise why this visit was entered in error."));
            }
        }
    }

    void takeHappenings()
    {
        for (const records::Happening& happening : read.record.happenings) {
            const auto there = std::ranges::find_if(stored.happenings, [&](const records::Happening& kept) {
                return kept.id == happening.id && kept.version == happening.version;
            });
            const bool isOver = std::ranges::any_of(stored.happenings, [&](const records::Happening& kept) {
                return kept.id == happening.id && !kept.takenBackFor.isEmpty();
            });
            if (there != stored.happenings.end() ? *there != happening : isOver)
                refuse(read.lines.value(happening.id.text),
                       base::said("The records hold another event in its place."));
            else if (there == stored.happenings.end())
                addition.added.happenings.push_back(happening);
        }
    }

    void takeAsked()
    {
        for (const records::Asked& asked : read.record.asked) {
            const bool isThere =
                std::ranges::find(stored.asked, asked.visit, &records::Asked::visit) != stored.asked.end();
            if (!isThere)
                addition.added.asked.push_back(asked);
        }
    }

    /// What only grows: what is not there yet must be later than what is.
    template <class Entry>
    std::vector<Entry> later(const std::vector<Entry>& kept, const std::vector<Entry>& said,
                             QDateTime Entry::*at)
    {
        std::vector<Entry> added;
        for (const Entry& entry : said) {
            if (std::ranges::find(kept, entry) != kept.end())
                continue;
            if (!kept.empty() && entry.*at <= std::ranges::max(kept, {}, at).*at)
                refuse(read.line,
                       base::said("The records hold later targets, choices or declarations of this "
                                  "patient than some that the file adds."));
            added.push_back(entry);
        }
        return added;
    }

    void takePatient(bool isNumberTaken)
    {
        const records::Patient& patient = read.record.patient;
        const bool isKnown = !stored.patient.id.isNull();
        addition.isPatientNew = !isKnown;
        if (isNumberTaken)
            refuse(read.line, base::said("This record number belongs to another patient."));
        else if (isKnown && contentOnly(patient) != contentOnly(stored.patient))
            refuse(read.line,
                   base::said("The records hold something else of who the patient is; make both agree "
                              "first."));
    }

    WholeAddition take(bool isNumberTaken)
    {
        faults.about(read.record.patient.recordNumber, QDate());
        takePatient(isNumberTaken);
        addition.added.patient = read.record.patient;
        takeVisits();
        faults.about(read.record.patient.recordNumber, QDate());
        takeWithdrawals();
        takeHappenings();
        takeAsked();
        records::WholeRecord& added = addition.added;
        added.targets = later(stored.targets, read.record.targets, &records::Target::enteredAt);
        added.patient.choices =
            later(stored.patient.choices, read.record.patient.choices, &records::EvidenceChoice::chosenAt);
        added.patient.declared =
            later(stored.patient.declared, read.record.patient.declared, &records::DeclaredEqual::declaredAt);
        addition.entries += int(added.happenings.size() + added.asked.size() + added.targets.size() +
                                added.patient.choices.size() + added.patient.declared.size());
        return addition;
    }
};

/// Whether two entries of the catalogue say the same.
template <class Entry>
bool saySame(std::vector<Entry> catalogue::Own::*list, const Entry& a, const Entry& b)
{
    catalogue::Own first;
    catalogue::Own second;
    (first.*list).push_back(a);
    (second.*list).push_back(b);
    return catalogue::written(first) == catalogue::written(second);
}

template <class Entry>
base::Result<void> join(std::vector<Entry> catalogue::Own::*list, catalogue::Own& here,
                        const catalogue::Own& more)
{
    for (const Entry& entry : more.*list) {
        const auto there = std::ranges::find(here.*list, entry.id, &Entry::id);
        if (there == (here.*list).end())
            (here.*list).push_back(entry);
        else if (!saySame(list, *there, entry))
            return base::Error{
                base::ErrorKind::Refused,
                base::said("%1: the clinic's own catalogue and the file hold different entries of "
                           "this id, so nothing was taken.")
                    .arg(entry.id),
                {}};
    }
    return {};
}

} // namespace

WholeAddition wholeAddition(const ReadRecord& read, const std::optional<records::WholeRecord>& stored,
                            bool isNumberTaken, Faults& faults)
{
    const records::WholeRecord known = stored.value_or(records::WholeRecord());
    return WholeMerging{read, known, faults}.take(isNumberTaken);
}

base::Result<catalogue::Own> bothParts(catalogue::Own here, const catalogue::Own& more)
{
    using catalogue::Own;
    for (const auto& done : {join(&Own::sources, here, more), join(&Own::measures, here, more),
                             join(&Own::thresholds, here, more), join(&Own::forms, here, more),
                             join(&Own::patterns, here, more)}) {
        if (!done)
            return done.error();
    }
    return here;
}

} // namespace exchange
