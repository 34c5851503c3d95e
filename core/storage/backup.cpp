#include "core/storage/backup.h"

#include "core/base/file.h"

#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;

/// With what opening it may have laid beside it.
void removeWhole(const QString& copy)
{
    const QFileInfo file(copy);
    for (const QString& path : {copy, sealing::keysOf(copy), QString(copy + u"-journal"_s),
                                u"%1/.%2.lock"_s.arg(file.path(), file.fileName())})
        QFile::remove(path);
}

/// Whether these keys may go: there are none, or a program was ended between giving them and its backup their
/// names.
bool areNobodys(const QString& keys, const sealing::Seal& seal)
{
    const auto bytes = base::read(keys, seal.wrapped.size());
    return !QFileInfo::exists(keys) || (bytes && *bytes == seal.wrapped);
}

base::Result<void> refuseUnsound(const QString& copy, const Access& access, const records::Progress& progress)
{
    const auto opened = Store::open(copy, access, Opening::ToRead);
    if (!opened)
        return opened.error();
    const auto faults = (*opened)->fileFaults(progress);
    if (!faults)
        return faults.error();
    if (!faults->isEmpty())
        return Error{ErrorKind::Unreadable,
                     base::said("The records are damaged, so they were not backed up; look at them with "
                                "“aplomb check”."),
                     faults->first()};
    return {};
}

} // namespace

base::Result<void> backUp(Store& store, const QString& path, const records::Progress& progress)
{
    const QString target = QFileInfo(base::plainPath(path)).absoluteFilePath();
    const auto& seal = store.access().seal;
    if (QFileInfo::exists(target) || (seal && !areNobodys(sealing::keysOf(target), *seal)))
        return Error{ErrorKind::Refused,
                     base::said("There is a file of that name already; choose another for the backup."),
                     {}};
    constexpr int copied = 50;
    const QString copy = target + u".unfinished"_s;
    removeWhole(copy); // of a program that was ended
    if (seal)
        QFile::remove(sealing::keysOf(target));
    auto done = seal ? sealing::writeKeys(*seal, sealing::keysOf(copy)) : base::Result<void>();
    if (done)
        done = store.copyInto(copy, records::share(progress, 0, copied));
    if (done)
        done = refuseUnsound(copy, store.access(), records::share(progress, copied, 100));
    if (done && seal)
        done = base::moveNew(sealing::keysOf(copy), sealing::keysOf(target));
    if (done)
        done = base::moveNew(copy, target);
    if (!done && seal && !QFileInfo::exists(target))
        QFile::remove(sealing::keysOf(target));
    removeWhole(copy);
    return done;
}

} // namespace storage
