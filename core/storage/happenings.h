#pragma once

#include "core/base/result.h"
#include "core/records/happening.h"
#include "core/storage/store.h"

namespace storage
{

/// Events between visits, and that they were asked about at one. Every write is one durable transaction, in
/// the name of the store's user and now.
class Happenings
{
public:
    explicit Happenings(Store& store) : m_store(store) {}

    /// A new event where the version is 0, else a further version after this one. Gives back what was stored.
    /// Conflict when the newest version is another, Refused when the event was taken back, Invalid when it is
    /// another patient's or there already, NotFound without the patient.
    base::Result<records::Happening> save(const records::Happening& happening);
    /// The last version of an event: as it was, with the reason why it no longer counts. Refused without a
    /// reason and a second time.
    base::Result<records::Happening> takeBack(const records::HappeningId& id, const QString& reason);
    /// Every version of every event of a patient.
    base::Result<std::vector<records::Happening>> ofPatient(const records::PatientId& patient) const;
    /// The newest version of every event of all patients, those taken back among them.
    base::Result<std::vector<records::Happening>> newest() const;

    /// Keeps that events since the last visit were asked about at this visit; any version will do. Once is
    /// enough: a second time nothing is written.
    base::Result<void> setAsked(const records::VisitId& visit);
    base::Result<std::vector<records::Asked>> asked(const records::PatientId& patient) const;

    /// For an import, which notes it itself: as it is elsewhere, in the name and at the instant it carries.
    base::Result<void> bring(const records::Happening& happening);
    base::Result<void> bringAsked(const records::Asked& asked);

private:
    base::Result<std::optional<records::Happening>> newestOf(const records::HappeningId& id) const;
    base::Result<records::Happening> add(records::Happening happening);

    Store& m_store;
};

} // namespace storage
