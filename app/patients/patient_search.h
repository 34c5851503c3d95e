#pragma once

#include "core/records/summary.h"

#include <QStringList>

namespace patients
{

/// Everything a patient is found by, folded: names and their parts, the record number, and the birth date in
/// the usual writings (04-Mar-1951, 4 March 1951, 1951-03-04, 4.3.1951, 04/03/1951; the day before the
/// month).
QStringList searchKeys(const records::PatientSummary& patient);

} // namespace patients
