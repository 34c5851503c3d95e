#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

namespace storage
{

/// What stands typed in forms that are saved only when they are whole, each in the form's own words.
class UnsavedEntries
{
public:
    explicit UnsavedEntries(Store& store) : m_store(store) {}

    /// In place of what was kept before; empty: nothing is any more.
    base::Result<void> keep(const QString& form, const QString& typed);
    /// Empty where there is none.
    base::Result<QString> of(const QString& form) const;

private:
    Store& m_store;
};

} // namespace storage
