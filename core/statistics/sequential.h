#pragma once

#include <optional>

namespace statistics
{

/// A trend is looked at anew at each visit from the third on. So that the chance of any false flag over the
/// planned visits stays at 5 %, the look at visit k may spend 5 % · ((k/K)³ − ((k − 1)/K)³), the first one
/// all up to its visit (Lan & DeMets 1983, Biometrika 70:659, with a power-3 function: Kim & DeMets 1987,
/// Biometrika 74:149; both from memory). The shares are added up without counting on the looks' correlation,
/// so the level holds for any spacing of the visits.
inline constexpr int firstLook = 3;
inline constexpr double sequentialLevel = 0.05;

/// How large |slope / its standard error| must be to be called sustained at this visit of the run, counted
/// from 1. Beyond the planned visits K is their next multiple, so that each further block has a level of its
/// own of at most 5 %. Empty below the first look, and for fewer than three planned visits.
std::optional<double> sequentialBound(int visit, int plannedVisits);

} // namespace statistics
