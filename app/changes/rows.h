#pragma once

#include "app/changes/strip.h"

#include "core/base/phrasebook.h"
#include "core/interpretation/change.h"

namespace changes
{

/// What this visit is compared with.
enum class Against { Previous, Baseline, Chosen };

/// One measure on one side, in words.
struct Row {
    QString section; ///< its title
    QString measure; ///< its title
    QString side;
    QString reference; ///< empty where there is nothing to compare with
    QString referenceDay;
    QString now;
    QString difference; ///< with its sign and unit; empty for grades, words and unable
    QString verdict;
    bool isUnjudged = false; ///< a grade or a word, which no threshold can judge: said in the detail alone
    QString stripWords;      ///< what the strip shows
    Strip strip;
    records::Occasion occasion;
    std::optional<interpretation::Comparison> comparison;
};

/// The changes in the order given, which is the catalogue's.
std::vector<Row> rows(const std::vector<interpretation::Change>& changes, Against against,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// How many rows improved, declined and so on; the first sentence above the table.
QString tally(const std::vector<Row>& rows);

/// How many of the compared results would be flagged by measurement error alone. Empty for fewer than two.
QString expectedByChance(const std::vector<Row>& rows);

} // namespace changes
