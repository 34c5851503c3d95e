#include "app/widgets/meaning.h"

#include "app/widgets/verdict_mark.h"
#include "core/telling/outcome_words.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>

namespace widgets
{

namespace
{

constexpr int meaningMark = 12;

struct MeaningWords {
    Q_DECLARE_TR_FUNCTIONS(widgets::Meaning)

public:
    static QString byChance() { return tr("could be chance"); }
};

QFont fontOf(QFont font, const Meaning& meaning)
{
    font.setWeight(meaning.isQuiet ? QFont::Normal : QFont::DemiBold);
    return font;
}

} // namespace

Meaning meaningOf(const judging::Outcome& outcome, const judging::Change& change,
                  const base::Phrasebook& phrases)
{
    Meaning meaning{markOf(outcome.kind), telling::outcomeWords(outcome, change, phrases), {}, false};
    const bool mayBeChance = outcome.claim && !outcome.isSure;
    meaning.isQuiet = !meaning.mark || mayBeChance;
    if (mayBeChance)
        meaning.quiet = MeaningWords::byChance();
    const judging::Comparison* deciding = judging::decidingOf(change);
    if (!meaning.mark && deciding != nullptr)
        meaning.mark = deciding->verdict;
    return meaning;
}

void drawMeaning(QPainter& painter, QRectF box, const Meaning& meaning, const QFont& font,
                 const Colours& colours)
{
    const bool isMirrored = painter.layoutDirection() == Qt::RightToLeft;
    const auto leave = [&](double width) {
        box = isMirrored ? box.adjusted(0, 0, -width, 0) : box.adjusted(width, 0, 0, 0);
    };
    if (meaning.mark) {
        const double left = isMirrored ? box.right() - meaningMark : box.left();
        drawVerdict(painter, {left, box.center().y() - meaningMark / 2.0, meaningMark, meaningMark},
                    *meaning.mark, colours);
    }
    leave(meaningMark + space2);
    painter.setFont(fontOf(font, meaning));
    painter.setPen(meaning.isQuiet ? colours.quiet : colours.text);
    painter.drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter), meaning.words);
    leave(QFontMetricsF(painter.font()).horizontalAdvance(meaning.words) + space2);
    painter.setFont(captionFont());
    painter.setPen(colours.quiet);
    painter.drawText(box, int(Qt::AlignLeft | Qt::AlignVCenter), meaning.quiet);
}

int meaningWidth(const QFont& font, const Meaning& meaning)
{
    const double words = QFontMetricsF(fontOf(font, meaning)).horizontalAdvance(meaning.words) +
                         QFontMetricsF(captionFont()).horizontalAdvance(meaning.quiet);
    return int(words) + meaningMark + 2 * space2 + 2 * space3;
}

} // namespace widgets
