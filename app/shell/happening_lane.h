#pragma once

#include "app/shell/ribbon_scale.h"
#include "core/records/happening.h"

class QPainter;

namespace widgets
{
struct Colours;
}

namespace shell
{

/// Draws events around a height of the time axis: a mark of the kind's shape on the first day, a bar to the
/// last one, and its word beside it where there is room. What lies before the axis stands at its beginning
/// behind a "‹".
void drawHappenings(QPainter& painter, const std::vector<records::Happening>& oldestFirst,
                    const RibbonScale& scale, double y, const widgets::Colours& colours);

/// Those that a place on the axis can mean.
std::vector<const records::Happening*> happeningsNear(const std::vector<records::Happening>& oldestFirst,
                                                      const RibbonScale& scale, double x);

/// A line each: "Fall with injury · 04-Feb-2026 · on the stairs".
QString toolTipOf(const std::vector<const records::Happening*>& happenings);
/// For a screen reader: how many there are, and the newest few.
QString spoken(const std::vector<records::Happening>& oldestFirst);

} // namespace shell
