#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/conditions.h"

#include <map>

namespace judging
{

/// What decides which published rows fit one comparison, and which of them is used.
struct Circumstances {
    QString population;               ///< the patient's; empty: none fits
    QString hand;                     ///< "dominant" or "non-dominant" for a hand measure; empty: not known
    std::map<QString, double> levels; ///< measure id to its value at the reference visit, for banded rows
    records::Conditions
        conditions; ///< of both visits; where they differ, neither's words, so that no row fits
    std::optional<double> gapDays; ///< between the visits
    QString chosen;                ///< threshold id a clinician chose for this patient; empty: the rule alone
};

/// The row used, and the rows that fit but were not used, best first.
struct Evidence {
    std::optional<catalogue::Threshold> used;
    std::vector<catalogue::Threshold> notUsed;
    bool isChosen = false; ///< used because a clinician chose it
};

/// Why a row that fits was not used, in the order of the rule.
enum class WhyNot {
    WiderPopulation,
    ClinicsOwn,  ///< the clinic's own, which comes after what is published unless it is chosen
    OtherDesign, ///< between raters, or internal consistency
    WithinSession,
    FromMemory,
    ForEverybody,  ///< not for people under the recorded condition, or under one that is not recorded
    OneHand,       ///< of one hand, and which one is dominant is not recorded
    OtherInterval, ///< further from the visits' gap, or not known
    FewerPeople,
    LaterId,
    ChosenOtherwise, ///< the rule would take it, but a clinician chose another
    SmallerLimit,    ///< of the other hand than the row used; which is dominant is not recorded
    NoLimit          ///< it gives no positive limit at these values
};

/// Whether the level lies in the row's band; a row without a band holds at every level.
bool isInBand(const catalogue::Threshold& row, double level);

/// The row for a comparison. A row fits that is of the patient's population or a broader one, never of a
/// neighbour, and whose band, hand and condition agree with what is recorded; a condition or a hand that was
/// not recorded speaks against no row. Of those that fit comes first:
/// 1. the one a clinician chose, or one of the same source and population (its other bands);
/// 2. the nearest population, there a published row before one of the clinic's own;
/// 3. test–retest before between raters before internal consistency;
/// 4. between days before within a session or not known;
/// 5. a value read before one from memory;
/// 6. for people under a condition that is recorded, before for everybody, before under one not recorded;
/// 7. one for either hand before one for one hand where the dominant one is not recorded;
/// 8. the interval nearest to the visits' gap, as a ratio; not known last;
/// 9. the larger n; 10. the id.
Evidence evidence(const catalogue::Catalogue& catalogue, const QString& measure, catalogue::Answers answers,
                  const Circumstances& circumstances);

/// What speaks for `used` against another row that fits.
WhyNot whyNot(const catalogue::Threshold& row, const catalogue::Threshold& used,
              const catalogue::Catalogue& catalogue, const Circumstances& circumstances);

} // namespace judging
