#pragma once

#include "app/session/session.h"
#include "core/exchange/findings_file.h"
#include "core/exchange/preview.h"

namespace session
{

/// What an import has added to the records.
struct ImportSummary {
    int patients = 0;      ///< new
    int visits = 0;        ///< new
    int amendments = 0;    ///< of visits that were signed
    int findings = 0;      ///< new, or with further trials
    int entries = 0;       ///< events, targets, choices … of whole records
    bool isOwnNew = false; ///< the clinic's own part of the catalogue has grown

    bool operator==(const ImportSummary&) const = default;
};

/// Who signs what is imported by this name.
records::Author importingAuthor(const QString& name);

/// Reads a findings file, one of whole records, or a Bundle of FHIR, with what the clinic added to the
/// catalogue.
base::Result<exchange::FindingsFile> findingsFile(const Session& session, const QByteArray& bytes,
                                                  const records::Progress& progress = {});

/// What an import of the file would do to the records now, with every line that it would refuse.
base::Result<exchange::Plan> plannedImport(Session& session, const exchange::FindingsFile& file,
                                           const records::Progress& progress = {});

/// Brings the patients of a findings file into the records as plannedImport says, all of them or none: with
/// one fault, or stopped, nothing is taken. Patients are known by their record number; what the records hold
/// already is no change, what they hold otherwise is a fault. New visits are signed by the author; findings
/// for a day that is signed become a signed amendment, for an open draft a part of it. Under the name of the
/// file it can be taken back; without one it cannot.
base::Result<ImportSummary> importPatients(Session& session,
                                           const std::vector<exchange::ImportedPatient>& patients,
                                           const records::Author& author, const QString& file = {},
                                           const records::Progress& progress = {});

/// The same of a file that was read. Whole records come with who signed them and when; they cannot be taken
/// back.
base::Result<ImportSummary> importFile(Session& session, const exchange::FindingsFile& read,
                                       const records::Author& author, const QString& file = {},
                                       const records::Progress& progress = {});

} // namespace session
