#pragma once

#include "app/caseload/case_table.h"

namespace caseload
{

/// The rows shown as a file that a spreadsheet counts in: UTF-8, a line a patient.
QByteArray csvOf(const CaseTable& cases);

} // namespace caseload
