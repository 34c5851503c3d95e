#pragma once

#include "core/catalogue/catalogue.h"
#include "core/catalogue/fields.h"

namespace catalogue
{

/// A question and a pattern out of their fields, as the entries of `entries.h` are read.
RedFlag redFlagFrom(Fields& fields, const Catalogue& soFar);
Pattern patternFrom(Fields& fields, const Catalogue& soFar);

/// What is wrong with the questions and the patterns of a catalogue: an unknown measure, a word, a grade or
/// a sign that is none of the measure's, a pattern nothing can support, a source that is not there.
base::Messages readingFaults(const Catalogue& catalogue);

} // namespace catalogue
