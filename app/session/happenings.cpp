#include "core/storage/happenings.h"
#include "app/session/patient_record.h"
#include "app/session/session.h"
#include "core/base/file.h"
#include "core/exchange/happenings_csv.h"
#include "core/records/check.h"
#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "core/storage/targets.h"
#include "core/storage/transaction.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace session
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Happening;

Error nobodyInFocus()
{
    return {
        ErrorKind::NotFound, base::said("Events and targets are those of a patient; open one first."), {}};
}

/// Brings what a file adds into the records, as one write.
base::Result<void> keepAll(storage::Store& store, const exchange::HappeningsAddition& addition)
{
    storage::Happenings happenings(store);
    return storage::together(store, [&]() -> base::Result<void> {
        for (const auto* part : {&addition.added, &addition.changed}) {
            for (const Happening& happening : *part) {
                if (const auto saved = happenings.save(happening); !saved)
                    return saved.error();
                if (auto noted = storage::note(store, u"imported"_s, u"patient"_s, happening.patient.text);
                    !noted)
                    return noted;
            }
        }
        return {};
    });
}

} // namespace

const std::vector<Happening>& Session::happeningVersions() const
{
    return m_record->happenings();
}

std::vector<Happening> Session::happenings() const
{
    return records::current(m_record->happenings());
}

base::Result<Happening> Session::saveHappening(const Happening& given)
{
    if (!m_focus.patient)
        return nobodyInFocus();
    Happening happening = given;
    happening.patient = *m_focus.patient;
    if (const auto wrong = records::wrongWith(happening, patientInFocus(), today()))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known.error();
    auto saved = storage::Happenings(*m_store).save(happening);
    if (!saved)
        return saved;
    if (auto taken = takeHappenings(happening.patient); !taken)
        return taken.error();
    return saved;
}

base::Result<void> Session::takeBackHappening(const records::HappeningId& id, const QString& reason)
{
    if (!m_focus.patient)
        return nobodyInFocus();
    if (std::ranges::find(happeningVersions(), id, &Happening::id) == happeningVersions().end())
        return Error{ErrorKind::NotFound, base::said("This event is not one of the patient's."), {}};
    if (const auto wrong = records::wrongWithReason(reason))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known;
    if (auto taken = storage::Happenings(*m_store).takeBack(id, reason); !taken)
        return taken.error();
    return takeHappenings(*m_focus.patient);
}

const records::Asked* Session::asked(const records::VisitId& visit) const
{
    const auto version = std::ranges::find(versions(), visit, &records::Visit::id);
    if (version == versions().end())
        return nullptr;
    const auto found = std::ranges::find(m_record->asked(), version->series, &records::Asked::visit);
    return found == m_record->asked().end() ? nullptr : &*found;
}

base::Result<void> Session::setAsked(const records::VisitId& visit)
{
    if (!m_focus.patient)
        return nobodyInFocus();
    if (std::ranges::find(versions(), visit, &records::Visit::id) == versions().end())
        return Error{ErrorKind::NotFound, base::said("This visit is not one of the patient's."), {}};
    if (asked(visit) != nullptr)
        return {};
    if (auto known = needPerson(); !known)
        return known;
    if (auto done = storage::Happenings(*m_store).setAsked(visit); !done)
        return done;
    return takeHappenings(*m_focus.patient);
}

base::Result<exchange::HappeningsAddition> Session::readHappenings(const QString& path)
{
    const auto bytes = base::read(path, exchange::largestHappeningsFile);
    if (!bytes)
        return bytes.error();
    const auto everyone = patients();
    if (!everyone)
        return everyone.error();
    const auto newest = storage::Happenings(*m_store).newest();
    if (!newest)
        return newest.error();
    auto addition = exchange::happeningsFromCsv(*bytes, *everyone, *newest, today());
    if (!addition || addition->isNothing())
        return addition;
    if (auto known = needPerson(); !known)
        return known.error();
    if (auto stored = keepAll(*m_store, *addition); !stored)
        return stored.error();
    if (auto taken = takeHappenings({}); !taken)
        return taken.error();
    return addition;
}

base::Result<int> Session::writeHappenings(const QString& path) const
{
    const auto everyone = patients();
    if (!everyone)
        return everyone.error();
    const auto newest = storage::Happenings(*m_store).newest();
    if (!newest)
        return newest.error();
    const auto counting = records::current(*newest);
    const auto bytes = exchange::happeningsCsv(counting, *everyone);
    if (!bytes)
        return bytes.error();
    if (auto written = base::write(*bytes, path); !written)
        return written.error();
    return int(counting.size());
}

base::Result<void> Session::takeHappenings(const records::PatientId& patient)
{
    if (m_focus.patient) {
        if (auto read = m_record->readHappenings(*m_store); !read)
            return read;
    }
    Q_EMIT happeningsChanged(fact(patient));
    return {};
}

const std::vector<records::Target>& Session::targets() const
{
    return m_record->targets();
}

base::Result<void> Session::saveTarget(const records::Target& target)
{
    if (!m_focus.patient)
        return nobodyInFocus();
    if (const auto wrong = records::wrongWith(target, patientInFocus(), *m_catalogue, today()))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known;
    if (auto saved = storage::Targets(*m_store).save(*m_focus.patient, target); !saved)
        return saved;
    return takeTargets();
}

base::Result<void> Session::dropTarget(const QString& measure, records::Side side, const QString& reason)
{
    if (!m_focus.patient)
        return nobodyInFocus();
    if (const auto wrong = records::wrongWithReason(reason))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known;
    if (auto dropped = storage::Targets(*m_store).drop(*m_focus.patient, measure, side, reason); !dropped)
        return dropped;
    return takeTargets();
}

base::Result<void> Session::takeTargets()
{
    if (auto read = m_record->readTargets(*m_store); !read)
        return read;
    Q_EMIT targetsChanged(fact(*m_focus.patient));
    return {};
}

} // namespace session
