#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"

namespace handbook
{

/// A heading of the handbook page and the sentences under it.
struct Part {
    QString heading;
    QStringList lines;

    bool operator==(const Part&) const = default;
};

/// What the handbook says of one measure.
struct Handbook {
    QString title;
    QString place;           ///< "NHPT · Upper limbs · the clinic's own"
    QString caution;         ///< empty: none
    std::vector<Part> parts; ///< only those with something to say
    QStringList related;     ///< the ids of its parts, and of what it is a part of

    bool operator==(const Handbook&) const = default;
};

Handbook handbook(const catalogue::Measure& measure, const catalogue::Catalogue& catalogue,
                  const base::Phrasebook& phrases);

/// Which conditions must match before two results may be compared, a sentence for each strictness.
QStringList matchingWords(const catalogue::Measure& measure, const catalogue::Catalogue& catalogue);

} // namespace handbook
