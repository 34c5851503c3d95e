#pragma once

#include "core/catalogue/catalogue.h"
#include "core/exchange/preview.h"

#include <QString>

#include <vector>

namespace importing
{

/// A line of the table: a visit, a line of the file that cannot be taken, or what is left out of a Bundle.
struct PreviewRow {
    exchange::Becomes becomes = exchange::Becomes::AsRecorded;
    int line = 0;    ///< or entry; 0: it stands for several
    QString patient; ///< record number
    QDate day;
    QString what;
    QString fault; ///< only of a line that is refused

    bool operator==(const PreviewRow&) const = default;
};

/// Every line of the table in the order of the file, what is left out at its end; of faults the first
/// thousand.
std::vector<PreviewRow> previewRows(const exchange::Preview& preview, const catalogue::Catalogue& catalogue);

/// "3 patients and 12 visits are new, 2 visits change, 4 lines are refused."
QString headline(const exchange::Preview& preview);

/// What is to know before the file is taken: why it cannot be now, or that it could not be taken back.
QString hindrance(const exchange::Preview& preview);

} // namespace importing
