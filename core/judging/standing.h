#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/history.h"
#include "core/records/patient.h"

#include <variant>

namespace judging
{

/// Why a reference value gives no answer for a result.
enum class Obstacle {
    AgeUnknown,
    SexUnknown, ///< or neither female nor male, where the values are apart
    HandUnknown,
    HeightUnknown,
    WeightUnknown,
    AgeOutside, ///< in a gap between the ages of the source, or outside them
    OtherRule,  ///< the source takes the best of its trials and the measure does not, or the like
    OtherCondition,
    StoppedEarly ///< the trial was stopped before it could tell
};

/// A result against what people of one group reached.
struct AgainstNorm {
    catalogue::Norm norm;
    std::optional<double> z;          ///< (result − mean) / SD
    std::optional<double> percentile; ///< 0 to 100, by the normal curve: the share of the group that did not
                                      ///< do better. Of a measure without a direction, the share not above
};

/// A result against its predicted value, in the measure's unit.
struct AgainstPrediction {
    catalogue::Equation equation;
    double predicted = 0;
    double percent = 0; ///< of the prediction
    std::optional<double> lowerLimit;
};

/// The named part of the scale a result lies in, or a cut-off and the side it lies on.
struct AgainstBand {
    catalogue::Band band;
    bool isWithin = true;
};

/// Reference values of one source that give no answer.
struct NoReference {
    catalogue::Whom whom; ///< of all its rows that are about this person: their ages together
    catalogue::Origin origin;
    std::vector<Obstacle> obstacles;
    std::optional<int> age; ///< completed years on the day of the result
};

/// One answer to: where does this result stand? `value` is in the measure's unit; where the trial was stopped
/// at its cap, it is at least that.
struct Standing {
    double value = 0;
    bool isAtLeast = false;
    std::variant<AgainstNorm, AgainstPrediction, AgainstBand, NoReference> answer;
};

/// All answers, in the catalogue's order: norms, predictions, bands; the reference values that give none come
/// last, once a source. Values of a population hold for it and narrower ones; values without one are those of
/// people without disease and hold for comparison with everybody. Never the nearest age. Empty for grades,
/// words, a missing value, and a measure without reference values.
std::vector<Standing> standings(const records::Occasion& occasion, const records::Patient& patient,
                                const catalogue::Catalogue& catalogue);

} // namespace judging
