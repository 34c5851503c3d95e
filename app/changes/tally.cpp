#include "app/changes/tally.h"

#include "app/changes/screen_limit.h"
#include "core/base/rounding.h"
#include "core/base/text.h"
#include "core/statistics/multiplicity.h"
#include "core/telling/course_words.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

using judging::Verdict;

constexpr double confidence = 0.95; ///< of every threshold, as applied

struct TallyWords {
    Q_DECLARE_TR_FUNCTIONS(changes::Rows)

public:
    static QString counted(Verdict verdict, qsizetype count);
    static QString ofOwnScatter(Verdict verdict, qsizetype count);
    static QString byChance(double expected, qsizetype judged);
};

QString TallyWords::counted(Verdict verdict, qsizetype count)
{
    switch (verdict) {
    case Verdict::Better:
        return tr("better beyond error: %1").arg(count);
    case Verdict::Worse:
        return tr("worse beyond error: %1").arg(count);
    case Verdict::WithinError:
        return tr("within error: %1").arg(count);
    case Verdict::NotComparable:
        return tr("not comparable: %1").arg(count);
    case Verdict::NoThreshold:
        return tr("no published threshold: %1").arg(count);
    case Verdict::BecameUnable:
        return tr("became unable: %1").arg(count);
    case Verdict::BecameAble:
        return tr("became able: %1").arg(count);
    case Verdict::StepBetter:
        return tr("better by steps: %1").arg(count);
    case Verdict::StepWorse:
        return tr("worse by steps: %1").arg(count);
    case Verdict::Changed:
        return tr("changed: %1").arg(count);
    case Verdict::Same:
        return tr("unchanged: %1").arg(count);
    }
    return {};
}

QString TallyWords::ofOwnScatter(Verdict verdict, qsizetype count)
{
    if (verdict == Verdict::Better)
        return tr("better beyond own scatter: %1").arg(count);
    return verdict == Verdict::Worse ? tr("worse beyond own scatter: %1").arg(count)
                                     : tr("within own scatter: %1").arg(count);
}

QString TallyWords::byChance(double expected, qsizetype judged)
{
    const int decimals = expected < 1 ? 2 : 1;
    return tr("If nothing had changed, measurement error alone would still flag about %1 of the %2 results "
              "judged "
              "by a threshold (5 % each).")
        .arg(base::fixed(expected, decimals))
        .arg(judged);
}

qsizetype count(const std::vector<Row>& rows, Verdict verdict, bool isOfOwnScatter = false)
{
    return std::ranges::count_if(rows, [&](const Row& each) {
        return each.comparison && each.comparison->verdict == verdict &&
               each.comparison->own.has_value() == isOfOwnScatter;
    });
}

} // namespace

QString tally(const std::vector<Row>& rows, bool isHeld)
{
    QStringList parts;
    for (const Verdict verdict :
         {Verdict::BecameUnable, Verdict::BecameAble, Verdict::Better, Verdict::Worse, Verdict::StepBetter,
          Verdict::StepWorse, Verdict::Changed, Verdict::WithinError, Verdict::Same, Verdict::NotComparable,
          Verdict::NoThreshold}) {
        const qsizetype found = count(rows, verdict);
        const bool isAlwaysSaid = judging::isBeyondError(verdict);
        if (found > 0 || isAlwaysSaid)
            parts << TallyWords::counted(verdict, found);
    }
    for (const Verdict verdict : {Verdict::Better, Verdict::Worse, Verdict::WithinError}) {
        if (const qsizetype found = count(rows, verdict, true); found > 0)
            parts << TallyWords::ofOwnScatter(verdict, found);
    }
    if (isHeld && !stayingWords(rows).isEmpty())
        parts << stayingWords(rows);
    return base::capitalised(parts.join(u"  ·  "_s));
}

QString expectedByChance(const std::vector<Row>& rows, const records::Judging& judging,
                         const base::Phrasebook& phrases)
{
    const qsizetype judged =
        count(rows, Verdict::Better) + count(rows, Verdict::Worse) + count(rows, Verdict::WithinError);
    int courses = 0;
    for (const Row& row : rows)
        courses += judging::coursesWatched(row.change);
    QStringList sentences;
    if (judged > 1)
        sentences << TallyWords::byChance(statistics::expectedFalseFlags(int(judged), confidence), judged);
    sentences << telling::familyWords(courses, judging, phrases);
    sentences.removeAll(QString());
    return phrases.joined("%1 %2", sentences);
}

} // namespace changes
