#pragma once

#include "core/base/result.h"
#include "core/records/clinic.h"

#include <QDateTime>
#include <QSqlDatabase>

#include <functional>
#include <memory>

namespace storage
{

/// Who writes, and where the time comes from.
struct Access {
    QString who;
    std::function<QDateTime()> now; ///< UTC
};

enum class Opening { MustExist, MayCreate };

/// One open records file. The repositories work through it; it alone knows which database it is. Belongs to the
/// thread that opened it.
class Store
{
public:
    /// Opens a records file and brings it to the newest schema (a copy is kept beside it before an older one is
    /// migrated). A file of another program, of a newer Aplomb, or one that is damaged is refused in plain words. New
    /// files are readable by their owner only.
    static base::Result<std::unique_ptr<Store>> open(const QString& path, const Access& access, Opening opening);
    ~Store();
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    const QString& path() const { return m_path; }
    const Access& access() const { return m_access; }
    QSqlDatabase database() const;

    base::Result<records::Clinic> clinic() const;
    base::Result<void> save(const records::Clinic& clinic);

private:
    Store(QString path, Access access, QString connection);

    QString m_path;
    Access m_access;
    QString m_connection;
};

} // namespace storage
