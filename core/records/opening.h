#pragma once

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

} // namespace records
