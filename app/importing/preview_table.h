#pragma once

#include "app/importing/preview_rows.h"

#include <QAbstractTableModel>

#include <optional>

namespace importing
{

/// The lines of a preview, all or those of one kind.
class PreviewTable : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Line, Patient, Day, What, Fault, columns };

    /// `isOfEntries`: the places of the rows are entries of a Bundle, else lines of a file.
    PreviewTable(std::vector<PreviewRow> rows, bool isOfEntries, QObject* parent);

    /// What was entered in error is among what is as recorded.
    static bool isShown(const PreviewRow& row, std::optional<exchange::Becomes> only);
    void showOnly(std::optional<exchange::Becomes> only);
    const PreviewRow& row(int row) const { return m_all[m_shown[size_t(row)]]; }
    qsizetype count(std::optional<exchange::Becomes> only) const;
    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    std::vector<PreviewRow> m_all;
    bool m_isOfEntries;
    std::vector<size_t> m_shown;
};

} // namespace importing
