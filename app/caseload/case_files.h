#pragma once

#include "app/caseload/case_table.h"

class QPagedPaintDevice;

namespace caseload
{

/// The rows shown as a file that a spreadsheet counts in: UTF-8, a line a patient.
QByteArray csvOf(const CaseTable& cases);

/// The rows shown on paper, with how many there are and the day.
void print(const CaseTable& cases, const QString& title, QPagedPaintDevice& device);

} // namespace caseload
