#include "core/base/error.h"

namespace base
{

Error stopped(const QString& detail)
{
    return {ErrorKind::Refused, said("This was stopped; the records are as they were."), detail};
}

} // namespace base
