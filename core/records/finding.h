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

    bool operator==(const Finding&) const = default;
};

} // namespace records
