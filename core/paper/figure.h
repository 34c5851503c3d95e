#pragma once

#include "core/letters/composition.h"

#include <QImage>

namespace paper
{

/// A picture as the figure at the head of letters, at most 60 mm wide and 16 mm high; empty where the bytes
/// are no picture of a kind that is read here (PNG, JPEG).
std::optional<letters::Figure> logoFrom(const QByteArray& bytes);

/// A figure as a picture on white, for documents that hold no vectors.
QImage pictureOf(const letters::Figure& figure, double dotsPerInch);

} // namespace paper
