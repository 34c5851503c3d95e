#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"
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
    QString difference; ///< with sign and unit; empty where there is none or it would mean nothing
    QString verdict;
    QString strength;     ///< how often it was seen, with the interval; empty where nothing changed
    bool isJudged = true; ///< there is a verdict beyond "no published threshold"
    QString reason;       ///< why it is not comparable; empty otherwise
};

/// What error alone can explain.
struct Limit {
    QString words;  ///< in the measure's unit
    QString source; ///< short form, whether it is from memory, and its number in Rows::sources

    bool operator==(const Limit&) const = default;
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
    std::vector<Limit>
        limits; ///< one, or one for each comparison where they differ; none where there is none
};

/// What the visit says, ready for the letter's tables. Rows in the order of the examination.
struct Rows {
    std::vector<FindingRow> findings;
    std::vector<MeasureRow> measures;
    QStringList sources;  ///< each row of evidence in full, in the order it is cited
    QStringList cautions; ///< those of several measures or of findings, with their names
    QStringList rates;    ///< how often each rule that raised a flag is wrong, a sentence each
    int judged = 0;       ///< comparisons against an error published with its confidence
};

Rows rowsOf(const Material& material, const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace letters
