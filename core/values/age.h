#pragma once

#include <QDate>

#include <optional>

namespace values
{

/// Completed years between birth and the day. Empty when the day lies before the birth or either is no date.
std::optional<int> ageInYears(QDate born, QDate day);

} // namespace values
