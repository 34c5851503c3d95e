#include "app/session/account.h"

#include <pwd.h>
#include <unistd.h>

namespace session
{

QString account()
{
    const uid_t user = geteuid();
    const passwd* entry = getpwuid(user);
    const QString name = entry != nullptr ? QString::fromLocal8Bit(entry->pw_name) : QString();
    return name.isEmpty() ? QStringLiteral("account %1").arg(user) : name;
}

} // namespace session
