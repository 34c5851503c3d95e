#pragma once

#include "core/base/phrasebook.h"

namespace letters
{

/// The language of a letter: what the screen says in its own short words is said so that a reader who never
/// saw the screen understands it.
base::Phrasebook inLetters(const base::Phrasebook& phrases);

} // namespace letters
