#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/letter.h"
#include "core/records/whole_record.h"

namespace exchange
{

/// The visits of a patient that count, and their letters, as one document of HL7 FHIR R4 (hl7.org/fhir/R4,
/// version 4.0.1): a Bundle whose first entry is its Composition; Patient, Practitioner, Encounter,
/// Observation, DocumentReference, DiagnosticReport and Provenance follow. Of a visit that was entered in
/// error the Encounter alone is there, as that. Units are codes of UCUM, a bare number is 1. A test has a
/// code of our own, beside it that of LOINC where its wording was seen. `letters` are signed ones with their
/// documents, `now` the instant of the document.
QByteArray fhirDocument(const records::WholeRecord& record, const std::vector<records::Letter>& letters,
                        const catalogue::Catalogue& catalogue, const QDateTime& now);

/// Several documents in one Bundle, a collection; one stays what it is.
QByteArray fhirCollection(const std::vector<QByteArray>& documents, const QDateTime& now);

} // namespace exchange
