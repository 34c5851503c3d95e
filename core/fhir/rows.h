#pragma once

#include "core/base/csv.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/findings_file.h"
#include "core/fhir/entries.h"

namespace fhir
{

/// A Bundle of whole records as the rows of a file of whole records, the header first; the line of a row is
/// the number of its entry. What is wrong with the Bundle itself is a fault.
std::vector<base::CsvRow> rowsOf(const Bundle& bundle, const catalogue::Catalogue& catalogue,
                                 exchange::Faults& faults, std::vector<exchange::LeftOut>& leftOut);

/// Counts one more that is left out.
void leaveOut(std::vector<exchange::LeftOut>& all, const QString& type, const QString& code,
              const base::Message& why = {});

} // namespace fhir
