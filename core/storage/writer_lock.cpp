#include "core/storage/writer_lock.h"

#include "core/base/text.h"
#include "core/records/patient.h"

#include <QCoreApplication>
#include <QFileInfo>
#include <QSysInfo>

#include <cerrno>
#include <cstdarg>
#include <fcntl.h>
#include <sqlite3.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;

/// fcntl with the locks of an open file in place of those of a process.
int lastingLock(int file, int command, ...)
{
    va_list further;
    va_start(further, command);
    void* argument = va_arg(further, void*);
    va_end(further);
    if (command != F_SETLK && command != F_GETLK)
        return fcntl(file, command, argument);
    static_cast<struct flock*>(argument)->l_pid = 0; // asked for
    return fcntl(file, command == F_SETLK ? F_OFD_SETLK : F_OFD_GETLK, argument);
}

QString lockPath(const QString& records)
{
    const QFileInfo file(records);
    return u"%1/.%2.lock"_s.arg(file.absolutePath(), file.fileName());
}

/// Whether the path still names the open file, and not another one that took its place.
bool isStillNamed(int file, const QByteArray& path)
{
    struct stat open = {};
    struct stat named = {};
    return fstat(file, &open) == 0 && lstat(path.constData(), &named) == 0 && open.st_ino == named.st_ino &&
           open.st_dev == named.st_dev;
}

/// One line, whatever it held.
QString line(const QString& text)
{
    return base::printable(text).simplified();
}

QByteArray card(const Access& access)
{
    const QStringList lines = {line(access.who), line(QSysInfo::machineHostName()),
                               access.now().toUTC().toString(Qt::ISODate),
                               QString::number(QCoreApplication::applicationPid())};
    return lines.join(u'\n').toUtf8();
}

Error refusal(int file)
{
    QByteArray bytes(1000, '\0');
    bytes.truncate(std::max(ssize_t(0), pread(file, bytes.data(), size_t(bytes.size()), 0)));
    const QStringList lines = QString::fromUtf8(bytes).split(u'\n');
    const QDateTime since = QDateTime::fromString(lines.value(2), Qt::ISODate).toLocalTime();
    if (!since.isValid()) // its holder has not said yet
        return {ErrorKind::Refused, base::said("Another program has these records open to write."), {}};
    return {
        ErrorKind::Refused,
        base::said("These records are open elsewhere: %1 has had them open on the computer %2 since %3, %4.")
            .arg(line(lines.at(0)), line(lines.at(1)), records::dayMessage(since.date()),
                 since.time().toString(u"HH:mm"_s)),
        {}};
}

/// What root makes belongs to whom the records belong to, so that they can go on with it.
void giveToOwnerOf(const QString& records, int file)
{
    struct stat owned = {};
    if (geteuid() == 0 && stat(records.toLocal8Bit().constData(), &owned) == 0 &&
        fchown(file, owned.st_uid, owned.st_gid) != 0)
        return; // then root alone writes here
}

} // namespace

void makeLocksLast()
{
    sqlite3_vfs* files = sqlite3_vfs_find("unix");
    if (files != nullptr)
        files->xSetSystemCall(files, "fcntl", reinterpret_cast<sqlite3_syscall_ptr>(lastingLock));
}

base::Result<WriterLock> WriterLock::taken(const QString& records, const Access& access)
{
    const QByteArray path = lockPath(records).toLocal8Bit();
    while (true) {
        const int file = ::open(path.constData(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
        if (file < 0)
            return Error{
                ErrorKind::Unwritable, base::said("This user may not write beside the records file."), {}};
        WriterLock lock(file, lockPath(records));
        if (flock(file, LOCK_EX | LOCK_NB) != 0) {
            const bool isTaken = errno == EWOULDBLOCK;
            const Error error =
                isTaken ? refusal(file)
                        : Error{ErrorKind::Unwritable,
                                base::said("This place cannot keep a records file safely; choose a "
                                           "folder on a local disk."),
                                {}};
            ::close(std::exchange(lock.m_file, -1)); // without wiping what its holder says
            return error;
        }
        if (!isStillNamed(file, path))
            continue; // withdrawn meanwhile
        giveToOwnerOf(records, file);
        const QByteArray said = card(access);
        // On a full disk the lock holds all the same, only nameless.
        [[maybe_unused]] const bool isSaid =
            ftruncate(file, 0) == 0 && pwrite(file, said.constData(), size_t(said.size()), 0) == said.size();
        return lock;
    }
}

WriterLock::WriterLock(WriterLock&& other) noexcept
    : m_file(std::exchange(other.m_file, -1)), m_path(std::move(other.m_path))
{
}

WriterLock& WriterLock::operator=(WriterLock&& other) noexcept
{
    std::swap(m_file, other.m_file);
    std::swap(m_path, other.m_path);
    return *this;
}

WriterLock::~WriterLock()
{
    if (m_file < 0)
        return;
    [[maybe_unused]] const int wiped = ftruncate(m_file, 0);
    ::close(m_file);
}

void WriterLock::withdraw() const
{
    ::unlink(m_path.toLocal8Bit().constData());
}

} // namespace storage
