#pragma once

#include "app/widgets/theme.h"

namespace widgets
{

/// The program's style sheet in the colours given.
QString styleSheet(const Colours& colours);

} // namespace widgets
