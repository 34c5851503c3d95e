#pragma once

#include "core/judging/comparison.h"

namespace judging
{

/// Sets z and both probabilities of a comparison whose threshold is known.
void weigh(Comparison& held, catalogue::Direction better);

} // namespace judging
