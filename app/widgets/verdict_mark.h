#pragma once

#include "app/widgets/theme.h"
#include "core/judging/comparison.h"

#include <QRectF>

class QPainter;

namespace widgets
{

/// The colour of a verdict: better, worse, or grey where nothing is claimed.
QColor colourOf(judging::Verdict verdict, const Colours& colours);

/// The mark of a verdict, drawn into the square: told by its shape, not by its colour alone. Its word always
/// goes with it.
void drawVerdict(QPainter& painter, const QRectF& square, judging::Verdict verdict, const Colours& colours);

} // namespace widgets
