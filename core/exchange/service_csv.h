#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"
#include "core/judging/service_report.h"

namespace exchange
{

/// The columns of a service report's file.
const QStringList& serviceColumns();

/// One row a population, measure and side, and one without a measure for who is due. Numbers stand alone,
/// their unit in a column of its own, and empty where they count fewer than judging::fewestCounted; the
/// column `fewer_than_5` names those of its counts.
QByteArray serviceCsv(const judging::ServiceReport& report, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases);

} // namespace exchange
