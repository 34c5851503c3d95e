#pragma once

#include "core/base/result.h"
#include "core/sealing/seal.h"

#include <QTextStream>

#include <optional>

namespace console
{

/// What opens the records at this path, or seals those that are not there yet; nothing for plain ones. The
/// password, or the printed code, is the first line of `passwordFile`, or of the standard input where that is
/// empty or "-"; a terminal does not show it. What is not there yet is sealed only where a file is named.
base::Result<std::optional<sealing::Seal>> sealFor(const QString& records, const QString& passwordFile,
                                                   QTextStream& err);

} // namespace console
