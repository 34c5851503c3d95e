#pragma once

#include "core/catalogue/own.h"
#include "core/records/letter.h"
#include "core/records/whole_record.h"

namespace fhir
{

/// What the records hold of a patient, and their signed letters, as one document of HL7 FHIR R4
/// (hl7.org/fhir/R4, version 4.0.1): a Bundle whose first entry is its Composition. bundleFrom reads it back
/// value for value, but for the letters. Of a visit the version that counts is an Encounter with
/// Observations; its other versions, and all that was found at a visit entered in error, are contained in it,
/// so that nobody counts them. Units are codes of UCUM, a bare number is 1. A test has a code of our own,
/// beside it that of LOINC where its wording was seen. `letters` come with their documents, `now` is the
/// instant of the document.
QByteArray document(const records::WholeRecord& record, const std::vector<records::Letter>& letters,
                    const catalogue::Catalogue& catalogue, const QDateTime& now);

/// Several documents in one Bundle, a collection, with what the clinic added to the catalogue before them;
/// one without such stays what it is.
QByteArray collection(const std::vector<QByteArray>& documents, const catalogue::Own& own,
                      const QDateTime& now);

} // namespace fhir
