#pragma once

#include "core/exchange/findings_file.h"

namespace fhir
{

/// Whether a file that begins so is meant as JSON.
bool isJson(const QByteArray& bytes);

/// Reads a Bundle of FHIR R4 in JSON. One that document or collection wrote gives back whole records,
/// value for value. Of another one what is understood is taken as a findings file would be: a Patient with a
/// record number, and final Observations with a code of ours or a known one of LOINC, the measure's unit in
/// UCUM and a day; everything else is in `leftOut`, and nothing is guessed. Each fault names entry, part and
/// what is allowed; the error is that the bytes are no such Bundle, that it holds another entry of the
/// clinic's own part than the clinic, or that it was stopped.
base::Result<exchange::FindingsFile> bundleFrom(const QByteArray& bytes,
                                                const catalogue::Catalogue& catalogue, QDate today,
                                                const records::Progress& progress = {},
                                                const exchange::OwnPart& ownPart = {});

} // namespace fhir
