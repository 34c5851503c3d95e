#pragma once

#include "core/records/summary.h"

#include <QAbstractTableModel>

namespace handbook
{

/// The visits that used a measure, with no more of a person than is needed to choose.
class UsesTable : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Day, Patient, RecordNumber, columns };

    using QAbstractTableModel::QAbstractTableModel;

    void show(std::vector<records::Use> uses);
    const records::Use& use(int row) const { return m_uses.at(static_cast<size_t>(row)); }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    std::vector<records::Use> m_uses;
};

} // namespace handbook
