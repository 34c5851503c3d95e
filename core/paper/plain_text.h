#pragma once

#include "core/letters/composition.h"

namespace paper
{

/// The letter as plain text: a paragraph a line, the cells of a table divided by tabs. Figures are told by
/// their captions.
QString plainText(const letters::Composition& composition);

} // namespace paper
