#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

#include <QByteArray>

#include <vector>

namespace storage
{

/// One version of what the clinic added to the catalogue, as the document catalogue::ownFrom reads.
struct ClinicCatalogue {
    int version = 0;
    QByteArray document;
    QString who;
    QDateTime savedAt; ///< UTC

    bool operator==(const ClinicCatalogue&) const = default;
};

/// Append only: the database refuses to change or remove a version.
class ClinicCatalogues
{
public:
    explicit ClinicCatalogues(Store& store) : m_store(store) {}

    base::Result<std::vector<ClinicCatalogue>> newestFirst() const;
    /// Keeps the document as the newest version, in the name of the store's user.
    base::Result<void> add(const QByteArray& document);

private:
    Store& m_store;
};

} // namespace storage
