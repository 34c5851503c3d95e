#pragma once

#include "core/letters/composition.h"

#include <QImage>

namespace letters
{

/// A figure as a picture on white, for documents that hold no vectors.
QImage pictureOf(const Figure& figure, double dotsPerInch);

} // namespace letters
