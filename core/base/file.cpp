#include "core/base/file.h"

#include <QFile>
#include <QSaveFile>

namespace base
{

Result<void> write(const QByteArray& bytes, const QString& path)
{
    const bool isNew = !QFile::exists(path);
    QSaveFile file(path);
    const bool isWritten = file.open(QIODevice::WriteOnly) &&
                           (!isNew || file.setPermissions(QFile::ReadOwner | QFile::WriteOwner)) &&
                           file.write(bytes) == bytes.size() && file.commit();
    if (!isWritten)
        return Error{ErrorKind::Unwritable, QStringLiteral("The file cannot be written there."),
                     file.errorString()};
    return {};
}

} // namespace base
