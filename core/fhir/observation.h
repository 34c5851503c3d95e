#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

namespace fhir
{

/// The id of a resource and the resource.
using Made = std::pair<QString, QByteArray>;

/// The measure of the catalogue, or one of this id alone.
catalogue::Measure measureOf(const QString& id, const catalogue::Catalogue& catalogue);

/// A code of ours and, where it is known, that of LOINC.
QByteArray testCode(const catalogue::Measure& measure);

/// A finding as an Observation; `author` is the id of who signed, `encounter` refers to the visit.
Made observation(const records::Visit& visit, const records::Finding& finding, const QString& author,
                 const QByteArray& encounter, const catalogue::Catalogue& catalogue);

/// An answer to a question about a red flag as an Observation; what was done about a yes is its note.
Made redFlag(const records::Visit& visit, const QString& flag, const records::RedFlagAnswer& answer,
             const QByteArray& encounter, const catalogue::Catalogue& catalogue);

} // namespace fhir
