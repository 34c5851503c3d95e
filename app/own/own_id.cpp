#include "app/own/own_id.h"

#include "core/base/text.h"

using namespace Qt::StringLiterals;

namespace own
{

QString keyOf(const QString& words)
{
    return base::folded(words).left(60).simplified().replace(u' ', u'-');
}

QString ownId(const QString& title, const QStringList& taken)
{
    const QString key = keyOf(title);
    const QString first = u"own-"_s + (key.isEmpty() ? u"entry"_s : key);
    QString id = first;
    for (int number = 2; taken.contains(id); ++number)
        id = u"%1-%2"_s.arg(first).arg(number);
    return id;
}

} // namespace own
