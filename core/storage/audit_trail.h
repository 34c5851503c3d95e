#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

#include <vector>

namespace storage
{

/// Who did what to which record, and when. No clinical content.
struct AuditEntry {
    QDateTime at; ///< UTC
    QString who;
    QString action; ///< "created", "changed", "signed", "amended", "removed", "imported"
    QString kind;   ///< "patient", "visit", "finding", "conditions", "letter", "clinic"
    QString record; ///< the record's id
};

/// Written by the repositories inside the transaction of the change itself; read here. Append only: the database
/// refuses to change or remove an entry.
class AuditTrail
{
public:
    explicit AuditTrail(Store& store) : m_store(store) {}

    base::Result<std::vector<AuditEntry>> ofRecord(const QString& record) const;
    base::Result<std::vector<AuditEntry>> newest(int most) const;

private:
    Store& m_store;
};

} // namespace storage
