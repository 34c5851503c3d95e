#pragma once

#include "core/records/summary.h"

#include <QAbstractTableModel>
#include <QCollator>
#include <QSortFilterProxyModel>

namespace patients
{

/// The clinic's patients, one a row, with no more of a person than is needed to choose.
class PatientTable : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Family, Given, Born, RecordNumber, Diagnosis, LastVisit, Visits, columns };

    using QAbstractTableModel::QAbstractTableModel;

    void setPatients(std::vector<records::PatientSummary> patients, QDate today);
    const std::vector<records::PatientSummary>& patients() const { return m_patients; }
    const records::PatientSummary& patient(int row) const { return m_patients.at(static_cast<size_t>(row)); }
    const QStringList& keys(int row) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    std::vector<records::PatientSummary> m_patients;
    mutable std::vector<QStringList> m_keys; ///< made when first searched
    QDate m_today;
};

/// The rows a search finds, sorted as people sort names and days.
class FoundPatients : public QSortFilterProxyModel
{
    Q_OBJECT

public:
    FoundPatients(PatientTable& table, QObject* parent);

    void search(const QString& typed);
    const records::PatientSummary& patient(const QModelIndex& index) const;
    /// No row: invalid.
    QModelIndex indexOf(const records::PatientId& id) const;

protected:
    bool filterAcceptsRow(int row, const QModelIndex& parent) const override;
    bool lessThan(const QModelIndex& left, const QModelIndex& right) const override;

private:
    PatientTable& m_table;
    QString m_typed;
    QCollator m_collator;
};

} // namespace patients
