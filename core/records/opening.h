#pragma once

#include "core/records/progress.h"
#include "core/sealing/seal.h"

#include <QDateTime>
#include <QString>

#include <functional>
#include <optional>

namespace records
{

/// How a records file is opened.
enum class Opening {
    ToRead,    ///< beside whoever writes; nothing is written, but for bringing an older file up to date
    AsCopy,    ///< a copy in memory that may be written to; the file and its folder stay as they are
    MustExist, ///< to write
    MayCreate, ///< to write; where there is none, an empty one is made
    MayBegin   ///< to write; where there is none, one comes to be with Store::keep, and else leaves nothing
};

/// Who writes, where the time comes from, and what opens sealed records.
struct Access {
    QString who;
    std::function<QDateTime()> now;         ///< UTC
    Progress progress = {};                 ///< of bringing older records up to date
    std::optional<sealing::Seal> seal = {}; ///< of records that are sealed, or will be when they are begun
};

} // namespace records
