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
    QString action; ///< "created", "changed", "signed", "amended", "withdrawn", "removed", "imported"
    QString kind;   ///< "patient", "visit", "finding", "conditions", "letter", "clinic"
    QString record; ///< the record's id; of a finding or conditions the visit's; "clinic" for the clinic
};

/// Adds an entry in the name of the store's user. The repositories do so inside the transaction of the change
/// itself; an import adds that it was one.
base::Result<void> note(const Store& store, const QString& action, const QString& kind,
                        const QString& record);

/// Several of one record.
base::Result<void> note(const Store& store, const QStringList& actions, const QString& kind,
                        const QString& record);

/// The same, at the instant the change itself names.
base::Result<void> note(const Store& store, const QString& action, const QString& kind, const QString& record,
                        const QDateTime& at);

/// Append only: the database refuses to change or remove an entry.
class AuditTrail
{
public:
    explicit AuditTrail(Store& store) : m_store(store) {}

    base::Result<std::vector<AuditEntry>> ofRecord(const QString& record) const; ///< oldest first
    base::Result<std::vector<AuditEntry>> newest(int most) const;                ///< newest first

private:
    Store& m_store;
};

} // namespace storage
