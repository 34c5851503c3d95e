#pragma once

#include <QStyledItemDelegate>

namespace changes
{

/// Paints the change strip, numbers aligned on the decimal with their unit in quiet text, and section titles.
class ChangeDelegate : public QStyledItemDelegate
{
    Q_OBJECT

public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

} // namespace changes
