#pragma once

#include <QByteArray>

#include <functional>
#include <optional>
#include <vector>

namespace storage
{

/// Numbers by their place, from 1; a place may be left out.
using NumberList = std::vector<std::optional<double>>;

/// As JSON, each with as many digits as bring it back bit for bit, null for one left out: "[12.5,null,13]".
QByteArray written(const NumberList& numbers);

/// Hands over each number with its place, from 1, those left out being skipped. False where it is no such
/// list.
bool eachNumber(QByteArrayView words, const std::function<void(int place, double number)>& take);

/// Empty where it is no such list. One left out behind the last number is not kept.
std::optional<NumberList> numbersFrom(QByteArrayView words);

} // namespace storage
