#pragma once

#include "app/changes/rows.h"

namespace changes
{

/// A row explained, as HTML: the arithmetic step by step, how sure it is, what all visits say together, the
/// source, cautions, the conditions on both sides with what does not match, and the evidence that was not
/// used.
QString detail(const Row& row, const judging::Ground& ground, const base::Phrasebook& phrases);

} // namespace changes
