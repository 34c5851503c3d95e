#pragma once

#include "core/letters/composition.h"

#include <QStringList>

namespace letters
{

/// One graded or worded test with what was seen on each side.
struct FindingRow {
    QString test;
    QString scale; ///< which way is better
    QString right;
    QString left;
    QString whole; ///< of a test without sides
};

/// An earlier result in a row of measures.
struct Earlier {
    QString value;
    QString day;
    QString difference; ///< with sign and unit; empty where there is none
    QString verdict;
    bool isJudged = true; ///< there is a verdict beyond "no published threshold"
    QString reason;       ///< why it is not comparable or not judged; empty otherwise
};

/// One number with what it is held against.
struct MeasureRow {
    QString measure; ///< with its side
    QString today;
    bool isDone = true;   ///< done or tried; otherwise `today` says why not
    QStringList notes;    ///< why not, how it came about, what was seen beside it
    QStringList cautions; ///< of the comparison; those of several measures are in Rows
    std::optional<Earlier> previous;
    std::optional<Earlier> baseline; ///< empty where it is the same visit as `previous`
    bool isBaselinePrevious = false;
    QString threshold;    ///< the limit in the measure's unit; empty where there is none
    QString source;       ///< short form, and whether it is from memory
    int sourceNumber = 0; ///< from 1, into Rows::sources
};

/// What the visit says, ready for the letter's tables. Rows in the order of the examination.
struct Rows {
    std::vector<FindingRow> findings;
    std::vector<MeasureRow> measures;
    QStringList sources;    ///< each row of evidence in full, in the order it is cited
    QStringList cautions;   ///< those of several measures, with their names
    QStringList notDone;    ///< each test of the form that has no result, with the reason
    QStringList conditions; ///< "Walking aid: stick", those of the visit first, then the exceptions
    int judged = 0;         ///< comparisons against an error published with its confidence
};

/// The letter's visit; nullptr where it is not among the visits.
const records::Visit* visitOf(const Material& material);

/// What the letter's visit says against earlier visits.
std::vector<interpretation::Change> changesOf(const Material& material,
                                              const catalogue::Catalogue& catalogue);

/// The comparison with the reference visit where it was chosen and holds the measure, else with the last
/// comparable.
const std::optional<interpretation::Comparison>& earlierOf(const interpretation::Change& change);

Rows rowsOf(const Material& material, const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// "Timed up and go", "Finger–nose, right".
QString titleOf(const catalogue::Measure& measure, records::Side side, const base::Phrasebook& phrases);

} // namespace letters
