#include "core/telling/row_words.h"

#include "core/telling/terms.h"

#include <QStringList>

#include <algorithm>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Catalogue;
using catalogue::Threshold;

QString populationPart(const judging::Comparison& held, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const Threshold& row = held.threshold->row;
    if (row.population == held.population)
        return phrases("of the patient's population");
    return phrases("of the nearest wider group (%1)").arg(populationWords(row.population, catalogue));
}

QString daysPart(const Threshold& row, const Phrasebook& phrases)
{
    switch (row.repeats) {
    case catalogue::Repeats::BetweenDays:
        return phrases("between days");
    case catalogue::Repeats::WithinDay:
        return phrases("within a session or a day");
    case catalogue::Repeats::NotStated:
        break;
    }
    return phrases("interval not known");
}

} // namespace

QString designWords(catalogue::Design design, const Phrasebook& phrases)
{
    switch (design) {
    case catalogue::Design::TestRetest:
        break;
    case catalogue::Design::BetweenRaters:
        return phrases("between raters");
    case catalogue::Design::InternalConsistency:
        return phrases("internal consistency");
    }
    return phrases("test–retest");
}

QString basisWords(catalogue::Basis basis, const Phrasebook& phrases)
{
    switch (basis) {
    case catalogue::Basis::Stated:
        break;
    case catalogue::Basis::Inferred:
        return phrases("inferred");
    case catalogue::Basis::Assumed:
        return phrases("assumed");
    case catalogue::Basis::Empirical:
        return phrases("empirical");
    }
    return phrases("stated");
}

QString intervalWords(const Threshold& row, const Phrasebook& phrases)
{
    if (!row.interval.isEmpty())
        return row.interval;
    if (!row.daysLow || !row.daysHigh)
        return {};
    return *row.daysLow == *row.daysHigh
               ? daysWords(*row.daysLow, phrases)
               : phrases("%1 to %2").arg(QString::number(*row.daysLow), daysWords(*row.daysHigh, phrases));
}

QString trialsWords(const Threshold& row, const Phrasebook& phrases)
{
    if (!row.rule)
        return {};
    switch (*row.rule) {
    case catalogue::TrialRule::Single:
        break;
    case catalogue::TrialRule::Mean:
        return row.trials ? phrases.counted("the mean of %1 trial", "the mean of %1 trials", *row.trials)
                                .arg(*row.trials)
                          : phrases("the mean of several trials");
    case catalogue::TrialRule::Best:
        return row.trials ? phrases.counted("the best of %1 trial", "the best of %1 trials", *row.trials)
                                .arg(*row.trials)
                          : phrases("the best of several trials");
    }
    return phrases("a single trial");
}

QString choiceWords(const judging::Comparison& comparison, const Phrasebook& phrases)
{
    if (!comparison.choice || !comparison.isChosen)
        return {};
    return (comparison.isClinicChoice ? phrases("chosen for everybody of this population by %1 on %2 (“%3”)")
                                      : phrases("chosen by %1 on %2 (“%3”)"))
        .arg(comparison.choice->who, records::dayInWords(comparison.choice->chosenAt.date(), phrases),
             comparison.choice->reason);
}

QString whyThisRow(const judging::Comparison& comparison, const Catalogue& catalogue,
                   const Phrasebook& phrases)
{
    if (!comparison.threshold)
        return {};
    const Threshold& row = comparison.threshold->row;
    const QString people = row.condition ? requirementWords(*row.condition, catalogue, phrases) : QString();
    QStringList parts = {choiceWords(comparison, phrases),
                         populationPart(comparison, catalogue, phrases),
                         designWords(row.design, phrases),
                         daysPart(row, phrases),
                         row.checked == catalogue::Checked::Read ? phrases("read in the source")
                                                                 : phrases("from memory"),
                         people.isEmpty() ? QString() : phrases("for people with %1").arg(people),
                         row.n ? phrases("n %1").arg(*row.n) : phrases("number of people not given")};
    parts.removeAll(QString());
    return phrases.joined("%1, %2", parts);
}

QString whyNotUsed(const judging::NotUsed& notUsed, const Catalogue& catalogue, const Phrasebook& phrases)
{
    switch (notUsed.reason) {
    case judging::WhyNot::WiderPopulation:
        return phrases("of a wider group (%1)").arg(populationWords(notUsed.row.population, catalogue));
    case judging::WhyNot::ClinicsOwn:
        return phrases("the clinic's own, which comes after what is published unless it is chosen");
    case judging::WhyNot::OtherDesign:
        return designWords(notUsed.row.design, phrases);
    case judging::WhyNot::WithinSession:
        return daysPart(notUsed.row, phrases);
    case judging::WhyNot::FromMemory:
        return phrases("from memory");
    case judging::WhyNot::ForEverybody:
        return !notUsed.row.condition ? phrases("of everybody, not of people under the recorded condition")
                                      : phrases("of people under a condition that is not recorded here");
    case judging::WhyNot::OneHand:
        return phrases("of one hand, and which one is dominant is not recorded");
    case judging::WhyNot::SmallerLimit:
        return phrases("smaller threshold of the other hand; which one is dominant is not recorded");
    case judging::WhyNot::OtherInterval:
        return notUsed.row.daysLow ? phrases("interval less like that between the visits")
                                   : phrases("interval in days not known");
    case judging::WhyNot::FewerPeople:
        return phrases("fewer people");
    case judging::WhyNot::LaterId:
        return phrases("equal in every respect of the rule");
    case judging::WhyNot::ChosenOtherwise:
        return phrases("the rule would come to it first, but another row was chosen");
    case judging::WhyNot::NoLimit:
        break;
    }
    return phrases("gives no threshold at these values");
}

} // namespace telling
