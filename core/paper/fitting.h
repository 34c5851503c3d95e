#pragma once

#include "core/letters/composer.h"

namespace paper
{

/// The letter with as many rows as let what stands before its annex fit the room of its kind, else one page.
/// Where even without rows it is longer, with all of them.
letters::Composition fitted(const letters::Composer& composer);

} // namespace paper
