#include "core/base/file.h"

#include <QFileInfo>
#include <QSaveFile>

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

using namespace Qt::StringLiterals;

namespace base
{

namespace
{

/// Whether what stands at this path, or in the folder, has reached the disk.
bool isOnDisk(const QString& path)
{
    const int file = ::open(path.toLocal8Bit().constData(), O_RDONLY | O_CLOEXEC);
    const bool isSynced = file >= 0 && (fsync(file) == 0 || errno == EINVAL);
    if (file >= 0)
        ::close(file);
    return isSynced;
}

bool isDatabase(const QString& path)
{
    QFile file(path);
    return QFileInfo(path).isFile() && file.open(QIODevice::ReadOnly) && file.read(15) == "SQLite format 3";
}

/// A database, or sealed records, which have their keys beside them.
bool areRecords(const QString& path)
{
    return isDatabase(path) || (QFileInfo::exists(path) && QFileInfo::exists(path + u".keys"_s));
}

/// Records, their journals and keys, and the file that says who writes them.
bool belongsToRecords(const QFileInfo& file)
{
    const QString path = file.filePath();
    if (areRecords(path) || (file.exists() && file.suffix() == u"aplomb"_s))
        return true;
    for (const QString& ending : {u"-wal"_s, u"-shm"_s, u"-journal"_s, u".keys"_s}) {
        if (path.endsWith(ending) && areRecords(path.chopped(ending.size())))
            return true;
    }
    const QString name = file.fileName();
    return name.startsWith(u'.') && name.endsWith(u".lock"_s) &&
           areRecords(file.path() + u'/' + name.sliced(1).chopped(5));
}

} // namespace

QString plainPath(const QString& path)
{
    return path.startsWith(u':') ? u"./"_s + path : path;
}

Result<QByteArray> read(const QString& path, qint64 most)
{
    QFile file(plainPath(path));
    const QFileInfo info(file);
    if (info.exists() && !info.isFile())
        return Error{ErrorKind::Unreadable,
                     said("This is not a file; a folder, a device or a pipe cannot be read."),
                     {}};
    if (!file.open(QIODevice::ReadOnly))
        return Error{ErrorKind::Unreadable, said("The file cannot be read."), file.errorString()};
    QByteArray bytes = file.read(most + 1);
    if (file.error() != QFile::NoError)
        return Error{ErrorKind::Unreadable, said("The file cannot be read to its end."), file.errorString()};
    return bytes;
}

Result<WrittenFile> writeBeside(const QByteArray& bytes, const QString& path)
{
    const QFileInfo named(plainPath(path));
    const bool isNew = !named.exists();
    const QFileInfo target(isNew ? named.absoluteFilePath() : named.canonicalFilePath());
    if (belongsToRecords(target))
        return Error{
            ErrorKind::Refused, said("A records file is there, and nothing is written over it."), {}};
    WrittenFile written;
    written.m_file = std::make_unique<QSaveFile>(target.filePath());
    QSaveFile& file = *written.m_file;
    const bool isWritten = (isNew || target.isFile()) && file.open(QIODevice::WriteOnly) &&
                           (!isNew || file.setPermissions(QFile::ReadOwner | QFile::WriteOwner)) &&
                           file.write(bytes) == bytes.size() && file.flush() && fsync(file.handle()) == 0;
    if (!isWritten)
        return Error{ErrorKind::Unwritable, said("The file cannot be written there."), file.errorString()};
    return written;
}

WrittenFile::WrittenFile() = default;
WrittenFile::WrittenFile(WrittenFile&&) noexcept = default;
WrittenFile& WrittenFile::operator=(WrittenFile&&) noexcept = default;
WrittenFile::~WrittenFile() = default;

Result<void> WrittenFile::place()
{
    if (!m_file->commit())
        return Error{ErrorKind::Unwritable, said("The file cannot be written there."), m_file->errorString()};
    (void)isOnDisk(QFileInfo(m_file->fileName()).absolutePath()); // its name; the bytes are there
    return {};
}

Result<void> write(const QByteArray& bytes, const QString& path)
{
    auto written = writeBeside(bytes, path);
    return written ? written->place() : Result<void>(written.error());
}

Result<void> moveOver(const QString& from, const QString& to)
{
    if (!isOnDisk(from) || ::rename(from.toLocal8Bit().constData(), to.toLocal8Bit().constData()) != 0)
        return Error{ErrorKind::Unwritable, said("The file cannot be written there."), {}};
    (void)isOnDisk(QFileInfo(to).absolutePath());
    return {};
}

Result<void> nameToo(const QString& file, const QString& name)
{
    struct stat one = {};
    struct stat other = {};
    const QByteArray from = file.toLocal8Bit();
    const QByteArray to = name.toLocal8Bit();
    if (::link(from.constData(), to.constData()) == 0)
        return {};
    if (errno != EEXIST)
        return Error{ErrorKind::Unwritable, said("The file cannot be written there."), {}};
    if (stat(from.constData(), &one) == 0 && stat(to.constData(), &other) == 0 &&
        one.st_dev == other.st_dev && one.st_ino == other.st_ino)
        return {};
    return Error{ErrorKind::Refused, said("There is a file of that name already; it was left as it is."), {}};
}

Result<void> moveNew(const QString& from, const QString& to)
{
    const QByteArray old = from.toLocal8Bit();
    const QByteArray name = to.toLocal8Bit();
    if (!isOnDisk(from))
        return Error{ErrorKind::Unwritable, said("The file cannot be written there."), {}};
    bool isMoved = renameat2(AT_FDCWD, old.constData(), AT_FDCWD, name.constData(), RENAME_NOREPLACE) == 0;
    if (!isMoved && (errno == EINVAL || errno == ENOSYS)) // a file system that does not know how
        isMoved = ::link(old.constData(), name.constData()) == 0 && ::unlink(old.constData()) == 0;
    if (!isMoved && errno == EEXIST)
        return Error{
            ErrorKind::Refused, said("There is a file of that name already; it was left as it is."), {}};
    if (!isMoved)
        return Error{ErrorKind::Unwritable, said("The file cannot be written there."), {}};
    (void)isOnDisk(QFileInfo(to).absolutePath());
    return {};
}

} // namespace base
