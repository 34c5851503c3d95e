#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/clinic.h"

#include <QDate>

namespace records
{

/// When a patient who was last seen on a day with a form is due again: the form's interval before the
/// population's, there the nearest wider one's. Empty where the clinic set none.
std::optional<QDate> dueOn(const std::vector<ReviewInterval>& reviews, const QString& form,
                           const QString& population, QDate lastSeen, const catalogue::Catalogue& catalogue);

} // namespace records
