#pragma once

#include "core/base/result.h"
#include "core/records/clinic.h"

#include <QDateTime>
#include <QSqlDatabase>
#include <QSqlError>
#include <QStringList>

#include <functional>
#include <memory>
#include <vector>

namespace storage
{

/// Who writes, and where the time comes from.
struct Access {
    QString who;
    std::function<QDateTime()> now; ///< UTC
};

enum class Opening { MustExist, MayCreate };

class Transaction;
struct Migration;

/// One open records file. The repositories work through it; it alone knows which database it is. Belongs to
/// the thread that opened it.
class Store
{
public:
    /// Opens a records file and brings it to the newest schema (a copy is kept beside it before an older one
    /// is migrated). A file of another program (Foreign), of a newer Aplomb (Newer), one that is damaged
    /// (Unreadable) or that cannot be written (Unwritable) is refused in plain words. A new file is there
    /// whole or not at all, and readable by its owner only.
    static base::Result<std::unique_ptr<Store>> open(const QString& path, const Access& access,
                                                     Opening opening);
    /// The same with another migration chain than the program's own.
    static base::Result<std::unique_ptr<Store>> open(const QString& path, const Access& access,
                                                     Opening opening, const std::vector<Migration>& chain);
    ~Store();
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    const QString& path() const { return m_path; }
    const Access& access() const { return m_access; }
    /// Who writes from now on.
    void setWho(const QString& who) { m_access.who = who; }
    QSqlDatabase database() const;

    base::Result<records::Clinic> clinic() const;
    base::Result<void> save(const records::Clinic& clinic);

    /// What the database said, as the kind of error it is. Busy, read-only and full are Unwritable, damaged
    /// is Unreadable, a broken rule of the schema is Invalid, a frozen record is Refused.
    static base::Error errorFrom(const QSqlError& error);

    /// Faults of the file itself, one sentence each: pages, indexes, constraints, foreign keys.
    base::Result<QStringList> fileFaults() const;

private:
    friend class Transaction;

    Store(QString path, Access access);
    static base::Result<void> create(const QString& path, const Access& access,
                                     const std::vector<Migration>& chain);
    base::Result<void> connect() const;
    base::Result<void> markAsOurs() const;
    base::Result<void> refuseForeign() const;
    base::Result<void> makeDurable() const;
    base::Result<void> modernise(const std::vector<Migration>& chain);
    base::Result<void> keepCopy(int version) const;
    base::Result<void> copyInto(const QString& path) const;
    base::Result<QVariant> ask(const QString& statement) const;
    base::Result<void> begin(bool writes);
    base::Result<void> commit();
    void rollBack();

    QString m_path;
    Access m_access;
    QString m_connection;
    int m_depth = 0; ///< transactions open, one inside another
};

} // namespace storage
