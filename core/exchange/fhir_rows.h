#pragma once

#include "core/base/csv.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/fhir_entries.h"
#include "core/exchange/findings_file.h"

namespace exchange::fhir
{

/// A Bundle of whole records as the rows of a file of whole records, the header first; the line of a row is
/// the number of its entry. What is wrong with the Bundle itself is a fault.
std::vector<base::CsvRow> rowsOf(const Bundle& bundle, const catalogue::Catalogue& catalogue, Faults& faults,
                                 std::vector<LeftOut>& leftOut);

/// Counts one more that is left out.
void leaveOut(std::vector<LeftOut>& all, const QString& type, const QString& code,
              const base::Message& why = {});

} // namespace exchange::fhir
