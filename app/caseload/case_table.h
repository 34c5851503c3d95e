#pragma once

#include "app/caseload/case_list.h"

#include <QAbstractTableModel>

namespace caseload
{

/// The entries that a filter shows, a row each, with no more of a person than is needed; without names where
/// others look on.
class CaseTable : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Number, Name, Population, Clinician, LastVisit, Due, Strongest, Flags, ColumnCount };

    CaseTable(const CaseList& list, session::Session& session, QObject* parent);

    void show(const Filter& filter, bool hasNames);
    const Entry& entry(int row) const { return m_list.entries().at(m_rows.at(size_t(row))); }
    int rowOf(const records::PatientId& id) const; ///< −1 where it is not shown
    /// As it stands in the cell, also for a file.
    QString text(const Entry& entry, int column) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    const CaseList& m_list;
    session::Session& m_session;
    std::vector<size_t> m_rows; ///< places in the list
    bool m_hasNames = true;
};

} // namespace caseload
