#pragma once

#include <QStringList>

namespace changes
{

// The parts of an explanation. What comes in as a line or a cell is HTML already.

/// A title over its content; empty where there is no content.
QString section(const QString& title, const QString& content);

/// Empty without items.
QString list(const QStringList& items, bool isNumbered = false);

/// One line of a table.
QString tableLine(const QStringList& cells, bool isHead = false);

QStringList escaped(QStringList lines);

} // namespace changes
