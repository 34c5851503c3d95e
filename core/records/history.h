#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/occasion.h"
#include "core/records/patient.h"

#include <functional>

namespace records
{

/// Right and left, or none of both.
std::vector<Side> sidesOf(const catalogue::Measure& measure);

/// One measure and side at one visit: as it was entered, or else as it follows from its parts. Empty where
/// nothing was recorded and nothing can be computed.
std::optional<Occasion> occasionAt(const Visit& visit, const catalogue::Catalogue& catalogue,
                                   const QString& measure, Side side);

/// The occasions of one measure and side over the visits given, oldest first, with what was declared equal.
std::vector<Occasion> history(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                              const QString& measure, Side side,
                              const std::vector<DeclaredEqual>& declared = {});

struct History {
    QString measure;
    Side side = Side::None;
    std::vector<Occasion> occasions; ///< as history() gives them
};

/// Hands over the histories of all recordedPairs, one at a time, in their order.
void eachHistory(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                 const std::vector<DeclaredEqual>& declared, const std::function<void(const History&)>& take);

/// The measure and side pairs that have at least one finding in the visits, or a value that follows from
/// some, in catalogue order, right before left. A total that always lacks a part has none.
std::vector<std::pair<QString, Side>> recordedPairs(const std::vector<Visit>& visits,
                                                    const catalogue::Catalogue& catalogue);

} // namespace records
