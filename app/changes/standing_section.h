#pragma once

#include "app/changes/rows.h"
#include "core/records/patient.h"

namespace changes
{

/// Where this visit's result stands among published values, as HTML; empty where there are none.
QString standingSection(const Row& row, const records::Patient& patient,
                        const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace changes
