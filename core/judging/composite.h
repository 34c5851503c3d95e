#pragma once

#include "core/judging/course.h"

namespace judging
{

/// A component of the composite confirmed worsening in multiple sclerosis: the timed 25-foot walk or the
/// nine-hole peg test of either hand at least 20 % longer than at the first comparable visit, and at every
/// comparable visit since until one at least 12 or 24 weeks later. Cadavid et al. 2017, Mult Scler 23:1266
/// (reference from memory). The disability scale of the published composite is not part of it.
struct CompositeWorsening {
    QString measure;
    records::Side side = records::Side::None;
    RunPoint reference;
    RunPoint seen;
    RunPoint confirmed;
    double percent = 0; ///< longer at the confirming visit than at the reference
};

/// The components that have worsened, confirmed after the clinic's weeks. Empty where the clinic has not
/// switched the rule on, and for people without multiple sclerosis.
std::vector<CompositeWorsening> compositeWorsenings(const Ground& ground);

} // namespace judging
