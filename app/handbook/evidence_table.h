#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"

#include <QAbstractTableModel>

namespace handbook
{

/// Every published threshold of a measure and the clinic's own: those of measurement error, then those of
/// important change. The columns hold what one chooses by; `detail` says the rest.
class EvidenceTable : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Answers, Value, People, Number, Interval, Confidence, Source, columns };

    using QAbstractTableModel::QAbstractTableModel;

    void show(const QString& measure, const catalogue::Catalogue& catalogue);
    /// What the columns leave out: people, protocol, condition, reliability, note, and the reference.
    QStringList detail(int row) const;
    /// "https://doi.org/10.1016/…"; empty where no DOI is known.
    QString link(int row) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    struct Row {
        QStringList cells; ///< by column
        QStringList detail;
        QString link;
    };

    std::vector<Row> m_rows;
};

} // namespace handbook
