#pragma once

#include "app/changes/rows.h"

namespace changes
{

/// The share of false flags among those of one visit that the limit holds.
inline constexpr double screenRate = 0.05;

/// Marks the flags that do not stay while the expected share of false ones is held at `screenRate`, over all
/// rows that were judged with a z. Limits found by experience give no z: their flags are neither counted nor
/// marked. Benjamini & Hochberg 1995, J R Stat Soc B 57:289.
void holdFalseFlags(std::vector<Row>& rows);

/// How many flags stay, for the tally. Empty where none was judged with a z.
QString stayingWords(const std::vector<Row>& rows);

// What the person last chose. Not of a patient.

bool isLimitHeld();
void rememberLimitHeld(bool isHeld);

} // namespace changes
