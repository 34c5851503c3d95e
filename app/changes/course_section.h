#pragma once

#include "app/changes/rows.h"

namespace changes
{

/// What all comparable visits say together, as HTML: how many there are, this visit against each reference,
/// the trend, what was confirmed, events, and cautions.
QString courseSection(const Row& row, const judging::Ground& ground, const base::Phrasebook& phrases);

} // namespace changes
