#pragma once

#include "core/paper/page_breaks.h"

class QTextDocument;

namespace paper
{

/// The strips of a document laid out without pages: its lines and table rows. A heading stays with what
/// follows, the first two and the last two lines of a paragraph stay together, and so do a table's head and
/// first row.
std::vector<Strip> stripsOf(const QTextDocument& document);

} // namespace paper
