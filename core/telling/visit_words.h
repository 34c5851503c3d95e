#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

namespace telling
{

/// What of the whole visit decides what it may be compared with, in few words: what is on or off, and what
/// differs from an earlier visit: "Medication state: On (at 12-Mar-2026: Off)". `before` may be null.
QStringList circumstances(const records::Visit& now, const records::Visit* before, const QString& population,
                          const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace telling
