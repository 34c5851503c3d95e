#pragma once

#include "core/base/error.h"
#include "core/base/phrasebook.h"

namespace session
{

/// The texts of core in the language of the screen.
const base::Phrasebook& screenPhrases();

/// What went wrong as one sentence in the language of the screen.
QString sentence(const base::Error& error);

} // namespace session
