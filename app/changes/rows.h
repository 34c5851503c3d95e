#pragma once

#include "app/changes/strip.h"

#include "core/base/phrasebook.h"
#include "core/judging/change.h"

namespace changes
{

/// What this visit is compared with.
enum class Against { Previous, Baseline, Best, LastConfirmed, Chosen };

/// One measure on one side, in words.
struct Row {
    QString section; ///< its title
    QString measure; ///< its title
    QString side;
    QString reference; ///< empty where there is nothing to compare with
    QString referenceDay;
    QString now;
    QString difference; ///< with its sign and unit; empty for grades, words and unable
    QString verdict;    ///< or why there is nothing to compare with
    QString strength;   ///< "seen once", "confirmed", "sustained decline"; empty where nothing is flagged
    bool isHeldBack = false; ///< a flag that does not stay within the screen's bound
    bool isUnjudged = false; ///< an unchanged grade or word, or nothing to compare: said in the detail alone
    QString stripWords;      ///< what the strip shows
    Strip strip;
    records::Occasion occasion;
    judging::Change change;
    std::optional<judging::Comparison> comparison; ///< the one of the change that was asked for
};

/// Empty where the change has no such reference.
const std::optional<judging::Comparison>& comparisonWith(const judging::Change& change, Against against);

/// "seen once", "confirmed", "trend, seen once", "sustained", and "sustained decline" where the comparison
/// itself says otherwise; empty where nothing is flagged.
QString strengthWord(const judging::Comparison& comparison, const judging::Course& course);

/// Better or worse beyond error.
bool isFlag(const Row& row);

/// What stands quietly after the verdict: its strength, and that it does not stay within the screen's bound.
QString qualified(const Row& row);

/// A verdict and what qualifies it, as short as a cell of the table needs them.
struct Meaning {
    QString verdict;
    QString quiet;
};

Meaning shortMeaning(const Row& row);

/// The changes in the order given, which is the catalogue's.
std::vector<Row> rows(const std::vector<judging::Change>& changes, Against against,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace changes
