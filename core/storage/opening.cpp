#include "core/base/file.h"
#include "core/storage/migrations.h"
#include "core/storage/statements.h"
#include "core/storage/store.h"
#include "core/storage/writer_lock.h"

#include <QDir>

#include <sys/stat.h>
#include <unistd.h>

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

/// What can be told about an existing file without opening it.
base::Result<void> refuseUnusable(const QFileInfo& file)
{
    if (file.isDir())
        return Error{ErrorKind::Foreign, base::said("This is a folder, not a records file."), {}};
    if (!file.isFile())
        return Error{ErrorKind::Foreign, base::said("This is not a records file."), {}};
    if (!file.isReadable())
        return Error{ErrorKind::Unreadable, base::said("This user may not read the records file."), {}};
    if (file.size() == 0)
        return Error{ErrorKind::Foreign, base::said("This file is empty, so it is not a records file."), {}};
    return {};
}

base::Result<void> refuseUnwritable(const QFileInfo& file)
{
    if (!file.isWritable() || !QFileInfo(file.absolutePath()).isWritable())
        return Error{
            ErrorKind::Unwritable, base::said("This user may not write the records file or its folder."), {}};
    return {};
}

base::Result<void> makePlaceFor(const QFileInfo& file)
{
    if (!makePrivateFolder(file.absolutePath()))
        return Error{ErrorKind::Unwritable, base::said("A records file cannot be made in this place."), {}};
    for (const QString& ending : {u"-wal"_s, u"-journal"_s}) {
        const QFileInfo leftover(file.absoluteFilePath() + ending);
        if (leftover.size() > 0) {
            return Error{
                ErrorKind::Foreign,
                base::said("Beside this place lies the journal of another records file; move it away first."),
                {}};
        }
    }
    return {};
}

/// A database file is whole pages of at least 512 bytes; only beside its journal may it end within one.
base::Result<void> refuseCutOff(const QFileInfo& file)
{
    constexpr qint64 smallestPage = 512;
    if (file.size() % smallestPage == 0 || QFileInfo(file.filePath() + u"-wal"_s).size() > 0)
        return {};
    return Error{
        ErrorKind::Unreadable,
        base::said(
            "The records file does not end where its last page ends; it is cut off, or something was added."),
        {}};
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
    const QString name = base::plainPath(path);
    if (opening == Opening::ToRead)
        return toRead(name, access, chain);
    if (opening == Opening::AsCopy)
        return asCopy(name, access, chain);
    return toWrite(name, access, opening, chain);
}

Store::Opened Store::toWrite(const QString& path, const Access& access, Opening opening,
                             const std::vector<Migration>& chain)
{
    const QFileInfo file(path);
    const bool isNew = !file.exists();
    if (isNew && opening == Opening::MustExist)
        return Error{ErrorKind::NotFound, base::said("There is no such records file."), {}};
    auto usable = isNew ? makePlaceFor(file) : refuseUnusable(file);
    if (usable && !isNew)
        usable = refuseUnwritable(file);
    if (!usable)
        return usable.error();

    std::unique_ptr<Store> store(new Store(path, access));
    store->m_home = isNew ? file.absoluteFilePath() : file.canonicalFilePath();
    auto lock = WriterLock::taken(store->m_home, access);
    if (!lock)
        return lock.error();
    store->m_lock = std::make_unique<WriterLock>(std::move(*lock));
    store->removeUnfinished();
    if (isNew) {
        auto begun = store->makeEmpty(chain);
        if (begun && opening == Opening::MayCreate)
            begun = store->keep();
        if (!begun)
            return begun.error();
        return store;
    }

    store->m_file = store->m_home;
    const auto whole = refuseCutOff(QFileInfo(store->m_file)); // connecting makes a journal
    auto ready = store->connect(opening);
    if (ready)
        ready = store->refuseForeign();
    if (ready)
        ready = whole;
    if (ready)
        ready = store->refuseNewer(chain);
    if (ready)
        ready = store->modernise(chain);
    if (ready)
        ready = store->makeDurable();
    store->m_isWriting = bool(ready);
    if (!ready) {
        store->m_lock->withdraw(); // nothing is left beside what cannot be opened
        return ready.error();
    }
    closeToOthers(store->m_file);
    return store;
}

