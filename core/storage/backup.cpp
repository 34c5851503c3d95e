#include "core/storage/backup.h"

#include "core/base/file.h"
#include "core/storage/query.h"

#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;

const Error cannotBeWritten{ErrorKind::Unwritable, base::said("The backup cannot be written there."), {}};

/// With what opening it may have laid beside it.
void removeWhole(const QString& copy)
{
    const QFileInfo file(copy);
    for (const QString& path :
         {copy, QString(copy + u"-journal"_s), u"%1/.%2.lock"_s.arg(file.path(), file.fileName())})
        QFile::remove(path);
}

base::Result<void> refuseUnsound(const QString& copy, const Access& access)
{
    const auto opened = Store::open(copy, access, Opening::ToRead);
    if (!opened)
        return opened.error();
    const auto faults = (*opened)->fileFaults();
    if (!faults)
        return faults.error();
    if (!faults->isEmpty())
        return Error{ErrorKind::Unreadable,
                     base::said("The records are damaged, so they were not backed up; look at them with "
                                "“aplomb check”."),
                     faults->first()};
    return {};
}

base::Result<void> copyChecked(Store& store, const QString& copy)
{
    QFile file(copy);
    if (!file.open(QIODevice::WriteOnly | QIODevice::NewOnly, QFile::ReadOwner | QFile::WriteOwner))
        return cannotBeWritten;
    file.close();
    if (auto copied = write(store, u"VACUUM INTO :path"_s, {{":path", copy}}); !copied)
        return copied.error();
    return refuseUnsound(copy, store.access());
}

} // namespace

base::Result<void> backUp(Store& store, const QString& path)
{
    const QString target = QFileInfo(base::plainPath(path)).absoluteFilePath();
    if (QFileInfo::exists(target))
        return Error{ErrorKind::Refused,
                     base::said("There is a file of that name already; choose another for the backup."),
                     {}};
    const QString copy = target + u".unfinished"_s;
    removeWhole(copy); // of a program that was ended
    auto done = copyChecked(store, copy);
    if (done)
        done = base::moveNew(copy, target);
    removeWhole(copy);
    return done;
}

} // namespace storage
