#include "core/records/red_flags.h"

namespace records
{

QStringList unacknowledged(const RedFlags& flags)
{
    QStringList ids;
    for (const auto& [id, answer] : flags) {
        if (answer.isYes && !answer.acknowledged)
            ids += id;
    }
    return ids;
}

} // namespace records
