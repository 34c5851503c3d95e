#pragma once

#include "app/session/session.h"
#include "core/records/whole_record.h"

namespace session
{

/// What an export has written.
struct ExportSummary {
    int patients = 0;
    int visits = 0; ///< every version
    int findings = 0;
    int letters = 0;
    bool isBeyondImport = false; ///< larger than what one import takes

    bool operator==(const ExportSummary&) const = default;
};

/// Writes whole records to a file that importFile reads back value for value, in one state of the records,
/// which stay as they are; with a folder also their signed letters, each as it was signed, and a list of
/// them. Whole or not at all: stopped or with an error a file that was there stays, and there is no folder.
/// Refused where the folder is there already.
base::Result<ExportSummary> exportRecords(Session& session, const records::Extent& extent,
                                          const QString& file, const QString& letters = {},
                                          const records::Progress& progress = {});

} // namespace session
