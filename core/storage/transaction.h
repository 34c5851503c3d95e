#pragma once

#include "core/storage/store.h"

namespace storage
{

/// Everything between its making and `commit`, or nothing: without a commit it is taken back. One inside
/// another is a part of the outer one.
class Transaction
{
public:
    enum class Kind {
        Reads, ///< several reads that see one state of the records
        Writes ///< waits here until no other program writes
    };

    Transaction(Store& store, Kind kind) : m_store(store), m_begun(store.begin(kind == Kind::Writes)) {}
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;

    const base::Result<void>& begun() const { return m_begun; }
    base::Result<void> commit();

private:
    Store& m_store;
    base::Result<void> m_begun;
    bool m_isOver = false;
};

/// Does `work`, which gives back a Result, as one write: kept whole when it succeeds, else taken back whole.
template <class Work>
auto together(Store& store, Work work) -> decltype(work())
{
    Transaction transaction(store, Transaction::Kind::Writes);
    if (!transaction.begun())
        return transaction.begun().error();
    auto result = work();
    if (!result)
        return result;
    if (auto committed = transaction.commit(); !committed)
        return committed.error();
    return result;
}

} // namespace storage
