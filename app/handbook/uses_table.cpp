#include "app/handbook/uses_table.h"
#include "app/session/messages.h"

#include "core/base/text.h"
#include "core/records/patient.h"
using namespace Qt::StringLiterals;

namespace handbook
{

void UsesTable::show(std::vector<records::Use> uses)
{
    beginResetModel();
    m_uses = std::move(uses);
    endResetModel();
}

int UsesTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_uses.size());
}

int UsesTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : columns;
}

QVariant UsesTable::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid) || role != Qt::DisplayRole)
        return {};
    const records::Use& shown = use(index.row());
    switch (index.column()) {
    case Day:
        return session::dayInWords(shown.day);
    case Patient:
        return u"%1, %2"_s.arg(base::isolated(shown.family.toUpper()), base::isolated(shown.given));
    case RecordNumber:
        return shown.recordNumber;
    default:
        return {};
    }
}

QVariant UsesTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Day:
        return tr("Visit");
    case Patient:
        return tr("Patient");
    case RecordNumber:
        return tr("Record number");
    default:
        return {};
    }
}

} // namespace handbook
