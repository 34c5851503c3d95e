#pragma once

#include "core/base/result.h"

#include <QByteArray>

#include <utility>
#include <vector>

namespace paper
{

/// A zip archive of files by name, in the order given; the first is stored as it is, the others are
/// compressed (OpenDocument 1.2 part 3, 3.3: the mimetype comes first and uncompressed).
base::Result<QByteArray> zipped(const std::vector<std::pair<QByteArray, QByteArray>>& files);

} // namespace paper
