#pragma once

#include "core/base/result.h"
#include "core/letters/composition.h"

namespace paper
{

/// A PDF that says which language it is in and shows its title, which Qt does not write. Unwritable where it
/// is none.
base::Result<QByteArray> withLanguage(const QByteArray& pdf, const letters::Composition& composition);

} // namespace paper
