#pragma once

#include "app/changes/rows.h"

namespace changes
{

/// A row explained, as HTML: the arithmetic step by step, the source, the conditions on both sides with what
/// does not match, cautions, and the evidence that was not used.
QString detail(const Row& row, const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace changes
