#include "app/changes/change_delegate.h"

#include "app/changes/change_model.h"
#include "app/widgets/theme.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QPainter>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

constexpr int stripWidth = 150;
constexpr int wordsWidth = 150; ///< of a value that is no number, elided beyond

/// "12.50 s" as what stands before the decimal point, from it on, and the rest.
struct Parts {
    QString whole;
    QString fraction;
    QString unit;
};

bool isNumber(const QString& words)
{
    const QString number = words.section(u' ', 0, 0).remove(u'+').remove(u'−');
    bool isOne = false;
    number.toDouble(&isOne);
    return isOne;
}

Parts parts(const QString& words)
{
    const QString number = words.section(u' ', 0, 0);
    const qsizetype point = number.indexOf(u'.');
    return {number.left(point), point < 0 ? QString() : number.mid(point), words.section(u' ', 1)};
}

/// Room before the decimal point, and after it up to the unit.
struct Places {
    double whole = 0;
    double fraction = 0;
};

Places places(const QFontMetricsF& metrics)
{
    return {metrics.horizontalAdvance(u"−000"_s), metrics.horizontalAdvance(u".00 "_s)};
}

void paintNumber(QPainter& painter, const QRectF& box, const QString& words, const widgets::Colours& colours)
{
    const Parts number = parts(words);
    const Places room = places(QFontMetricsF(painter.font()));
    const QRectF whole(box.left(), box.top(), room.whole, box.height());
    painter.setLayoutDirection(Qt::LeftToRight); // a number reads so in every language
    painter.setPen(colours.text);
    painter.drawText(whole, int(Qt::AlignRight | Qt::AlignVCenter), number.whole);
    painter.drawText(QRectF(whole.right(), box.top(), room.fraction, box.height()),
                     int(Qt::AlignLeft | Qt::AlignVCenter), number.fraction);
    painter.setFont(widgets::captionFont());
    painter.setPen(colours.quiet);
    painter.drawText(box.adjusted(room.whole + room.fraction, 0, 0, 0), int(Qt::AlignLeft | Qt::AlignVCenter),
                     number.unit);
}

/// The verdict, and what qualifies it in quiet text.
void paintMeaning(QPainter& painter, const QRectF& box, const Row& row, const widgets::Colours& colours)
{
    const Meaning meaning = shortMeaning(row);
    painter.setPen(row.isHeldBack ? colours.quiet : colours.text);
    painter.drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter), meaning.verdict);
    const double used = QFontMetricsF(painter.font()).horizontalAdvance(meaning.verdict);
    painter.setFont(widgets::captionFont());
    painter.setPen(colours.quiet);
    const double behind = used + widgets::space2;
    const QRectF rest = painter.layoutDirection() == Qt::RightToLeft ? box.adjusted(0, 0, -behind, 0)
                                                                     : box.adjusted(behind, 0, 0, 0);
    painter.drawText(rest, int(Qt::AlignLeft | Qt::AlignVCenter), meaning.quiet);
}

/// Room for both.
int meaningWidth(const QFont& font, const Row& row)
{
    const Meaning meaning = shortMeaning(row);
    return int(QFontMetricsF(font).horizontalAdvance(meaning.verdict) +
               QFontMetricsF(widgets::captionFont()).horizontalAdvance(meaning.quiet)) +
           widgets::space2 + 2 * widgets::space3;
}

bool holdsNumbers(int column)
{
    return column == ChangeModel::Reference || column == ChangeModel::Now ||
           column == ChangeModel::Difference;
}

const ChangeModel& modelOf(const QModelIndex& index)
{
    return *qobject_cast<const ChangeModel*>(index.model());
}

} // namespace

void ChangeDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                           const QModelIndex& index) const
{
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const widgets::Colours& colours = widgets::coloursFor(item.palette);
    const QString words = item.text;
    const QRectF box = QRectF(item.rect).adjusted(widgets::space2, 0, -widgets::space2, 0);
    const Row* row = modelOf(index).row(index.row());
    painter->save();
    if (row == nullptr) {
        painter->fillRect(item.rect, colours.ground);
        painter->setFont(widgets::captionFont());
        painter->setPen(colours.quiet);
        painter->drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter), words);
        painter->restore();
        return;
    }
    item.text.clear();
    item.widget->style()->drawControl(QStyle::CE_ItemViewItem, &item, painter, item.widget);
    if (index.column() == ChangeModel::StripColumn) {
        drawStrip(*painter, row->strip, box.adjusted(widgets::space2, 0, -widgets::space2, 0), colours);
    } else if (holdsNumbers(index.column()) && isNumber(words)) {
        painter->setFont(widgets::figureFont());
        paintNumber(*painter, box, words, colours);
    } else if (index.column() == ChangeModel::Verdict && !qualified(*row).isEmpty()) {
        painter->setFont(item.font);
        paintMeaning(*painter, box, *row, colours);
    } else {
        const bool isQuiet =
            index.column() == ChangeModel::Day || index.column() == ChangeModel::Side ||
            (index.column() == ChangeModel::Verdict && (row->isUnjudged || !row->comparison));
        painter->setFont(isQuiet ? widgets::captionFont() : item.font);
        painter->setPen(isQuiet ? colours.quiet : colours.text);
        painter->drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter),
                          QFontMetricsF(painter->font()).elidedText(words, Qt::ElideRight, box.width()));
    }
    painter->restore();
}

QSize ChangeDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    QSize size = QStyledItemDelegate::sizeHint(option, index) + QSize(widgets::space2, 0);
    if (modelOf(index).isSection(index.row()))
        return {0, widgets::rowHeight};
    if (index.column() == ChangeModel::StripColumn)
        size.setWidth(stripWidth);
    const Row* row = modelOf(index).row(index.row());
    if (index.column() == ChangeModel::Verdict && row != nullptr && !qualified(*row).isEmpty())
        size.setWidth(meaningWidth(option.font, *row));
    const QString words = index.data().toString();
    if (holdsNumbers(index.column()) && isNumber(words)) {
        const Places room = places(QFontMetricsF(widgets::figureFont()));
        const double unit = QFontMetricsF(widgets::captionFont()).horizontalAdvance(parts(words).unit);
        size.setWidth(int(room.whole + room.fraction + unit) + 2 * widgets::space3);
    } else if (holdsNumbers(index.column())) {
        size.setWidth(std::min(size.width(), wordsWidth));
    }
    size.setHeight(std::max(size.height(), widgets::rowHeight));
    return size;
}

} // namespace changes
