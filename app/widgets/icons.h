#pragma once

#include <QIcon>
#include <QPalette>

namespace widgets
{

/// One of resources/icons by its file name without ".svg", in the text colour of the palette; quieter when
/// disabled.
QIcon icon(const QString& name, const QPalette& palette);

/// The same in a colour of one's own.
QIcon icon(const QString& name, const QColor& colour);

} // namespace widgets
