#pragma once

#include "core/judging/change.h"
#include "core/records/target.h"

namespace judging
{

enum class TargetState {
    ReachedBeyondError, ///< and better beyond a known error than when the target was agreed; the own scatter,
                        ///< which looks at all earlier results, does not say so
    ReachedWithinError, ///< and not better beyond error since, or that cannot be judged
    NotReached,
    NotSeen, ///< not done at any visit
    NoLongerLookedAt
};

/// "reached-beyond-error", "reached-within-error", "not-reached", "not-seen" or "no-longer-looked-at".
QString code(TargetState state);

/// How a target stands at the last visit given that has a result. It answers beside the verdicts and changes
/// none.
struct TargetProgress {
    records::Target target;
    TargetState state = TargetState::NotSeen;
    bool isOverdue = false;               ///< not reached, or not seen, and its day has passed
    std::optional<records::Occasion> now; ///< the result it stands at, done or unable
    std::optional<Comparison> since;      ///< a result after the day the target was agreed, held against the
                                     ///< last comparable one up to it; empty where one of them is missing
};

/// A result equal to the target reaches it; unable does not, nor does a time that was stopped at its cap
/// where less is better. Judged for `today`: the day the visits are looked at.
TargetProgress targetProgress(const records::Target& target, const Ground& ground, QDate today);

/// Those agreed on or before a day that are still looked at, judged for it, in the order in which measure and
/// side first got one.
std::vector<TargetProgress> targetsAt(const std::vector<records::Target>& oldestFirst, const Ground& ground,
                                      QDate day);

} // namespace judging
