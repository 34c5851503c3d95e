#pragma once

#include "app/widgets/theme.h"

namespace widgets
{

/// The program's style sheet in the colours given.
QString styleSheet(const Colours& colours);

/// That of a page of text that is read, such as the handbook, in the colours of the look.
QString pageStyle(const QPalette& palette);

} // namespace widgets
