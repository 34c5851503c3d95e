#pragma once

#include <QApplication>

namespace keys
{

/// Does what takes as long as a password does, with the cursor that says so.
template <class Work>
auto waiting(Work work)
{
    QApplication::setOverrideCursor(Qt::WaitCursor);
    auto done = work();
    QApplication::restoreOverrideCursor();
    return done;
}

} // namespace keys
