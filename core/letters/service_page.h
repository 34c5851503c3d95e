#pragma once

#include "core/judging/service_report.h"
#include "core/letters/composition.h"

namespace letters
{

/// A service report as pages: what was counted, a table a population, and how to read them.
Composition servicePage(const judging::ServiceReport& report, const records::Clinic& clinic, QDate madeOn,
                        const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace letters
