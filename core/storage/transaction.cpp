#include "core/storage/transaction.h"

namespace storage
{

Transaction::~Transaction()
{
    if (m_begun && !m_isOver)
        m_store.rollBack();
}

base::Result<void> Transaction::commit()
{
    auto committed = m_store.commit();
    m_isOver = bool(committed);
    return committed;
}

} // namespace storage
