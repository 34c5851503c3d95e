#pragma once

#include "core/judging/comparison.h"
#include "core/judging/events.h"
#include "core/records/clinic.h"
#include "core/records/happening.h"
#include "core/records/target.h"

#include "core/base/phrasebook.h"

namespace charts
{

/// One occasion of one side: a point where there is a value, else a mark in the lane under the chart.
struct TrendEntry {
    records::VisitId visit;
    QDate day;
    bool isDraft = false;
    std::optional<double> number; ///< its height: the number, the grade's step, or the place of the word
    std::optional<values::Absence> absence; ///< set where there is no value
    QString words;                          ///< "12.50 s", "clear (2)", "unable: felt unsafe"
    QString fewerWords;                     ///< "unable": where there is no room for the reason
    int run = 0;                            ///< results of one run were taken under the same conditions
    bool joins = false; ///< may be joined to the value before: comparable, and not unable in between
    QStringList
        changes; ///< what differs from the value before where a new run begins: "Walking aid: none → stick"
    bool isReference = false;
    bool isNow = false;                      ///< what this visit found, or the last before it
    bool isPrevious = false;                 ///< the last comparable one before that
    bool isAtCap = false;                    ///< stopped there: the value is at least that
    std::optional<judging::Verdict> verdict; ///< against the reference; empty before and at it
    QString verdictWords;                    ///< with what could not show
    QString difference;                      ///< from the reference, a plain number; may be empty
    QString differenceWords;                 ///< with sign and unit
    bool isComparable = false;               ///< with what this visit found
    QString plain;                ///< the number, step or key of the word alone; empty where there is none
    records::Conditions recorded; ///< those that matter to the measure, by id
    QStringList conditions;       ///< the same in words: "Walking aid: stick"
};

/// The values beyond which a change from the reference is larger than measurement error.
struct TrendLimits {
    QDate day;                      ///< of the reference
    double reference = 0;           ///< its value
    std::optional<double> improved; ///< empty where it lies beyond the end of the scale
    std::optional<double> declined;
    QString atThisVisit; ///< the limit in the unit, where it depends on the later value too; else empty
    QString source;      ///< "Steffen & Seney 2008, Parkinson disease, n 37"
};

/// A line through the numbers of a run, from the day of its first to the day of its last, never further.
struct TrendSlope {
    std::vector<std::pair<QDate, double>> points; ///< two, or more where the line is bent
    int visits = 0;                               ///< behind it
    bool judges = false;                          ///< the line that is judged; else the robust one beside it
    bool isProvisional = false;                   ///< of few visits
};

struct TrendLine {
    records::Side side = records::Side::None;
    QString name;                        ///< "right", "left" or nothing
    QStringList heading;                 ///< what this visit found and what it means, in rows
    std::vector<TrendEntry> entries;     ///< oldest first
    std::optional<double> standardError; ///< of measurement, the measure's unit
    std::optional<TrendLimits> limits;
    std::vector<TrendSlope> slopes; ///< of the run that this visit belongs to, up to it; what judges first
    QStringList trend;              ///< what this run says as a whole, in words

    const TrendEntry* now() const;      ///< nullptr without one
    const TrendEntry* previous() const; ///< nullptr where none before is comparable
    const TrendEntry* reference() const;
};

/// Where people of one group lie, the measure's unit.
struct TrendRange {
    double low = 0;
    double high = 0;
    QString words; ///< what it is, of whom, with its source

    bool operator==(const TrendRange&) const = default;
};

/// A label of an ordinal axis.
struct TrendStep {
    double number = 0;
    QString words;
};

/// Conditions that changed between two results, so that a new run begins.
struct TrendBreak {
    QDate from; ///< days of the results on either side
    QDate to;
    QStringList changes; ///< "Walking aid: none → stick"
};

/// A turn that no slope shows, on its day.
struct TrendEvent {
    records::VisitId visit;
    QDate day;
    judging::Event::Kind kind = judging::Event::Kind::BecameUnable;
    QString label; ///< "right became unable"
    QString words; ///< "Became unable on 13-May-2026, right"
};

/// What happened between visits, within the days that are shown.
struct TrendHappening {
    QDate from;
    QDate until; ///< the same as the first where it did not last
    records::HappeningKind kind = records::HappeningKind::Other;
    QString letter; ///< under which it is told below the chart
    QString words;  ///< "fall with injury (04-Feb-2026)"
};

/// What is to be reached, drawn as a level.
struct TrendTarget {
    records::Side side = records::Side::None;
    double number = 0;
    QString words; ///< "target 420 m"
};

/// Everything a trend shows of one measure, ready to be drawn, read out or copied.
struct TrendPoints {
    QString measure;
    QString title;
    values::Unit unit = values::Unit::One;
    QString unitWords; ///< the unit as a label; may be empty
    QString direction; ///< which way is better, in words; may be empty
    catalogue::Direction better = catalogue::Direction::Neither;
    bool isOrdinal = false;       ///< grades and words: points on steps, never joined
    std::vector<TrendStep> steps; ///< of an ordinal axis, lowest first
    std::optional<double> lowest;
    std::optional<double> highest;
    std::optional<double> finest; ///< the finest difference recorded
    QDate from; ///< first and last day of all visits given, so that charts of one patient align
    QDate to;
    std::optional<QDate> visitDay; ///< the two plumb lines
    std::optional<QDate> referenceDay;
    bool isBaseline =
        false; ///< no reference was asked for: each line is held against its first comparable value
    std::vector<TrendLine> lines;
    std::vector<TrendBreak> breaks;         ///< oldest first; drawn by number, told below by number
    std::vector<TrendEvent> events;         ///< oldest first
    std::vector<TrendHappening> happenings; ///< oldest first
    std::vector<TrendTarget> targets;
    std::optional<TrendRange> range; ///< for the newest value, where it is the same for every line
    QStringList remarks;             ///< what is drawn beside the values, with its source

    bool isEmpty() const;

    /// A number of this measure with its unit.
    QString written(double number, const base::Phrasebook& phrases) const;
};

/// Where a value stands on the axis of its measure; a word stands at its place among the measure's words.
std::optional<double> heightOf(const values::Value& value, const catalogue::Measure& measure);

/// The visits that hold something of it, oldest first, and the day of one of them.
std::vector<records::VisitId> visitsOf(const TrendPoints& points);
std::optional<QDate> dayOf(const TrendPoints& points, const records::VisitId& visit);

/// What is asked of a trend.
struct TrendQuestion {
    QString measure;
    std::optional<records::Side> side;               ///< empty: every side there is
    std::optional<records::VisitId> visit;           ///< this visit; empty: the last one
    std::optional<records::VisitId> reference;       ///< empty: the first value comparable with this visit's
    std::vector<records::Happening> happenings = {}; ///< that count, oldest first
    std::vector<records::Target> targets = {};       ///< in force, of any measure
};

/// The trend of one measure over the visits given. Without lines where the measure is unknown or never
/// recorded.
TrendPoints trendPoints(const TrendQuestion& question, const std::vector<records::Visit>& visits,
                        const records::Patient& patient, const catalogue::Catalogue& catalogue,
                        const base::Phrasebook& phrases, const records::Judging& judging = {});

} // namespace charts
