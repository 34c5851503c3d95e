#pragma once

#include "core/catalogue/catalogue.h"
#include "core/letters/composition.h"

namespace letters
{

/// A form to be filled in with a pen, in the order it is typed in: a line for the patient on every page, each
/// test with its sides, unit, grades or words, room for each trial, its caution, the conditions its tests
/// need, and the red flags.
Composition blankForm(const catalogue::Form& form, const records::Clinic& clinic,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace letters
