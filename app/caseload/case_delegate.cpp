#include "app/caseload/case_delegate.h"

#include "app/caseload/case_table.h"
#include "app/widgets/theme.h"
#include "app/widgets/verdict_mark.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QPainter>

namespace caseload
{

namespace
{

constexpr int markWidth = 12;

/// Of a cell, elided beyond.
int widest(int column)
{
    switch (column) {
    case CaseTable::Number:
        return 110;
    case CaseTable::Name:
        return 190;
    case CaseTable::Population:
        return 160;
    case CaseTable::LastVisit:
        return 170;
    case CaseTable::Strongest:
        return 480;
    default:
        return 140;
    }
}

std::optional<judging::Verdict> markOf(const Entry& entry)
{
    return entry.of.summary && entry.of.summary->strongest
               ? widgets::markOf(entry.of.summary->strongest->kind)
               : std::nullopt;
}

bool isStrong(const Entry& entry, int column)
{
    if (column != CaseTable::Strongest)
        return column == CaseTable::Name;
    return entry.isWorseForSure || (entry.of.summary && entry.of.summary->isUnable);
}

const Entry& entryOf(const QModelIndex& index)
{
    return qobject_cast<const CaseTable*>(index.model())->entry(index.row());
}

} // namespace

void CaseDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const
{
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const widgets::Colours& colours = widgets::coloursFor(item.palette);
    const QString words = std::exchange(item.text, {});
    painter->save();
    item.widget->style()->drawControl(QStyle::CE_ItemViewItem, &item, painter, item.widget);
    QRectF box = QRectF(item.rect).adjusted(widgets::space2, 0, -widgets::space2, 0);
    const Entry& entry = entryOf(index);
    const auto mark = index.column() == CaseTable::Strongest ? markOf(entry) : std::nullopt;
    if (mark) {
        const bool isMirrored = painter->layoutDirection() == Qt::RightToLeft;
        const double left = isMirrored ? box.right() - markWidth : box.left();
        widgets::drawVerdict(*painter, {left, box.center().y() - markWidth / 2.0, markWidth, markWidth},
                             *mark, colours);
        const int behind = markWidth + widgets::space2;
        box = isMirrored ? box.adjusted(0, 0, -behind, 0) : box.adjusted(behind, 0, 0, 0);
    }
    const bool isQuiet = index.column() == CaseTable::Number || index.column() == CaseTable::Flags ||
                         index.column() == CaseTable::Population || index.column() == CaseTable::Clinician;
    QFont font = item.font;
    if (isStrong(entry, index.column()))
        font.setWeight(QFont::DemiBold);
    painter->setFont(font);
    painter->setPen(isQuiet ? colours.quiet : colours.text);
    painter->drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter),
                      QFontMetricsF(font).elidedText(words, Qt::ElideRight, box.width()));
    painter->restore();
}

QSize CaseDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    QFont font = option.font;
    font.setWeight(QFont::DemiBold);
    const double words = QFontMetricsF(font).horizontalAdvance(index.data().toString());
    const int mark = index.column() == CaseTable::Strongest ? markWidth + widgets::space2 : 0;
    return {std::min(int(words) + mark + 3 * widgets::space2, widest(index.column())), widgets::rowHeight()};
}

} // namespace caseload
