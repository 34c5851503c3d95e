#pragma once

#include <QString>
#include <QStringList>

#include <optional>

namespace own
{

/// A number as people type it, with a point or a comma. Empty for anything else.
std::optional<double> numberTyped(const QString& typed);

/// The lines that say something, without outer spaces.
QStringList linesTyped(const QString& typed);

/// A number as it stands in a field; nothing for none.
QString asTyped(const std::optional<double>& number);

} // namespace own
