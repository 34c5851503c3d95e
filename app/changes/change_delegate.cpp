#include "app/changes/change_delegate.h"

#include "app/changes/change_model.h"
#include "app/widgets/meaning.h"
#include "app/widgets/theme.h"
#include "app/widgets/verdict_mark.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QPainter>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

constexpr int courseWidth = 132;
constexpr int wordsWidth = 120;  ///< of a value that is no number, elided beyond
constexpr int judgedWidth = 150; ///< of what judged, elided beyond

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

/// What is quiet: unchanged, or by nothing but chance.
bool isQuiet(const Row& row)
{
    const Group group = groupOf(row.outcome.kind);
    return group == Group::AsBefore || group == Group::NotCompared ||
           (row.outcome.claim && !row.outcome.isSure);
}

widgets::Meaning meaningOf(const Row& row)
{
    return {row.mark, row.verdict, row.quiet, isQuiet(row)};
}

QFont strong(QFont font)
{
    font.setWeight(QFont::DemiBold);
    return font;
}

QColor colourOfNewest(const Row& row, const widgets::Colours& colours)
{
    return row.mark && !isQuiet(row) ? widgets::colourOf(*row.mark, colours) : colours.unsure;
}

bool holdsNumbers(int column)
{
    return column == ChangeModel::Reference || column == ChangeModel::Previous ||
           column == ChangeModel::Now || column == ChangeModel::Difference;
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
    if (row == nullptr && modelOf(index).line(index.row())->kind == Line::Kind::Title) {
        painter->fillRect(item.rect, colours.ground);
        painter->setFont(widgets::captionFont());
        painter->setPen(colours.quiet);
        painter->drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter), words);
        painter->restore();
        return;
    }
    item.text.clear();
    item.widget->style()->drawControl(QStyle::CE_ItemViewItem, &item, painter, item.widget);
    if (row == nullptr) {
        const bool isOpen = modelOf(index).line(index.row())->isOpen;
        painter->setPen(colours.quiet);
        painter->drawText(
            box, int(Qt::AlignLeft | Qt::AlignVCenter),
            QFontMetricsF(painter->font())
                .elidedText((isOpen ? u"▾  "_s : u"▸  "_s) + words, Qt::ElideRight, box.width()));
    } else if (index.column() == ChangeModel::Course) {
        charts::drawCourses(
            *painter,
            {{row->course, row->target, records::Side::None, colours.text, colourOfNewest(*row, colours), 0}},
            modelOf(index).time(), box, colours);
    } else if (holdsNumbers(index.column()) && isNumber(words)) {
        painter->setFont(index.column() == ChangeModel::Now ? strong(widgets::figureFont())
                                                            : widgets::figureFont());
        paintNumber(*painter, box, words, colours);
    } else if (index.column() == ChangeModel::Verdict) {
        widgets::drawMeaning(*painter, box, meaningOf(*row), item.font, colours);
    } else {
        const bool isSmall = index.column() == ChangeModel::JudgedBy || index.column() == ChangeModel::Side;
        painter->setFont(isSmall ? widgets::captionFont() : item.font);
        painter->setPen(isSmall ? colours.quiet : colours.text);
        painter->drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter),
                          QFontMetricsF(painter->font()).elidedText(words, Qt::ElideRight, box.width()));
    }
    painter->restore();
}

QSize ChangeDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    QSize size = QStyledItemDelegate::sizeHint(option, index) + QSize(widgets::space2, 0);
    if (modelOf(index).isWide(index.row()))
        return {0, widgets::rowHeight()};
    if (index.column() == ChangeModel::Course)
        size.setWidth(courseWidth);
    const Row* row = modelOf(index).row(index.row());
    if (index.column() == ChangeModel::Verdict && row != nullptr)
        size.setWidth(widgets::meaningWidth(option.font, meaningOf(*row)));
    if (index.column() == ChangeModel::JudgedBy)
        size.setWidth(std::min(size.width(), judgedWidth));
    const QString words = index.data().toString();
    if (holdsNumbers(index.column()) && isNumber(words)) {
        const Places room = places(QFontMetricsF(widgets::figureFont()));
        const double unit = QFontMetricsF(widgets::captionFont()).horizontalAdvance(parts(words).unit);
        size.setWidth(int(room.whole + room.fraction + unit) + 2 * widgets::space3);
    } else if (holdsNumbers(index.column())) {
        size.setWidth(std::min(size.width(), wordsWidth));
    }
    size.setHeight(std::max(size.height(), widgets::rowHeight()));
    return size;
}

} // namespace changes
