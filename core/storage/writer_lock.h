#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

namespace storage
{

/// Makes the locks SQLite takes from now on last until it lets them go. As it takes them by itself, all of a
/// file's are lost whenever anything in this process closes that file; a file dialog that looks into it is
/// enough. To be called before a file is opened; once is enough.
void makeLocksLast();

/// The right to write a records file, which one program at a time has until it ends, however it ends: a lock
/// on a hidden file beside the records, which says who has it.
class WriterLock
{
public:
    /// Refused while another program has the right, in a sentence that says who, where and since when.
    static base::Result<WriterLock> taken(const QString& records, const Access& access);
    WriterLock(WriterLock&& other) noexcept;
    WriterLock& operator=(WriterLock&& other) noexcept;
    ~WriterLock();

    /// Takes the hidden file away, for records that did not come to be.
    void withdraw() const;

private:
    WriterLock(int file, QString path) : m_file(file), m_path(std::move(path)) {}

    int m_file = -1;
    QString m_path;
};

} // namespace storage
