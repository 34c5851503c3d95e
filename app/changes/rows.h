#pragma once

#include "app/charts/course_line.h"
#include "core/base/phrasebook.h"
#include "core/judging/glance.h"

namespace changes
{

/// What a result is held against: its whole course, which is judged alike for every result, or one earlier
/// result that the eye chooses.
enum class Against { Course, Previous, Baseline, Best, LastConfirmed, Chosen };

/// One measure on one side, in words.
struct Row {
    QString sectionId;
    QString section;                       ///< its title
    QString measure;                       ///< its title
    values::Unit unit = values::Unit::One; ///< of its numbers
    QString side;
    QString reference;    ///< the result held against; empty where there is none
    QString referenceDay; ///< its day
    QString previous;     ///< the last earlier result
    QString now;
    QString difference; ///< with its sign and unit; empty for words and unable
    QString verdict;    ///< or why there is nothing to compare with
    QString quiet;      ///< what stands beside it: its strength, or that it could be chance
    QString judgedBy;   ///< "published, n 26", "own scatter, 8 visits", or why it is not compared
    std::vector<charts::CoursePoint> course; ///< oldest first, this visit the last
    records::Occasion occasion;
    judging::Change change;
    judging::Outcome outcome;
    std::optional<judging::Verdict> mark;          ///< drawn beside the verdict; empty: none
    std::optional<double> target;                  ///< what is to be reached
    QString targetWords;                           ///< how it stands, in a sentence
    std::optional<judging::Comparison> comparison; ///< the one of the change that was asked for
};

/// Empty where the change has no such reference.
std::optional<judging::Comparison> comparisonWith(const judging::Change& change, Against against);

/// "seen once", "confirmed", "trend, seen once", "sustained", and "sustained decline" where the comparison
/// itself says otherwise; empty where nothing is flagged.
QString strengthWord(const judging::Comparison& comparison, const judging::Course& course);

/// The results of a glance in the catalogue's order. The ground holds no visit after it.
std::vector<Row> rows(const judging::Glance& glance, Against against, const judging::Ground& ground,
                      const base::Phrasebook& phrases);

} // namespace changes
