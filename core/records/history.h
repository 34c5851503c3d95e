#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

namespace records
{

/// One measure on one side at one visit, with the conditions it was taken under.
struct Occasion {
    VisitId visit;
    QDate day;
    VisitState state = VisitState::Draft;
    Finding finding;
    Conditions conditions; ///< the visit's, with the test's own exceptions
    QString
        computedFrom; ///< how a computed value came about ("10 m in 12.50 s"); empty for one that was entered
};

/// One measure and side at one visit; empty where nothing was recorded and nothing can be computed.
std::optional<Occasion> occasionAt(const Visit& visit, const QString& measure, Side side);

/// The occasions of one measure and side over the visits given, oldest first. Comfortable gait speed is
/// computed from the ten-metre walk (timed distance over each time, then the mean) where no speed was
/// entered.
std::vector<Occasion> history(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                              const QString& measure, Side side);

/// The measure and side pairs that have at least one finding in the visits, in catalogue order, right before
/// left.
std::vector<std::pair<QString, Side>> recordedPairs(const std::vector<Visit>& visits,
                                                    const catalogue::Catalogue& catalogue);

} // namespace records
