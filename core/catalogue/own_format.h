#pragma once

#include <QString>

namespace catalogue
{

/// What the clinic's own document says it is: one object with this as its `format`, and the lists `sources`,
/// `measures`, `thresholds`, `forms` and `patterns` with the fields of the files that come with the program.
inline const QString ownFormat = QStringLiteral("clinic catalogue 1");

} // namespace catalogue
