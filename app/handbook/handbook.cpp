#include "app/handbook/handbook.h"

#include "app/session/messages.h"
#include "core/catalogue/texts.h"
#include "core/records/wording.h"
#include "core/telling/terms.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace handbook
{

namespace
{

using catalogue::Catalogue;
using catalogue::Computing;
using catalogue::ConditionRule;
using catalogue::Kind;
using catalogue::Measure;
using catalogue::Strictness;
using catalogue::TrialRule;

struct HandbookWords {
    Q_DECLARE_TR_FUNCTIONS(handbook::Handbook)
};

QString titleOf(const QString& id, const Catalogue& catalogue)
{
    const Measure* measure = catalogue.measure(id);
    return measure != nullptr ? measure->title : id;
}

QString placeOf(const Measure& measure, const Catalogue& catalogue)
{
    QStringList parts;
    if (!measure.shortForm.isEmpty())
        parts += measure.shortForm;
    if (const catalogue::Section* section = catalogue.section(measure.section))
        parts += section->title;
    if (measure.isOwn)
        parts += HandbookWords::tr("the clinic's own");
    if (measure.retired)
        parts += HandbookWords::tr("retired: kept for earlier results");
    return parts.join(u" · "_s);
}

QString optionsWords(const Measure& measure)
{
    QStringList words;
    for (const catalogue::Option& option : measure.options)
        words += measure.kind == Kind::Grade ? HandbookWords::tr("%1 %2").arg(option.key, option.title)
                                             : option.title;
    return session::joined("%1; %2", words);
}

QStringList resultWords(const Measure& measure, const base::Phrasebook& phrases)
{
    QStringList lines;
    if (measure.lowest && measure.highest && measure.step) {
        const QString lowest = records::written(*measure.lowest, measure);
        const QString highest = telling::amount(*measure.highest, measure, phrases);
        lines += measure.kind == Kind::Grade
                     ? HandbookWords::tr("A grade from %1 to %2.").arg(lowest, highest)
                     : HandbookWords::tr("From %1 to %2, in steps of %3.")
                           .arg(lowest, highest, records::written(*measure.step, measure));
    }
    if (!measure.options.empty())
        lines += HandbookWords::tr("%1.").arg(optionsWords(measure));
    const QString better = records::directionWords(measure, phrases);
    lines += better.isEmpty() ? HandbookWords::tr("Neither direction is better.")
                              : telling::sentence(better, phrases);
    lines += measure.hasSides ? HandbookWords::tr("Recorded right and left.")
                              : HandbookWords::tr("Recorded once, without a side.");
    if (measure.isTapped)
        lines += HandbookWords::tr("Counted by tapping along; the moment of each tap is kept.");
    return lines;
}

QString trialWords(const Measure& measure)
{
    if (measure.computed)
        return {};
    switch (measure.rule) {
    case TrialRule::Mean:
        return HandbookWords::tr("%1; their mean counts.").arg(measure.trials);
    case TrialRule::Best:
        return HandbookWords::tr("%1; the best counts.").arg(measure.trials);
    case TrialRule::Single:
        break;
    }
    return HandbookWords::tr("One.");
}

QString capWords(const Measure& measure, const base::Phrasebook& phrases)
{
    return measure.cap
               ? HandbookWords::tr("A trial is stopped at %1; that it was reached is recorded on its own.")
                     .arg(telling::amount(*measure.cap, measure, phrases))
               : QString();
}

QString computingWords(const Measure& measure, const Catalogue& catalogue)
{
    QStringList titles;
    for (const QString& part : measure.computed->parts)
        titles += HandbookWords::tr("“%1”").arg(titleOf(part, catalogue));
    const QString all = session::joined("%1, %2", titles);
    switch (measure.computed->rule) {
    case Computing::Speed:
        return HandbookWords::tr("The timed distance over the time of %1.").arg(all);
    case Computing::Cadence:
        return HandbookWords::tr("Steps over time: %1.").arg(all);
    case Computing::StepLength:
        return HandbookWords::tr("The timed distance over the steps of %1.").arg(all);
    case Computing::SumOfItems:
        return HandbookWords::tr("The sum of %1; where one has sides, the mean of right and left counts.")
            .arg(all);
    case Computing::ShortBattery:
        return HandbookWords::tr("Standing, walking and rising, each scored 0 to 4 and added: %1.").arg(all);
    case Computing::DualTaskCost:
        return HandbookWords::tr("By how many percent the second lies above the first: %1.").arg(all);
    }
    return {};
}

QStringList computedLines(const Measure& measure, const Catalogue& catalogue)
{
    if (!measure.computed)
        return {};
    return {computingWords(measure, catalogue),
            HandbookWords::tr("It is not entered. Where a part is missing, the result is missing.")};
}

QString signsOf(const Measure& measure)
{
    QStringList signs;
    for (const catalogue::Option& sign : measure.watchFor)
        signs += sign.title;
    return session::joined("%1, %2", signs);
}

QStringList related(const Measure& measure, const Catalogue& catalogue)
{
    QStringList ids;
    if (measure.computed)
        ids += measure.computed->parts;
    if (!measure.partOf.isEmpty())
        ids += measure.partOf;
    for (const Measure& other : catalogue.measures) {
        if (other.computed && other.computed->parts.contains(measure.id))
            ids += other.id;
    }
    ids.removeDuplicates();
    return ids;
}

QString strictnessWords(Strictness strictness)
{
    switch (strictness) {
    case Strictness::Hard:
        return HandbookWords::tr("Must be recorded at both visits and be the same: %1.");
    case Strictness::IfRecorded:
        return HandbookWords::tr("Where both are recorded, must be the same; not recorded is a caution: %1.");
    case Strictness::IfEither:
        return HandbookWords::tr(
            "Where both are recorded, must be the same; recorded once is a caution: %1.");
    case Strictness::Soft:
        break;
    }
    return HandbookWords::tr("A difference is a caution: %1.");
}

QString strictnessWordsFor(Strictness strictness)
{
    switch (strictness) {
    case Strictness::Hard:
        return HandbookWords::tr(
            "In %1 only, must be recorded at both visits and be the same: %2. In others a "
            "difference is a caution.");
    case Strictness::IfRecorded:
    case Strictness::IfEither:
        return HandbookWords::tr(
            "In %1 only, must be the same where both are recorded: %2. In others a difference "
            "is a caution.");
    case Strictness::Soft:
        break;
    }
    return HandbookWords::tr("In %1, a difference is a caution: %2.");
}

/// The titles of the conditions held so strictly for these people, as they stand in a sentence.
QStringList conditionsHeld(const Measure& measure, Strictness strictness, const QString& onlyFor,
                           const Catalogue& catalogue)
{
    QStringList titles;
    for (const ConditionRule& rule : measure.conditions) {
        const catalogue::Condition* condition = catalogue.condition(rule.condition);
        if (rule.strictness == strictness && rule.onlyFor == onlyFor)
            titles += condition != nullptr ? catalogue::withinSentence(*condition) : rule.condition;
    }
    return titles;
}

QStringList populationsOf(const Measure& measure)
{
    QStringList ids;
    for (const ConditionRule& rule : measure.conditions) {
        if (!rule.onlyFor.isEmpty() && !ids.contains(rule.onlyFor))
            ids += rule.onlyFor;
    }
    return ids;
}

QStringList notEmpty(const QStringList& lines)
{
    QStringList kept = lines;
    kept.removeAll(QString());
    return kept;
}

QString sentence(const QString& words)
{
    return words.isEmpty() || words.endsWith(u'.') ? words : HandbookWords::tr("%1.").arg(words);
}

} // namespace

QStringList matchingWords(const Measure& measure, const Catalogue& catalogue)
{
    QStringList lines;
    const QStringList populations = populationsOf(measure);
    for (const Strictness strictness :
         {Strictness::Hard, Strictness::IfRecorded, Strictness::IfEither, Strictness::Soft}) {
        const QStringList titles = conditionsHeld(measure, strictness, {}, catalogue);
        if (!titles.isEmpty())
            lines += strictnessWords(strictness).arg(session::joined("%1, %2", titles));
        for (const QString& population : populations) {
            const QStringList theirs = conditionsHeld(measure, strictness, population, catalogue);
            if (!theirs.isEmpty())
                lines += strictnessWordsFor(strictness)
                             .arg(telling::populationWords(population, catalogue),
                                  session::joined("%1, %2", theirs));
        }
    }
    return lines;
}

Handbook handbook(const Measure& measure, const Catalogue& catalogue, const base::Phrasebook& phrases)
{
    Handbook page{
        measure.title, placeOf(measure, catalogue), measure.caution, {}, related(measure, catalogue)};
    const auto add = [&page](const QString& heading, const QStringList& lines) {
        const QStringList said = notEmpty(lines);
        if (!said.isEmpty())
            page.parts.push_back({heading, said});
    };
    add(HandbookWords::tr("What for"), {measure.purpose});
    add(HandbookWords::tr("How"), {measure.how});
    add(HandbookWords::tr("Position"), {sentence(measure.position)});
    add(HandbookWords::tr("Equipment"), {sentence(measure.equipment)});
    add(HandbookWords::tr("Worked out"), computedLines(measure, catalogue));
    add(HandbookWords::tr("Trials"), {trialWords(measure)});
    add(HandbookWords::tr("Cap"), {capWords(measure, phrases)});
    add(HandbookWords::tr("Result"), resultWords(measure, phrases));
    add(HandbookWords::tr("Agreement of examiners"), {measure.agreement});
    add(HandbookWords::tr("Watch for"), {sentence(signsOf(measure))});
    add(HandbookWords::tr("Unable means"), {sentence(measure.unableMeans)});
    const QStringList matching = matchingWords(measure, catalogue);
    add(HandbookWords::tr("To compare"),
        matching.isEmpty() ? QStringList{HandbookWords::tr("No condition is asked for.")} : matching);
    if (measure.hasLicensedWording)
        add(HandbookWords::tr("Wording"),
            {HandbookWords::tr("The wording of this scale belongs to its owners. Aplomb keeps "
                               "its title, range and total; use it under its licence.")});
    return page;
}

} // namespace handbook
