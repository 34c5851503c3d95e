#include "app/changes/certainty_section.h"

#include "app/changes/html.h"
#include "core/base/text.h"

#include "core/telling/course_words.h"

#include <QCoreApplication>

namespace changes
{

QString certaintySection(const Row& row, const catalogue::Catalogue& catalogue,
                         const records::Judging& judging, const base::Phrasebook& phrases)
{
    if (!row.comparison)
        return {};
    const judging::Comparison& held = *row.comparison;
    QStringList lines{telling::weightWords(held, catalogue, phrases),
                      base::capitalised(telling::strengthWords(held, row.change, catalogue, phrases))};
    lines.removeAll(QString());
    if (held.raised)
        lines << telling::raisedWords(*held.raised, judging, phrases);
    else if (judging::isBeyondError(held.verdict))
        lines << QCoreApplication::translate(
            "changes::Detail", "How often this limit flags people who have not changed is not known.");
    const auto& trend = row.change.course.trend;
    if (trend && trend->raised && trend->direction != judging::directionOf(held.verdict))
        lines << telling::raisedWords(*trend->raised, judging, phrases);
    if (trend && trend->reversal && trend->reversal->raised && trend->reversal->direction != trend->direction)
        lines << telling::raisedWords(*trend->reversal->raised, judging, phrases);
    if (row.outcome.claim && !row.outcome.isSure)
        lines << QCoreApplication::translate(
            "changes::Detail", "Could be chance: it does not stay while the expected share of false flags "
                               "among the tests of this visit is held at 5 % (Benjamini and Hochberg 1995).");
    return section(QCoreApplication::translate("changes::Detail", "How sure"), list(escaped(lines)));
}

} // namespace changes
