#include "app/trends/measure_list.h"
#include "app/session/messages.h"

#include "core/base/text.h"
#include "core/records/visit.h"
#include "core/records/wording.h"

#include <algorithm>

namespace trends
{

void MeasureList::show(const std::vector<records::Visit>& visits, const catalogue::Catalogue& catalogue)
{
    beginResetModel();
    m_items.clear();
    for (const auto& [id, side] : records::recordedPairs(visits, catalogue)) {
        const catalogue::Measure* measure = catalogue.measure(id);
        if (measure == nullptr || (!m_items.empty() && m_items.back().id == id))
            continue;
        m_items.push_back({id, records::titled(*measure, session::screenPhrases()),
                           base::folded(measure->title + u' ' + measure->shortForm)});
    }
    endResetModel();
}

void MeasureList::tick(const QStringList& measures)
{
    m_ticked = QSet<QString>(measures.begin(), measures.end());
    if (!m_items.empty())
        Q_EMIT dataChanged(index(0), index(rowCount() - 1), {Qt::CheckStateRole});
    Q_EMIT ticksChanged();
}

QStringList MeasureList::ticked() const
{
    QStringList found = all();
    found.removeIf([this](const QString& id) { return !m_ticked.contains(id); });
    return found;
}

QStringList MeasureList::all() const
{
    QStringList ids;
    for (const Item& item : m_items)
        ids << item.id;
    return ids;
}

int MeasureList::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_items.size());
}

QVariant MeasureList::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Item& item = m_items[size_t(index.row())];
    switch (role) {
    case Qt::DisplayRole:
    case Qt::ToolTipRole:
        return item.title;
    case Qt::CheckStateRole:
        return int(m_ticked.contains(item.id) ? Qt::Checked : Qt::Unchecked);
    case IdRole:
        return item.id;
    case FoldedRole:
        return item.folded;
    default:
        return {};
    }
}

bool MeasureList::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (role != Qt::CheckStateRole || !checkIndex(index, CheckIndexOption::IndexIsValid))
        return false;
    const QString& id = m_items[size_t(index.row())].id;
    if (value.toInt() == Qt::Checked)
        m_ticked.insert(id);
    else
        m_ticked.remove(id);
    Q_EMIT dataChanged(index, index, {Qt::CheckStateRole});
    Q_EMIT ticksChanged();
    return true;
}

Qt::ItemFlags MeasureList::flags(const QModelIndex& index) const
{
    if (!index.isValid())
        return Qt::NoItemFlags;
    return QAbstractListModel::flags(index) | Qt::ItemIsUserCheckable | Qt::ItemNeverHasChildren;
}

} // namespace trends
