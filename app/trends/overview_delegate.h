#pragma once

#include <QStyledItemDelegate>

namespace trends
{

/// Paints a measure over its section, its courses with the plumb lines running through, and for each side
/// one line of numbers and of what they come to.
class OverviewDelegate : public QStyledItemDelegate
{
    Q_OBJECT

public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

/// Of every row.
int overviewHeight(const QFont& font);

/// Where the courses lie in their column.
QRectF courseArea(const QRectF& column);

} // namespace trends
