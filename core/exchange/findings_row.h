#pragma once

#include "core/catalogue/catalogue.h"
#include "core/exchange/columns.h"
#include "core/records/visit.h"

namespace exchange
{

/// One row of a findings file, each cell allowed by itself.
struct FindingRow {
    int line = 0;
    records::Patient patient; ///< what the identity columns say
    QDate day;
    int trial = 1;
    records::Finding finding;       ///< of this trial alone; a reason beside a value is its note
    bool saysCapped = false;        ///< whether its cap was reached stands in the row
    records::Conditions conditions; ///< the condition columns that are not empty
};

/// Whether a hold ended because the measure's cap was reached, where nothing says so.
bool isCapHeld(double number, const catalogue::Measure& measure);

/// Reads the rows of one file. The catalogue must outlive it.
class FindingRows
{
public:
    FindingRows(QHash<QString, qsizetype> header, const catalogue::Catalogue& catalogue);

    base::Result<FindingRow> read(const base::CsvRow& row);

private:
    base::Result<records::Patient> patientIn(const base::CsvRow& row);
    base::Result<records::Conditions> conditionsIn(const base::CsvRow& row) const;

    QHash<QString, qsizetype> m_header;
    const catalogue::Catalogue& m_catalogue;
    QHash<QString, const catalogue::Measure*> m_measures;
    std::vector<std::pair<const catalogue::Condition*, qsizetype>> m_conditions; ///< and their places
    QList<qsizetype> m_identity; ///< places of who the patient is
    QStringList m_lastCells;     ///< of who the patient of the row before is
    records::Patient m_last;
};

} // namespace exchange
