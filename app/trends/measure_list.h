#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/history.h"

#include <QAbstractListModel>
#include <QSet>

namespace trends
{

/// The measures that have findings, each to be ticked for its chart. Found by title or abbreviation.
class MeasureList : public QAbstractListModel
{
    Q_OBJECT

public:
    enum Role { IdRole = Qt::UserRole, FoldedRole };

    using QAbstractListModel::QAbstractListModel;

    /// Keeps the ticks of measures that stay.
    void show(const std::vector<records::Visit>& visits, const catalogue::Catalogue& catalogue);
    void tick(const QStringList& measures); ///< these and no others
    QStringList ticked() const;             ///< in catalogue order
    QStringList all() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

Q_SIGNALS:
    void ticksChanged();

private:
    struct Item {
        QString id;
        QString title;
        QString folded;
    };

    std::vector<Item> m_items;
    QSet<QString> m_ticked;
};

} // namespace trends
