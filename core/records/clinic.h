#pragma once

#include <QStringList>

#include <optional>

namespace records
{

/// How a clinic wants courses judged.
struct Judging {
    int plannedVisits = 8; ///< 3 to 100; over so many visits a sustained trend keeps its false-flag rate
    std::optional<int> compositeWeeks; ///< 12 or 24: the composite confirmed worsening of multiple sclerosis
                                       ///< is told, confirmed after so long; empty: it is not

    bool operator==(const Judging&) const = default;
};

/// Whose records these are.
struct Clinic {
    QString name;
    QString address; ///< as it stands on a letter, lines divided by a newline
    QString telephone;
    bool isDemo = false; ///< invented people; said on every screen and letter
    Judging judging = {};
    QStringList urgencyLevels = {}; ///< of letters, in the clinic's own words, most pressing last

    bool operator==(const Clinic&) const = default;
};

} // namespace records
