#pragma once

#include "core/base/result.h"
#include "core/letters/composition.h"

namespace paper
{

/// A composition as one XHTML page that holds all of it: a letter's `body` once it is signed. Figures become
/// pictures inside the page, since they cannot be drawn again once the records have moved on.
QString kept(const letters::Composition& composition);

/// The same to be read elsewhere: with its marks, where it has any, before everything else.
QString html(const letters::Composition& composition);

/// The composition of a signed letter, as it was signed. Unreadable where the text is not one that `kept`
/// wrote.
base::Result<letters::Composition> restored(const QString& body);

} // namespace paper
