#pragma once

#include "core/base/result.h"

#include <QByteArray>

#include <memory>

class QSaveFile;

namespace base
{

/// A file whose bytes are safely on the disk, beside its place. It is gone again where it is not put there.
class WrittenFile
{
public:
    WrittenFile(WrittenFile&&) noexcept;
    WrittenFile& operator=(WrittenFile&&) noexcept;
    ~WrittenFile();

    /// In the place of what was there, in one step.
    Result<void> place();

private:
    friend Result<WrittenFile> writeBeside(const QByteArray& bytes, const QString& path);
    WrittenFile();

    std::unique_ptr<QSaveFile> m_file;
};

/// The path as that of a file, whatever it begins with: Qt looks for what begins with a colon in its
/// resources.
QString plainPath(const QString& path);

/// The bytes of a file, one more than `most` where it is longer. Unreadable where it cannot be read or is no
/// file but a device or a pipe, which may never end.
Result<QByteArray> read(const QString& path, qint64 most);

/// Writes a file whole or not at all: what was there before stays until the new one is safely on the disk. A
/// new file is readable by its owner only. Unwritable where it cannot be; Refused where it would take the
/// place of a records file or of what belongs to one.
Result<void> write(const QByteArray& bytes, const QString& path);

/// The same but for the last step, so that several files can be put in their places together.
Result<WrittenFile> writeBeside(const QByteArray& bytes, const QString& path);

/// Puts a finished file in the place of another, in one step, once it is safely on the disk.
Result<void> moveOver(const QString& from, const QString& to);

/// Gives a file a second name. Refused where there is another file of that name.
Result<void> nameToo(const QString& file, const QString& name);

/// Gives a finished file its name once it is safely on the disk. Refused where there is something of that
/// name.
Result<void> moveNew(const QString& from, const QString& to);

} // namespace base
