#include "app/importing/preview_table.h"

#include "app/session/messages.h"

#include <algorithm>

namespace importing
{

using exchange::Becomes;

PreviewTable::PreviewTable(std::vector<PreviewRow> rows, bool isOfEntries, QObject* parent)
    : QAbstractTableModel(parent), m_all(std::move(rows)), m_isOfEntries(isOfEntries)
{
    showOnly({});
}

bool PreviewTable::isShown(const PreviewRow& row, std::optional<Becomes> only)
{
    return !only || row.becomes == *only || (row.becomes == Becomes::InError && only == Becomes::AsRecorded);
}

void PreviewTable::showOnly(std::optional<Becomes> only)
{
    beginResetModel();
    m_shown.clear();
    for (size_t i = 0; i < m_all.size(); ++i) {
        if (isShown(m_all[i], only))
            m_shown.push_back(i);
    }
    endResetModel();
}

qsizetype PreviewTable::count(std::optional<Becomes> only) const
{
    return std::ranges::count_if(m_all, [&](const PreviewRow& row) { return isShown(row, only); });
}

int PreviewTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_shown.size());
}

int PreviewTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : columns;
}

QVariant PreviewTable::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    if (role == Qt::TextAlignmentRole && index.column() == Line)
        return int(Qt::AlignRight | Qt::AlignVCenter);
    if (role == Qt::AccessibleTextRole && data(index, Qt::DisplayRole).toString().isEmpty())
        return tr("none", "in a cell of the file's table");
    if (role != Qt::DisplayRole)
        return {};
    const PreviewRow& shown = row(index.row());
    switch (index.column()) {
    case Line:
        return shown.line > 0 ? QVariant(shown.line) : QVariant();
    case Patient:
        return shown.patient;
    case Day:
        return shown.day.isValid() ? session::dayInWords(shown.day) : QString();
    case What:
        return shown.what;
    case Fault:
        return shown.fault;
    default:
        return {};
    }
}

QVariant PreviewTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Line:
        return m_isOfEntries ? tr("Entry") : tr("Line");
    case Patient:
        return tr("Record number");
    case Day:
        return tr("Visit");
    case What:
        return tr("What becomes of it");
    case Fault:
        return tr("Fault");
    default:
        return {};
    }
}

} // namespace importing
