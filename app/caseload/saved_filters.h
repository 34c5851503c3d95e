#pragma once

#include "app/caseload/case_list.h"

namespace caseload
{

/// A filter kept by name, of whoever works at this computer.
struct SavedFilter {
    QString name;
    Filter filter;
};

std::vector<SavedFilter> savedFilters();
/// One of the same name takes the place of the older.
void keepFilter(const SavedFilter& filter);
void forgetFilter(const QString& name);

} // namespace caseload
