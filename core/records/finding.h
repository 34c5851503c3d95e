#pragma once

#include "core/base/id.h"
#include "core/records/conditions.h"
#include "core/values/value.h"

#include <QStringList>

#include <vector>

namespace records
{

enum class Side { None, Right, Left };

/// "none", "right" or "left".
QString code(Side side);
std::optional<Side> sideFromCode(const QString& code);

/// What was seen of one measure on one side at one visit.
struct Finding {
    QString measure; ///< measure id
    Side side = Side::None;
    values::Value value = values::Missing{};
    std::vector<double>
        trials; ///< raw trials in the measure's unit; `value` follows from them by the measure's rule
    bool capReached = false; ///< the trial was stopped at the measure's cap
    QStringList signs;       ///< what was seen beside the grade, from the measure's watch-for words
    QString note;
    Conditions exceptions; ///< this test's own conditions, where they differ from the visit's
    std::vector<double> taps =
        {}; ///< the instants of counted taps, seconds from the start of the run, rising
    std::vector<int> trialNumbers =
        {}; ///< which trial each of `trials` is, from 1, rising; empty where none is left out

    bool operator==(const Finding&) const = default;
};

/// Which trial, from 1, stands at this place of `trials`, from 0.
int trialNumber(const Finding& finding, size_t place);

/// Adds a trial that is not there yet, in its place. Its number may leave some out: the second trial alone.
void addTrial(Finding& finding, int number, double trial);

} // namespace records
