#pragma once

#include <QDate>
#include <QString>

#include <optional>

namespace session
{

/// The day a person typed: 1951-03-04, or 04-Mar-1951 with English months, so that day and month cannot be
/// exchanged. Empty for any other writing and for a day that is in no calendar.
std::optional<QDate> dayTyped(const QString& typed);

} // namespace session
