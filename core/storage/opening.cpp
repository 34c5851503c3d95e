#include "core/storage/migrations.h"
#include "core/storage/store.h"

#include <QDir>
#include <QTemporaryFile>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;

constexpr auto ownerOnly = QFile::ReadOwner | QFile::WriteOwner;

bool makePrivateFolder(const QString& path)
{
    const QFileInfo folder(path);
    if (folder.isDir())
        return true;
    return !folder.isRoot() && makePrivateFolder(folder.path()) &&
           QDir(folder.path()).mkdir(folder.fileName(), ownerOnly | QFile::ExeOwner);
}

/// What can be told about an existing file without opening it. Opening and closing it here would take away
/// the locks another Store of this process holds on it.
base::Result<void> refuseUnusable(const QFileInfo& file)
{
    if (file.isDir())
        return Error{ErrorKind::Foreign, u"This is a folder, not a records file."_s, {}};
    if (!file.isFile())
        return Error{ErrorKind::Foreign, u"This is not a records file."_s, {}};
    if (!file.isReadable())
        return Error{ErrorKind::Unreadable, u"This user may not read the records file."_s, {}};
    if (file.size() == 0)
        return Error{ErrorKind::Foreign, u"This file is empty, so it is not a records file."_s, {}};
    if (!file.isWritable() || !QFileInfo(file.absolutePath()).isWritable())
        return Error{ErrorKind::Unwritable, u"This user may not write the records file or its folder."_s, {}};
    return {};
}

/// A database file is whole pages of at least 512 bytes; only beside its journal may it end within one.
base::Result<void> refuseCutOff(const QFileInfo& file)
{
    constexpr qint64 smallestPage = 512;
    if (file.size() % smallestPage == 0 || QFileInfo::exists(file.filePath() + u"-wal"_s))
        return {};
    return Error{ErrorKind::Unreadable, u"The records file is cut off; its end is missing."_s, {}};
}

/// Closes a file that was copied or restored open to others, and its journal. Where the file system knows no
/// owners, or the file is another's, it stays as it is.
void closeToOthers(const QString& path)
{
    constexpr auto others = QFile::ReadGroup | QFile::WriteGroup | QFile::ReadOther | QFile::WriteOther;
    for (const QString& file : {path, path + u"-wal"_s, path + u"-shm"_s}) {
        if (QFile::permissions(file) & others)
            QFile::setPermissions(file, ownerOnly);
    }
}

} // namespace

base::Result<std::unique_ptr<Store>> Store::open(const QString& path, const Access& access, Opening opening)
{
    return open(path, access, opening, chain(u":/schema"_s));
}

base::Result<std::unique_ptr<Store>> Store::open(const QString& path, const Access& access, Opening opening,
                                                 const std::vector<Migration>& chain)
{
    const QFileInfo file(path);
    if (!file.exists() && opening == Opening::MustExist)
        return Error{ErrorKind::NotFound, u"There is no such records file."_s, {}};
    if (!file.exists()) {
        if (auto created = create(file.absoluteFilePath(), access, chain); !created)
            return created.error();
    } else if (auto usable = refuseUnusable(file); !usable) {
        return usable.error();
    }

    const auto whole = refuseCutOff(file); // connecting makes a journal
    std::unique_ptr<Store> store(new Store(path, access));
    auto ready = store->connect();
    if (ready)
        ready = store->refuseForeign();
    if (ready)
        ready = whole;
    if (ready)
        ready = store->makeDurable();
    if (ready)
        ready = store->modernise(chain);
    if (!ready)
        return ready.error();
    closeToOthers(path);
    return store;
}

/// Made beside its place under another name and moved there when it is whole.
base::Result<void> Store::create(const QString& path, const Access& access,
                                 const std::vector<Migration>& chain)
{
    const Error unwritable{ErrorKind::Unwritable, u"A records file cannot be made in this place."_s, {}};
    if (!makePrivateFolder(QFileInfo(path).path()))
        return unwritable;
    for (const QString& leftover : {path + u"-wal"_s, path + u"-journal"_s}) {
        if (QFileInfo::exists(leftover)) {
            return Error{ErrorKind::Foreign,
                         u"Beside this place lies the journal of another records file; move it away first."_s,
                         {}};
        }
    }
    QString unfinished;
    {
        QTemporaryFile file(path + u".XXXXXX"_s); // made readable by its owner only; -wal and -shm follow it
        file.setAutoRemove(false);
        if (!file.open())
            return unwritable;
        unfinished = file.fileName();
    }
    auto made = [&]() -> base::Result<void> {
        Store store(unfinished, access);
        if (auto connected = store.connect(); !connected)
            return connected;
        if (auto marked = store.markAsOurs(); !marked)
            return marked;
        return migrate(store, chain);
    }();
    if (made && !QFile::rename(unfinished, path))
        made = unwritable;
    if (!made)
        QFile::remove(unfinished);
    return made;
}

base::Result<void> Store::modernise(const std::vector<Migration>& chain)
{
    const auto version = schemaVersion(*this);
    if (!version)
        return version.error();
    if (*version > chain.back().version) {
        return Error{ErrorKind::Newer,
                     u"These records were written by a newer Aplomb, which is needed to open them."_s,
                     {}};
    }
    if (*version == chain.back().version)
        return {};
    if (auto copied = keepCopy(*version); !copied)
        return copied;
    return migrate(*this, chain);
}

base::Result<void> Store::keepCopy(int version) const
{
    const QString base = m_path + u".version-%1"_s.arg(version);
    QString copy = base;
    for (int i = 2; QFileInfo::exists(copy); ++i)
        copy = base + u"-%1"_s.arg(i);
    QFile file(copy);
    if (!file.open(QIODevice::WriteOnly | QIODevice::NewOnly, ownerOnly))
        return Error{
            ErrorKind::Unwritable, u"The records cannot be copied before they are brought up to date."_s, {}};
    file.close();
    auto copied = copyInto(copy);
    if (!copied)
        QFile::remove(copy);
    return copied;
}

} // namespace storage