Store::Opened Store::toRead(const QString& path, const Access& access, const std::vector<Migration>& chain)
{
    const QFileInfo file(path);
    if (!file.exists())
        return Error{ErrorKind::NotFound, base::said("There is no such records file."), {}};
    if (auto usable = refuseUnusable(file); !usable)
        return usable.error();
    for (const bool isSecondTime : {false, true}) {
        std::unique_ptr<Store> store(new Store(path, access));
        store->m_home = file.canonicalFilePath();
        store->m_file = store->m_home;
        const auto whole = refuseCutOff(QFileInfo(store->m_file));
        auto ready = store->connect(Opening::ToRead);
        if (ready)
            ready = store->refuseForeign();
        if (ready)
            ready = whole;
        if (ready)
            ready = store->refuseNewer(chain);
        const auto version = ready ? schemaVersion(*store) : ready.error();
        if (version && *version == chain.back().version)
            return store;
        // An older file, and one whose writer was ended in the midst of it, are put right by writing.
        const bool needsWriting = version || version.error().kind == ErrorKind::Unwritable;
        if (isSecondTime || !needsWriting)
            return version
                       ? Error{ErrorKind::Unreadable, base::said("The records file is not up to date."), {}}
                       : version.error();
        store.reset();
        if (const auto written = toWrite(path, access, Opening::MustExist, chain); !written)
            return written.error();
    }
    return Error{ErrorKind::Unreadable, base::said("The records file cannot be read."), {}};
}

Store::Opened Store::asCopy(const QString& path, const Access& access, const std::vector<Migration>& chain)
{
    const auto original = toRead(path, access, chain);
    if (!original)
        return original.error();
    std::unique_ptr<Store> copy(new Store(path, access));
    if (auto connected = copy->connect(Opening::AsCopy); !connected)
        return connected.error();
    if (auto taken = copy->takeCopyOf(**original); !taken)
        return taken.error();
    if (auto set = copy->ask(u"PRAGMA foreign_keys = ON"_s); !set)
        return set.error();
    return copy;
}

QString Store::unfinished() const
{
    return m_home + u".unfinished"_s;
}

/// The leftover of a program that was ended while it made a file or a copy. Only the writer comes here.
void Store::removeUnfinished() const
{
    for (const QString& ending : {u""_s, u"-journal"_s})
        QFile::remove(unfinished() + ending);
}

/// An empty file that only its owner may read. -wal and -shm follow it.
base::Result<void> Store::makePrivate(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly | QIODevice::NewOnly, ownerOnly))
        return Error{ErrorKind::Unwritable, base::said("A records file cannot be made in this place."), {}};
    return {};
}

/// Made beside its place under another name, without a log of its own, and moved there when it is whole.
base::Result<void> Store::makeEmpty(const std::vector<Migration>& chain)
{
    if (auto made = makePrivate(unfinished()); !made)
        return made;
    m_file = unfinished();
    if (auto connected = connect(Opening::MayBegin); !connected)
        return connected;
    for (const QString& setting : {u"PRAGMA foreign_keys = ON"_s, u"PRAGMA journal_mode = MEMORY"_s}) {
        if (auto set = ask(setting); !set)
            return set.error();
    }
    if (auto marked = markAsOurs(); !marked)
        return marked;
    return migrate(*this, chain);
}

base::Result<void> Store::keep()
{
    if (m_file == m_home)
        return {};
    disconnect();
    if (auto moved = base::moveNew(m_file, m_home); !moved) {
        return moved.error().kind == ErrorKind::Refused
                   ? Error{ErrorKind::Refused,
                           base::said(
                               "Another program made a file in this place meanwhile; it was left as it is."),
                           {}}
                   : Error{ErrorKind::Unwritable,
                           base::said("A records file cannot be made in this place."),
                           {}};
    }
    m_file = m_home;
    if (auto connected = connect(Opening::MustExist); !connected)
        return connected;
    m_isWriting = true;
    return makeDurable();
}

