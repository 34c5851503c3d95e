#pragma once

#include "core/records/finding.h"

#include <QDateTime>

#include <optional>
#include <vector>

namespace records
{

/// What a patient wants to reach in one measure on one side, as it was agreed with them. A change is a
/// further one of the same measure and side; so is no longer looking at it.
struct Target {
    QString measure;
    Side side = Side::None;
    double value = 0;        ///< in the measure's unit; of a grade its step
    std::optional<QDate> by; ///< not before the day it was agreed, and at most ten years later
    QString words;           ///< the patient's own
    QDate agreedOn;
    QString droppedFor; ///< why it is no longer looked at; empty: it is
    QString who;
    QDateTime enteredAt; ///< UTC

    bool operator==(const Target&) const = default;
};

/// The newest target of each measure and side, those no longer looked at among them; in the order in which
/// measure and side first got one.
std::vector<Target> newest(const std::vector<Target>& oldestFirst);

/// Those of them that are still looked at.
std::vector<Target> inForce(const std::vector<Target>& oldestFirst);

/// The newest of one measure and side; nullptr where there never was one.
const Target* newestOf(const std::vector<Target>& oldestFirst, const QString& measure, Side side);

} // namespace records
