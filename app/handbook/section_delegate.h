#pragma once

#include <QStyledItemDelegate>

namespace handbook
{

/// Draws the rows that cannot be chosen as headings.
class SectionDelegate : public QStyledItemDelegate
{
    Q_OBJECT

public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

} // namespace handbook
