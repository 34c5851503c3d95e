#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/whole_record.h"

/// An invented whole record, another one for every number: drafts, amendments, visits in error, every kind of
/// value, state, condition and exception, red flags, events that were taken back, targets, choices and
/// declarations, with texts that a table or a spreadsheet could take for something else. All of it is allowed
/// by the catalogue, which is that of the program or a larger one.
records::WholeRecord madeUpRecord(quint32 number, const catalogue::Catalogue& catalogue);
