#pragma once

#include "core/letters/composition.h"

namespace paper
{

/// A letter's body as content.xml of an OpenDocument text. Classes become styles of the same name
/// (styles.xml), h3 a real heading, a table's head its repeated rows. Figures are at "Pictures/figure0.png",
/// "Pictures/figure1.png" …
QByteArray openDocumentContent(const letters::Composition& composition);

} // namespace paper
