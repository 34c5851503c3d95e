#pragma once

#include "core/judging/change.h"

namespace judging
{

/// What one result comes to over its whole course, in the order in which lists tell it.
enum class OutcomeKind {
    BecameUnable,
    BecameAble,
    Worse, ///< beyond error, or in the order of the grades
    Better,
    Changed,   ///< a word, or a sign that is new
    StepWorse, ///< by steps or in direction alone, which no error judges
    StepBetter,
    AsBefore,
    First,       ///< the first result of this measure and side
    NotCompared, ///< no earlier result under comparable conditions
};

/// "became-unable", "became-able", "worse", "better", "changed", "step-worse", "step-better", "as-before",
/// "first" or "not-compared".
QString code(OutcomeKind kind);
std::optional<OutcomeKind> outcomeKindFromCode(const QString& code);

/// What says that a result is worse or better.
enum class Says { FirstVisit, Trend, Reversal };

/// "first-visit", "trend" or "reversal".
QString code(Says says);
std::optional<Says> saysFromCode(const QString& code);

/// One direction that is there now.
struct Claim {
    Says by = Says::FirstVisit;
    Verdict direction = Verdict::Worse;
    Strength strength = Strength::SeenOnce;
    QDate since;

    bool operator==(const Claim&) const = default;
};

/// The same rule for every result: against the first comparable one, with the trend and the reversal of all
/// comparable visits; where two of them disagree the worse leads. What else an eye may compare with is not
/// asked, since the loudest of four references flags a quarter of stable people.
struct Outcome {
    OutcomeKind kind = OutcomeKind::AsBefore;
    std::optional<Claim> claim;   ///< of worse and better
    std::optional<Claim> besides; ///< what goes the other way
    std::optional<QDate> since;   ///< since when it is so without a break; empty where nothing changed
    bool mayBePractice = false;   ///< better, and against a visit at which the test was still being learnt
    QStringList newSigns;         ///< seen now and not at the last result
    /// How often error alone shows as much at one visit, in any of the ways that were looked at. Empty where
    /// no error judges it.
    std::optional<double> chance;
    /// Whether it stays while the share of false ones among this visit's is held at `falseShare`; true of
    /// what no error can bring about.
    bool isSure = false;
    Tier tier = Tier::None; ///< what judges it
    double size = 0;        ///< in limits of error or in steps, for lists
    int activity = 0;       ///< of unable and able: what people do before what is only seen, for lists

    bool operator==(const Outcome&) const = default;
};

/// The share of false ones that is allowed among what a visit calls worse or better for sure.
inline constexpr double falseShare = 0.05;

/// One for each change. False ones are held over all of them together (Benjamini & Hochberg 1995).
std::vector<Outcome> outcomesOf(const std::vector<Change>& changes, const catalogue::Catalogue& catalogue);

/// A grade one step off, which may be the eye of the examiner.
bool isOneStep(const Outcome& outcome, const catalogue::Measure& measure);

/// Which way an outcome goes, also where no error judges it: unable is worse, a step has its own, a word that
/// is no longer normal is worse and one that is normal again better, an event since the last visit is worse.
/// Empty where it goes neither way.
std::optional<Verdict> wayOf(const Outcome& outcome, const Change& change, const catalogue::Measure& measure);

/// The comparison that an outcome rests on: with the first comparable result; where none is comparable, or a
/// word is as it was at first, with the last one. nullptr for a first result.
const Comparison* decidingOf(const Change& change);

/// The places of the outcomes in the order of their weight: their kind, of unable and able the activity, the
/// sure ones before, the stronger, the better judged, the larger, the newer; of equal ones as they came.
std::vector<size_t> byWeight(const std::vector<Outcome>& outcomes);

/// How often error alone would show as much as the clearest of the outcomes, among all that are watched
/// (Simes 1986, Biometrika 73:751, from memory): what patients are compared by. `isWorse` picks a direction;
/// the others count as unremarkable. 1 where nothing is judged.
double chanceOfAny(const std::vector<Outcome>& outcomes, Verdict direction);

} // namespace judging
