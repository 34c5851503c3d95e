#include "app/handbook/section_delegate.h"

#include "app/widgets/theme.h"

#include <QPainter>

namespace handbook
{

void SectionDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const
{
    if (index.flags() != Qt::NoItemFlags) {
        QStyledItemDelegate::paint(painter, option, index);
        return;
    }
    const widgets::Colours& colours = widgets::coloursFor(option.palette);
    painter->save();
    painter->fillRect(option.rect, colours.ground);
    painter->setFont(widgets::captionFont());
    painter->setPen(colours.quiet);
    painter->drawText(option.rect.adjusted(widgets::space3, 0, -widgets::space3, 0),
                      Qt::AlignLeft | Qt::AlignVCenter, index.data().toString());
    painter->restore();
}

} // namespace handbook
