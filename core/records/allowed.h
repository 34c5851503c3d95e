#pragma once

#include "core/base/error.h"
#include "core/catalogue/measure.h"

namespace records
{

/// The error of a value that is not allowed; `what` says what is.
base::Error invalid(const base::Message& what);

/// Whether a number is finite and lies between the ends that are given, both included.
bool isWithin(double number, const std::optional<double>& lowest, const std::optional<double>& highest);

/// "0 to 10", "1 or more", "10 or less", "a number".
base::Message rangeWords(const std::optional<double>& lowest, const std::optional<double>& highest);

/// "one of static, moving".
base::Message optionWords(const std::vector<catalogue::Option>& options);
bool isOption(const std::vector<catalogue::Option>& options, const QString& key);

} // namespace records
