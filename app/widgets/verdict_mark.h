#pragma once

#include "app/widgets/theme.h"
#include "core/judging/outcome.h"

#include <QRectF>

class QPainter;

namespace widgets
{

/// The colour of a verdict: better, worse, or grey where nothing is claimed.
QColor colourOf(judging::Verdict verdict, const Colours& colours);

/// The verdict whose mark stands for an outcome; empty where it says nothing new.
std::optional<judging::Verdict> markOf(judging::OutcomeKind kind);

/// The mark of a verdict, drawn into the square: told by its shape, not by its colour alone. Its word always
/// goes with it.
void drawVerdict(QPainter& painter, const QRectF& square, judging::Verdict verdict, const Colours& colours);

} // namespace widgets
