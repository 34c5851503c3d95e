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

/// What an export writes beside the file of whole records.
struct Beside {
    QString letters = {}; ///< a folder that is not there yet, for signed letters as they were signed
    QString fhir = {};    ///< a file for the same as HL7 FHIR documents, which importFile reads back too
};

/// Writes whole records to a file that importFile reads back value for value, in one state of the records,
/// which stay as they are, and what is wished beside it. All of it is safely on the disk before the first of
/// it takes its place: stopped, or where anything cannot be written, a file that was there stays, and there
/// is no folder. Refused where the folder is there already.
base::Result<ExportSummary> exportRecords(Session& session, const records::Extent& extent,
                                          const QString& file, const Beside& beside = {},
                                          const records::Progress& progress = {});

} // namespace session