base::Result<void> Store::refuseNewer(const std::vector<Migration>& chain) const
{
    const auto version = schemaVersion(*this);
    if (!version)
        return version.error();
    if (*version > chain.back().version) {
        return Error{
            ErrorKind::Newer,
            base::said("These records were written by a newer Aplomb, which is needed to open them."),
            {}};
    }
    return {};
}

base::Result<void> Store::reconnect(const QString& file)
{
    disconnect();
    m_file = file;
    return connect(Opening::MustExist);
}

base::Result<void> Store::modernise(const std::vector<Migration>& chain)
{
    const auto version = schemaVersion(*this);
    if (!version)
        return version.error();
    if (*version == chain.back().version)
        return {};
    if (*version == 0) // our mark, and nothing of ours in it
        return Error{
            ErrorKind::Unreadable, base::said("The records file is damaged; restore it from a copy."), {}};
    auto done = rebuild(chain);
    disconnect();
    if (done)
        done = keepOlder(*version);
    if (done)
        done = takePlace();
    removeUnfinished();
    m_file = m_home;
    auto connected = connect(Opening::MustExist);
    return done ? connected : done;
}

/// A copy in the newest schema beside its place. The older records are at rest from here on, without a log
/// that the new ones could be taken for.
base::Result<void> Store::rebuild(const std::vector<Migration>& chain)
{
    const auto mode = ask(u"PRAGMA journal_mode = DELETE"_s);
    if (!mode || *mode != u"delete"_s)
        return Error{ErrorKind::Unwritable,
                     base::said("Another program is reading these records, which must be brought up to date "
                                "first; close it and open them again."),
                     {}};
    if (auto copied = copyInto(unfinished()); !copied)
        return copied;
    if (auto connected = reconnect(unfinished()); !connected)
        return connected;
    // Without a log and without waiting for the disk: it is nothing yet, and waited for as a whole.
    for (const QString& setting :
         {u"PRAGMA foreign_keys = OFF"_s, u"PRAGMA journal_mode = MEMORY"_s, u"PRAGMA synchronous = OFF"_s}) {
        if (auto set = ask(setting); !set)
            return set.error();
    }
    if (auto migrated = migrate(*this, chain); !migrated)
        return migrated;
    if (auto linked = refuseUnlinked(); !linked)
        return linked;
    if (auto packed = ask(u"VACUUM"_s); !packed)
        return packed.error();
    return {};
}

/// While rows are brought over, nothing watches that they belong to each other.
base::Result<void> Store::refuseUnlinked() const
{
    const auto unlinked = ask(u"PRAGMA foreign_key_check"_s);
    if (!unlinked)
        return unlinked.error();
    if (!unlinked->isEmpty())
        return Error{ErrorKind::Unreadable,
                     base::said("The records file is damaged; restore it from a copy."), *unlinked};
    return {};
}

/// The older records get a name of their own before the new ones take theirs; a name they were given by a
/// program that was ended then will do.
base::Result<void> Store::keepOlder(int version) const
{
    const QString name = m_home + u".version-%1"_s.arg(version);
    auto kept = base::nameToo(m_home, name);
    for (int i = 2; !kept && kept.error().kind == ErrorKind::Refused; ++i)
        kept = base::nameToo(m_home, name + u"-%1"_s.arg(i));
    if (!kept)
        return Error{ErrorKind::Unwritable,
                     base::said("The records cannot be kept as they are before they are brought up to date."),
                     {}};
    closeToOthers(m_home); // the same file by either name
    return {};
}

/// What was rebuilt belongs to whom the older records belonged.
base::Result<void> Store::takePlace() const
{
    struct stat home = {};
    if (stat(m_home.toLocal8Bit().constData(), &home) == 0 && home.st_uid != geteuid())
        (void)!chown(unfinished().toLocal8Bit().constData(), home.st_uid, home.st_gid);
    return base::moveOver(unfinished(), m_home);
}

} // namespace storage
