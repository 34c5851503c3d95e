#pragma once

#include <QStyledItemDelegate>

namespace changes
{

/// Paints numbers aligned on the decimal with their unit in quiet text, the course as a small line, the
/// verdict with its mark, and titles and folds over all columns.
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
