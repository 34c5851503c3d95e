#pragma once

#include "app/own/own_error.h"
#include "core/letters/composition.h"

namespace own
{

/// The study on one page, its plot included. Holds no person's data.
letters::Composition report(const OwnError& error, const records::Clinic& clinic, QDate today);

/// The figures as a table, as the report and the screen show them.
QString tableHtml(const OwnError& error);

} // namespace own
