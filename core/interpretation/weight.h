#pragma once

#include "core/interpretation/comparison.h"

namespace interpretation
{

/// Sets z and both probabilities of a comparison whose threshold is known.
void weigh(Comparison& held, catalogue::Direction better);

} // namespace interpretation
