#pragma once

#include "core/records/happening.h"

#include <QColor>
#include <QPainter>

namespace widgets
{

/// Draws the mark of an event around a point: a fall is a triangle on its tip, a relapse a diamond, an
/// intervention a cross, a drug a ring with a bar, what supports or trains an open square, anything else a
/// dot. The words that go with it say which.
void drawHappening(QPainter& painter, const QPointF& at, double width, records::HappeningKind kind,
                   const QColor& colour);

} // namespace widgets
