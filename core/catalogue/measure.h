#pragma once

#include "core/values/unit.h"

#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

namespace catalogue
{

enum class Kind { Grade, Choice, Count, Duration, Distance, Speed, Rate, Score };
/// Whether results are numbers: not the steps of a grade, and not words.
constexpr bool isNumeric(Kind kind)
{
    return kind != Kind::Grade && kind != Kind::Choice;
}

enum class Direction { HigherIsBetter, LowerIsBetter, Neither };
enum class TrialRule { Single, Mean, Best };

/// A word a choice measure can be answered with.
struct Option {
    QString key;
    QString title;
    QString titleWithin = {};  ///< within a sentence; empty: as English makes it of the title
    QString titleInShort = {}; ///< where there is little room; empty: the first part of the title
    bool operator==(const Option&) const = default;
};

/// The option with this key; null where there is none.
const Option* optionOf(const std::vector<Option>& options, const QString& key);

/// How strictly a condition must match before two results of a measure may be compared.
enum class Strictness {
    Hard,       ///< must be recorded on both sides and be equal
    IfRecorded, ///< a recorded difference blocks; not recorded deserves a caution
    IfEither,   ///< as IfRecorded, but not a word where neither side has it: what few patients or tests have
    Soft        ///< a difference deserves a caution and no more
};

/// How a result is worked out from others of the same visit.
enum class Computing {
    Speed,        ///< timed distance over the time of the one part
    Cadence,      ///< steps over time: parts are the steps and the time
    StepLength,   ///< timed distance over the steps of the one part
    SumOfItems,   ///< of all parts, right and left averaged where a part has sides
    ShortBattery, ///< scored from feet together, semi-tandem, tandem (s), walking speed, five rises (s)
    DualTaskCost  ///< percent that the second part's time lies above the first part's
};

struct Computation {
    Computing rule = Computing::Speed;
    QStringList parts; ///< measure ids, in the order the rule names them
    bool operator==(const Computation&) const = default;
};

struct ConditionRule {
    QString condition; ///< id of a catalogue::Condition
    Strictness strictness = Strictness::Soft;
    QString onlyFor; ///< population id this strictness holds for (with its narrower ones); Soft elsewhere.
                     ///< Empty: all.
    bool operator==(const ConditionRule&) const = default;
};

/// How long results still improve by repeating the test alone.
struct Practice {
    int visits = 0; ///< how many first sessions it concerns, at least 1
    QString words;  ///< what was seen, one sentence with its source
    bool operator==(const Practice&) const = default;
};

/// A choice that says no more than a hold before it: closing the eyes tells nothing of a stance that was
/// unsteady with them open.
struct Following {
    QString hold;          ///< id of a measure in seconds, done before this one
    double steadyFrom = 0; ///< s; a shorter hold, or one that was tried in vain, was unsteady
    QString choice;        ///< the key of what there is to say then
    bool operator==(const Following&) const = default;
};

/// One thing a clinician observes, counts, times or scores.
struct Measure {
    QString id;
    QString title;
    QString shortForm; ///< the trade's abbreviation; may be empty
    QString section;   ///< id of a Section
    Kind kind = Kind::Grade;
    values::Unit unit = values::Unit::One;
    bool hasSides = false; ///< recorded right and left; otherwise once, without a side
    Direction better = Direction::Neither;
    std::optional<double> lowest;
    std::optional<double> highest;
    std::optional<double> step;  ///< the finest difference recorded
    std::vector<Option> options; ///< of a choice; of a grade, the words for its steps where the trade has any
    int trials = 1;              ///< how many trials the usual protocol asks for
    TrialRule rule = TrialRule::Single;
    std::optional<double> cap;    ///< a trial is stopped here (s); reaching it is its own field, not a value
    std::vector<Option> watchFor; ///< what to look at; may be ticked beside a grade, then kept by its key
    QString purpose;              ///< what it is for, one sentence
    QString alsoCalled;           ///< other words people look for it by, parted by ", "; may be empty
    QString plainly;              ///< what is looked at, as a part of a sentence to the patient; may be empty
    QString how;                  ///< one short paragraph in our own words
    QString position;             ///< of the patient
    QString equipment;            ///< what is needed; may be empty
    QString unableMeans;
    QString caution;   ///< one short line where the test can make someone fall; else empty
    QString agreement; ///< of examiners about a grade, one sentence with its source; may be empty
    std::vector<ConditionRule> conditions;
    std::optional<Practice> practice;
    std::optional<Computation> computed; ///< where it is not entered, it follows from these
    std::optional<Following> following;  ///< of a choice
    QString partOf;                      ///< id of the total it is an item of; empty: stands for itself
    bool hasLicensedWording = false;     ///< the wording of its items belongs to their owners
    bool isTapped = false;               ///< counted by taps whose instants are kept
    bool isStepped = false;              ///< counted step by step while one watches
    QString missteps;          ///< id of the count of steps beside the line, counted along; may be empty
    bool countsEvents = false; ///< since the last visit, as falls: any of them is worth a word
    bool retired = false;
    bool isOwn = false; ///< the clinic's own
};

/// A part of the bedside examination.
struct Section {
    QString id;
    QString title;
};

/// A circumstance a result depends on: walking aid, footwear, timed distance …
struct Condition {
    QString id;    ///< as in the exchange file: "aid", "distance_m"
    QString title; ///< "Walking aid"
    values::Unit unit = values::Unit::One;
    bool isNumber = false;
    bool isClosed = false;       ///< only the options are allowed
    std::vector<Option> options; ///< suggestions, or all that is allowed
    std::optional<double> lowest;
    std::optional<double> highest;
    bool isOfTest = false;     ///< a matter of single tests, recorded as their own and not of the visit
    bool isOfOneVisit = false; ///< true of its own visit alone: never carried forward to the next
    QString titleWithin = {};  ///< within a sentence; empty: as English makes it of the title
    bool isTold = false;       ///< stands in letters also where no test depends on it
    bool hinders = false;      ///< may hinder a test; the first option says that it does not
};

/// A group of people in whom thresholds were measured.
struct Population {
    QString id;
    QString title;
    QString broader; ///< id of the next wider population; empty at the top
    std::optional<int> confirmAfterDays =
        {}; ///< how much later a change must still be there to be confirmed; empty: as the wider one
};

struct FormSection {
    QString title;
    QStringList measures;
    bool operator==(const FormSection&) const = default;
};

/// An examination: which measures, in which order and under which headings.
struct Form {
    QString id;
    QString title;
    std::vector<FormSection> sections;
    QStringList expected; ///< the measures that are asked for each time; the others are there when needed
    bool isOwn = false;   ///< the clinic's own

    QStringList measures() const; ///< of all sections, in order; each once
    bool operator==(const Form&) const = default;
};

} // namespace catalogue
