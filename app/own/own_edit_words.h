#pragma once

#include "core/catalogue/own.h"

namespace own
{

/// What an edit did to the clinic's own part: "form “Short form”"; where it was several entries, how many.
QString ownEditWords(const catalogue::Own& before, const catalogue::Own& after);

} // namespace own
