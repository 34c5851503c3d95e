#pragma once

#include "core/letters/composition.h"

#include <QImage>

namespace paper
{

/// A figure as a picture on white, for documents that hold no vectors.
QImage pictureOf(const letters::Figure& figure, double dotsPerInch);

} // namespace paper
