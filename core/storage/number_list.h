#pragma once

#include <QByteArray>

#include <optional>
#include <vector>

namespace storage
{

/// Numbers by their place, from 1; a place may be left out.
using NumberList = std::vector<std::optional<double>>;

/// As JSON, each with as many digits as bring it back bit for bit, null for one left out: "[12.5,null,13]".
QByteArray written(const NumberList& numbers);

/// Empty where it is no such list.
std::optional<NumberList> numbersFrom(QByteArrayView words);

} // namespace storage
