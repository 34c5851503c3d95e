#pragma once

#include "core/catalogue/catalogue.h"

#include <QAbstractTableModel>

namespace handbook
{

/// Every measure of the catalogue under its section; a section's row cannot be selected.
class MeasureList : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Title, ShortForm, columns };

    using QAbstractTableModel::QAbstractTableModel;

    /// Those found by what is typed: words of the title, the short form, the section, or a population with
    /// published evidence. Nothing typed: all.
    void show(const catalogue::Catalogue& catalogue, const QString& typed);

    bool isSection(int row) const;
    QString measure(int row) const;             ///< its id; empty for a section and where there is no row
    int rowOf(const QString& measure) const;    ///< −1 where it is not shown
    int firstNamed(const QString& typed) const; ///< whose title or short form begins so, else the first; −1
    int count() const;                          ///< of measures

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

private:
    struct Line {
        QString measure; ///< empty: a section
        QString title;
        QString shortForm;
    };

    std::vector<Line> m_lines;
};

} // namespace handbook
