#pragma once

#include "core/base/message.h"

#include <QStringList>

#include <vector>

namespace letters
{

/// What is wrong with the page of a kind of letter, and where.
struct KindFault {
    int line = 1;
    base::Message what;

    bool operator==(const KindFault&) const = default;
};

/// By line: a tag that is not closed, a field, part or element that letters do not know. Empty where a letter
/// can be made of it.
std::vector<KindFault> faultsIn(const QString& page);

/// The fields a page may name, those of the rows of a list after it: "numbers", "numbers/test".
const QStringList& fieldNames();

} // namespace letters
