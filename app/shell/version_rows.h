#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QStringList>

namespace shell
{

/// One finding or condition through all versions of a visit.
struct VersionRow {
    QString name;
    QStringList values;     ///< one a version; empty where it was not recorded
    bool isChanged = false; ///< not the same in every version
};

/// Every version of one visit, oldest first.
std::vector<records::Visit> versionsOf(const records::VisitId& series,
                                       const std::vector<records::Visit>& all);

/// What is recorded in any of the versions, in the order of the examination, right before left, then the
/// conditions.
std::vector<VersionRow> versionRows(const std::vector<records::Visit>& versions,
                                    const catalogue::Catalogue& catalogue);

} // namespace shell
