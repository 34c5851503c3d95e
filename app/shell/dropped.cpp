#include "app/shell/dropped.h"

#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace shell
{

Dropped whatIsDropped(const QList<QUrl>& urls)
{
    if (urls.size() > 1)
        return Dropped::Several;
    const QFileInfo file(urls.isEmpty() ? QString() : urls.front().toLocalFile());
    const QString suffix = file.suffix().toLower();
    if (!file.isFile())
        return Dropped::Unknown;
    if (suffix == u"aplomb")
        return Dropped::Records;
    return suffix == u"csv" || suffix == u"json" ? Dropped::Findings : Dropped::Unknown;
}

} // namespace shell
