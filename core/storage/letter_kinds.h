#pragma once

#include "core/base/result.h"
#include "core/records/clinic.h"
#include "core/storage/store.h"

namespace storage
{

/// The kinds of letters that the clinic made itself.
class LetterKinds
{
public:
    explicit LetterKinds(Store& store) : m_store(store) {}

    /// A new kind where the version is 0, else a further version after this one. Conflict when the newest is
    /// another, Invalid without a title.
    base::Result<records::LetterKind> save(const records::LetterKind& kind);
    /// Every version of every kind, those of one kind oldest first.
    base::Result<std::vector<records::LetterKind>> all() const;

private:
    Store& m_store;
};

} // namespace storage
