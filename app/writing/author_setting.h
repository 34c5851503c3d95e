#pragma once

#include "core/records/visit.h"

namespace writing
{

/// Who signed last on this computer, offered again next time. Shared with the signing of visits.
records::Author lastAuthor();
void rememberAuthor(const records::Author& author);

} // namespace writing
