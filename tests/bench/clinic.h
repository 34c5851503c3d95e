#pragma once

#include "app/session/session.h"
#include "core/catalogue/catalogue.h"

namespace bench
{

/// A records file of so many invented patients, 10,000 at most, with one visit each; the patient "MANY" has
/// 100 visits with every measure of the catalogue on every side, and an open draft.
base::Result<void> makeClinic(const QString& path, const catalogue::Catalogue& catalogue, int patients);

/// Something recorded for every condition, so that all results of a measure can be compared.
records::Conditions everyCondition(const catalogue::Catalogue& catalogue);

/// Seals the records at this path, which openedClinic opens all the same.
bool seal(const QString& path, const catalogue::Catalogue& catalogue);

/// The clinic opened, and the patient with the many visits.
std::unique_ptr<session::Session> openedClinic(const QString& path, const catalogue::Catalogue& catalogue);
records::PatientId patientWithMany(const session::Session& session);

} // namespace bench
