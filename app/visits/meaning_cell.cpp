#include "app/visits/meaning_cell.h"

#include "app/session/messages.h"
#include "app/visits/side_field.h"
#include "app/widgets/verdict_mark.h"
#include "core/records/wording.h"

#include <QPainter>
#include <QStyle>

namespace visits
{

MeaningCell::MeaningCell(const QString& test, QWidget* parent) : QWidget(parent)
{
    setAccessibleName(tr("%1, the new value against error").arg(test));
    setMinimumWidth(150);
}

void MeaningCell::say(records::Side side, judging::Verdict verdict, const QString& words, const QString& why)
{
    const QString of = records::written(side, session::screenPhrases());
    m_lines[side] = {verdict, of.isEmpty() ? words : tr("%1: %2", "side: verdict").arg(of, words), why};
    describe();
}

void MeaningCell::clear(records::Side side)
{
    if (m_lines.erase(side) > 0)
        describe();
}

QString MeaningCell::words(records::Side side) const
{
    const auto found = m_lines.find(side);
    return found == m_lines.end() ? QString() : found->second.words;
}

void MeaningCell::describe()
{
    QStringList words;
    QStringList why;
    for (const auto& [side, line] : m_lines) {
        words += line.words;
        why += line.words + u'\n' + line.why;
    }
    setAccessibleDescription(session::joined("%1; %2", words));
    setToolTip(why.join(QStringLiteral("\n\n")));
    updateGeometry();
    update();
}

QSize MeaningCell::sizeHint() const
{
    const QFontMetrics metrics(widgets::captionFont());
    int width = minimumWidth();
    for (const auto& [side, line] : m_lines)
        width = std::max(width, metrics.horizontalAdvance(line.words) + metrics.height() + widgets::space2);
    return {width, int(m_lines.size()) * (metrics.height() + 3)};
}

void MeaningCell::paintEvent(QPaintEvent*)
{
    const widgets::Colours& colours = widgets::coloursFor(palette());
    QPainter painter(this);
    painter.setFont(widgets::captionFont());
    const int height = painter.fontMetrics().height() + 3;
    const int mark = painter.fontMetrics().ascent();
    const int editors = std::min(this->height(), widgets::keyHeight()); // beside it
    int y = std::max(0, (editors - int(m_lines.size()) * height) / 2);
    for (const auto& [side, line] : m_lines) {
        const QRect room(0, y, width(), height);
        const QRect square(room.left(), y + (height - mark) / 2, mark, mark);
        const auto placed = [this](const QRect& place) {
            return QStyle::visualRect(layoutDirection(), rect(), place);
        };
        widgets::drawVerdict(painter, placed(square), line.verdict, colours);
        const QRect text = placed(room.adjusted(mark + 6, 0, 0, 0));
        painter.setPen(widgets::colourOf(line.verdict, colours));
        painter.drawText(text, Qt::AlignVCenter | Qt::AlignLeft,
                         painter.fontMetrics().elidedText(line.words, Qt::ElideRight, text.width()));
        y += height;
    }
}

} // namespace visits
