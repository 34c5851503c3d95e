#pragma once

#include "core/base/csv.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/findings_file.h"
#include "core/fhir/entries.h"

#include <memory>
#include <vector>

namespace fhir
{

/// Bundles of whole records as the rows of a file of whole records, the header first; the line of a row is
/// the number of its entry. What is wrong with a Bundle itself is a fault.
class Rows
{
public:
    /// All three stay as long as this does.
    Rows(const catalogue::Catalogue& catalogue, exchange::Faults& faults,
         std::vector<exchange::LeftOut>& leftOut);
    ~Rows();

    void take(const std::vector<Entry>& ofOneBundle);
    const std::vector<base::CsvRow>& all() const;

private:
    class Taking;
    std::unique_ptr<Taking> m_taking;
};

/// Counts one more that is left out.
void leaveOut(std::vector<exchange::LeftOut>& all, const QString& type, const QString& code,
              const base::Message& why = {});

} // namespace fhir
