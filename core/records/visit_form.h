#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

namespace records
{

/// The form a visit goes by: as it was made, else the catalogue's by its id, else the catalogue's first.
/// nullptr where the catalogue has none. Lasts as long as the visit and the catalogue.
const catalogue::Form* formOf(const Visit& visit, const catalogue::Catalogue& catalogue);

/// The measures of the catalogue that the visit has a finding of though its form does not name them; each
/// once, in the catalogue's order. A finding that says nothing is none.
QStringList besideForm(const Visit& visit, const catalogue::Catalogue& catalogue);

/// The form of those that come with the program that a visit made elsewhere fits: it leaves the fewest of its
/// measures beside it, and of those that leave as few asks for the fewest. nullptr where the catalogue has
/// none.
const catalogue::Form* formFitting(const Visit& visit, const catalogue::Catalogue& catalogue);

/// Whether every side of the test is answered, or its value follows from another test.
bool isAnswered(const catalogue::Measure& test, const Visit& visit, const catalogue::Catalogue& catalogue);

/// Of the tests that the visit's own form asks for each time.
struct FormProgress {
    int done = 0; ///< answered
    int expected = 0;
};

FormProgress progressOf(const Visit& visit, const catalogue::Catalogue& catalogue);

/// Whether every test that the visit's own form asks for each time is answered.
bool isComplete(const Visit& visit, const catalogue::Catalogue& catalogue);

/// Whether nothing would be lost without this finding: not asked, and nothing beside it.
bool isBlank(const Finding& finding);

} // namespace records
