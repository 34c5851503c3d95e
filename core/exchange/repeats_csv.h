#pragma once

#include "core/base/result.h"
#include "core/statistics/reliability.h"

#include <QByteArray>

#include <vector>

namespace exchange
{

constexpr qint64 largestRepeatsFile = 20'000'000; ///< bytes

/// Repeated tests of people in whom no change was expected.
struct RepeatedTests {
    std::vector<int> trials;     ///< their numbers, rising
    statistics::Repeats repeats; ///< of the subjects with a value in every trial, in the order of the file;
                                 ///< of each the values by the number of their trial
    int leftOut = 0;             ///< subjects without one in every trial
};

/// Reads a file of at most 20 MB with the columns `subject`, `trial` and `value`, in any order. A value is a
/// number with a point, or empty where the trial is missing; a trial is a whole number from 1, wherever in
/// the file it stands. The error names line and column: another column, no number, or a subject and trial
/// that stand twice.
base::Result<RepeatedTests> repeatsFromCsv(const QByteArray& bytes);

} // namespace exchange
