#pragma once

#include "core/catalogue/catalogue.h"
#include "core/letters/composition.h"

namespace letters
{

/// Every pattern of a visit as XHTML for Composition::body, without head and style: what supports it, what
/// contradicts it, what was not tested. A finding is a link, "finding:" and its key (keyOf).
QString patternBody(const records::Visit& visit, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases);

/// The same as pages of their own, with the patient on each.
Composition patternPage(const records::Visit& visit, const records::Patient& patient,
                        const records::Clinic& clinic, const catalogue::Catalogue& catalogue, QDate today,
                        const base::Phrasebook& phrases);

} // namespace letters
