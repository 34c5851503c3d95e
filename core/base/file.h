#pragma once

#include "core/base/result.h"

#include <QByteArray>

namespace base
{

/// Writes a file whole or not at all; a new one is readable by its owner only. Unwritable where it cannot be.
Result<void> write(const QByteArray& bytes, const QString& path);

} // namespace base
