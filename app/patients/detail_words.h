#pragma once

#include "core/records/patient.h"

namespace patients
{

/// What an edit of a patient's details changed: "Halden: height, diagnosis". The name is the one after it.
QString detailWords(const records::Patient& before, const records::Patient& after);

} // namespace patients
