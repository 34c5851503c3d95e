#pragma once

#include "core/base/message.h"

namespace base
{

enum class ErrorKind {
    Invalid,    ///< a value that is not allowed; nothing was changed
    NotFound,   ///< the record or file is not there
    Conflict,   ///< someone else saved this record since it was read
    Refused,    ///< the request goes against a rule of the records (a signed visit is not overwritten)
    Foreign,    ///< the file is something else than was expected
    Newer,      ///< the file was written by a newer program
    Unreadable, ///< the file or its content cannot be read
    Unwritable  ///< the file or database cannot be written
};

/// What went wrong. `kind` is what code acts on; `what` is one plain sentence for people, said in their
/// language where it is shown, without a name, a birth date or a finding in it; `detail` is what the layer
/// below said and may hold anything, so it is never logged.
struct Error {
    ErrorKind kind = ErrorKind::Invalid;
    Message what;
    QString detail;

    bool operator==(const Error&) const = default;
};

/// What a long work gives back that was stopped on the way, with what the layer below said of it.
Error stopped(const QString& detail = {});

} // namespace base
