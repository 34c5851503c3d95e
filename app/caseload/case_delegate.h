#pragma once

#include <QStyledItemDelegate>

namespace caseload
{

/// Paints the strongest change with its mark, and what needs someone soon in strong type.
class CaseDelegate : public QStyledItemDelegate
{
    Q_OBJECT

public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

} // namespace caseload
