#pragma once

#include "core/letters/composition.h"

namespace paper
{

/// "DRAFT · DEMO – invented patient"; empty for a signed letter of a real clinic.
QString marksOf(const letters::Composition& composition);

/// The letter as plain text: its marks where it has any, its identity, then a paragraph a line, the cells of
/// a table divided by tabs. Figures are told by their captions.
QString plainText(const letters::Composition& composition);

} // namespace paper
