#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

#include <QByteArray>
#include <QDateTime>

#include <optional>

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

    /// The newest version, or the newest one older than `before`; empty where there is none.
    base::Result<std::optional<ClinicCatalogue>> newest(std::optional<int> before = {}) const;
    /// Keeps the document as the newest version, in the name of the store's user.
    base::Result<void> add(const QByteArray& document);

private:
    Store& m_store;
};

} // namespace storage
