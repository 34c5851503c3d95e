#pragma once

#include "core/records/letter.h"

#include <QStringList>

namespace writing
{

/// What has become of the visits of a letter since it was written, one sentence each: entered in error, or
/// amended. Of a signed letter also of earlier visits whose results may stand in it. Empty where all stand as
/// they did. `letter` names its visits as it is stored.
QStringList standingWords(const records::Letter& letter, const std::vector<records::Visit>& versions);

/// The same of the letter's own visit in three words, for a list; may be empty.
QString standingMark(const records::Letter& letter, const std::vector<records::Visit>& versions);

/// Whether the letter's own visit was entered in error.
bool isInError(const records::Letter& letter, const std::vector<records::Visit>& versions);

} // namespace writing
