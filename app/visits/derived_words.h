#pragma once

#include "core/catalogue/measure.h"
#include "core/records/visit.h"

namespace visits
{

/// What a run of taps says about rate and rhythm; empty where no taps were kept.
QString rhythmWords(const records::Finding* finding);

/// How far right and left lie apart, where both have a number; else empty.
QString asymmetryWords(const catalogue::Measure& measure, const records::Visit& visit);

} // namespace visits
