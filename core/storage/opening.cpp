#include "core/base/file.h"
#include "core/storage/migrations.h"
#include "core/storage/sealing.h"
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
    if (QFileInfo::exists(sealing::keysOf(file.filePath())))
        return Error{
            ErrorKind::Foreign,
            base::said("Beside this place lies the file of keys of other records; move it away first."),
            {}};
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
    for (const QString& file : {path, path + u"-wal"_s, path + u"-shm"_s, path + u".keys"_s}) {
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
    auto opened = opening == Opening::ToRead   ? toRead(name, access, chain)
                  : opening == Opening::AsCopy ? asCopy(name, access, chain)
                                               : toWrite(name, access, opening, chain);
    if (opened)
        (*opened)->m_access.progress = {}; // whoever watched the opening may be gone
    return opened;
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
    auto ready = store->refuseOtherwiseSealed();
    if (ready)
        ready = store->connect(opening);
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
        auto ready = store->refuseOtherwiseSealed();
        if (ready)
            ready = store->connect(Opening::ToRead);
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
    for (const QString& ending : {u""_s, u"-journal"_s, u".keys"_s})
        QFile::remove(unfinished() + ending);
}

/// Without the key, or with one that nothing asks for, nothing could be read.
base::Result<void> Store::refuseOtherwiseSealed() const
{
    if (sealing::isSealed(m_file) == isSealed())
        return {};
    return Error{ErrorKind::Refused,
                 isSealed() ? base::said("These records are not sealed.")
                            : base::said("These records are sealed; their password or their printed code "
                                         "opens them."),
                 {}};
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
    if (isSealed()) {
        if (auto written = sealing::writeKeys(*m_access.seal, sealing::keysOf(unfinished())); !written)
            return written;
    }
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
    if (isSealed()) {
        if (!sealing::isSealed(m_file))
            return Error{ErrorKind::Unwritable, base::said("The records could not be sealed."), {}};
        if (auto moved = base::moveNew(sealing::keysOf(m_file), sealing::keysOf(m_home)); !moved)
            return moved;
    }
    if (auto moved = base::moveNew(m_file, m_home); !moved) {
        QFile::remove(sealing::keysOf(m_home));
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

/// What is at rest has no log that what takes its place could be read with.
bool Store::isAtRest() const
{
    const auto mode = ask(u"PRAGMA journal_mode = DELETE"_s);
    return mode && *mode == u"delete"_s;
}

/// A copy in the newest schema beside its place.
base::Result<void> Store::rebuild(const std::vector<Migration>& chain)
{
    if (!isAtRest())
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
    const QString wished = m_home + u".version-%1"_s.arg(version);
    QString name = wished;
    auto kept = base::nameToo(m_home, name);
    for (int i = 2; !kept && kept.error().kind == ErrorKind::Refused; ++i) {
        name = wished + u"-%1"_s.arg(i);
        kept = base::nameToo(m_home, name);
    }
    if (!kept)
        return Error{ErrorKind::Unwritable,
                     base::said("The records cannot be kept as they are before they are brought up to date."),
                     {}};
    if (isSealed()) // without it the printed code opens them
        (void)base::nameToo(sealing::keysOf(m_home), sealing::keysOf(name));
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

base::Result<void> Store::seal(const sealing::Seal& seal, const records::Progress& progress)
{
    if (isSealed())
        return Error{ErrorKind::Refused, base::said("These records are sealed already."), {}};
    if (auto inPlace = refuseMoved(); !inPlace)
        return inPlace;
    if (!isAtRest()) {
        auto durable = makeDurable();
        return durable ? Error{ErrorKind::Refused,
                               base::said(
                                   "Another program is reading these records; close it and seal them then."),
                               {}}
                       : durable;
    }
    disconnect(); // nothing is saved where it would be left behind
    auto done = makeSealed(seal, progress);
    disconnect();
    if (done)
        done = base::moveOver(sealing::keysOf(unfinished()), sealing::keysOf(m_home));
    if (done)
        done = takePlace();
    removeUnfinished();
    if (!done)
        m_access.seal.reset();
    m_file = m_home;
    auto ready = connect(Opening::MustExist);
    if (ready)
        ready = makeDurable();
    return done ? ready : done;
}

/// A sealed copy beside its place, opened and read to its last page.
base::Result<void> Store::makeSealed(const sealing::Seal& seal, const records::Progress& progress)
{
    removeUnfinished();
    if (auto written = sealing::writeKeys(seal, sealing::keysOf(unfinished())); !written)
        return written;
    if (auto made = makePrivate(unfinished()); !made)
        return made;
    if (auto copied = copySealed(m_home, unfinished(), seal.key, progress); !copied)
        return copied;
    m_access.seal = seal;
    m_file = unfinished();
    if (auto connected = connect(Opening::MustExist); !connected)
        return connected;
    return refuseFaults();
}

base::Result<void> Store::rewrap(const QByteArray& wrapped)
{
    if (!isSealed() || !m_isWriting)
        return Error{ErrorKind::Refused, base::said("These records are not sealed."), {}};
    const sealing::Seal seal{m_access.seal->key, wrapped};
    removeUnfinished();
    auto done = sealing::writeKeys(seal, sealing::keysOf(unfinished()));
    if (done)
        done = base::moveOver(sealing::keysOf(unfinished()), sealing::keysOf(m_home));
    removeUnfinished();
    if (done)
        m_access.seal = seal;
    return done;
}

} // namespace storage
