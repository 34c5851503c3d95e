#include "core/storage/watch.h"

#include <QFileInfo>

#include <sqlite3.h>

#include <algorithm>
#include <utility>

namespace storage
{

Watch::Watch(sqlite3* database, GoesOn goesOn) : m_database(database), m_goesOn(std::move(goesOn))
{
    constexpr int stepsBetween = 2'000; // less than a millisecond
    if (database == nullptr)
        m_goesOn = {};
    if (!m_goesOn)
        return;
    const auto ask = [](void* watch) { return static_cast<Watch*>(watch)->m_goesOn() ? 0 : 1; };
    sqlite3_progress_handler(m_database, stepsBetween, ask, this);
}

Watch::~Watch()
{
    if (m_goesOn)
        sqlite3_progress_handler(m_database, 0, nullptr, nullptr);
}

Watch::GoesOn asItGrows(const QString& file, qint64 whole, const records::Progress& progress)
{
    if (!progress)
        return {};
    constexpr qint64 most = 99;
    return [=] {
        return progress(int(std::min(most, 100 * QFileInfo(file).size() / std::max<qint64>(1, whole))));
    };
}

} // namespace storage
