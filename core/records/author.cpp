#include "core/records/author.h"

#include <QStringList>

namespace records
{

QString inWords(const Author& author)
{
    QStringList parts = {author.name, author.role, author.registration};
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

} // namespace records
