#include "app/own/own_error_words.h"

#include "app/session/messages.h"
#include "core/base/rounding.h"
#include "core/records/patient.h"
#include "core/records/reading.h"
#include "core/records/wording.h"
#include "core/values/unit.h"

#include <QCoreApplication>

#include <cmath>

using namespace Qt::StringLiterals;

namespace own
{

namespace
{

using statistics::ErrorStudy;
using statistics::Estimate;

struct OwnErrorWords {
    Q_DECLARE_TR_FUNCTIONS(own::OwnErrorWords)
};

QString fixed(double number, int decimals)
{
    QString written = base::fixed(number, decimals);
    if (written.startsWith(u'-'))
        written.replace(0, 1, QChar(0x2212));
    return written;
}

QString range(const QString& low, const QString& high)
{
    return OwnErrorWords::tr("%1 to %2").arg(low, high);
}

QString interval(const Estimate& estimate, const QString& low, const QString& high)
{
    return estimate.hasInterval() ? range(low, high) : OwnErrorWords::tr("not defined");
}

StudyRow coefficientRow(const QString& name, const Estimate& estimate, const QString& meaning)
{
    return {name, fixed(estimate.value, 3),
            interval(estimate, fixed(estimate.low, 3), fixed(estimate.high, 3)), meaning};
}

StudyRow row(const QString& name, const Estimate& estimate, const OwnError& error, const QString& meaning)
{
    return {name, numberWords(estimate.value, error),
            interval(estimate, numberWords(estimate.low, error), numberWords(estimate.high, error)), meaning};
}

void addAgreement(std::vector<StudyRow>& rows, const OwnError& error)
{
    const ErrorStudy& study = *error.study;
    if (!study.bias)
        return;
    rows.push_back(row(inUnit(OwnErrorWords::tr("Bias"), error), *study.bias, error,
                       OwnErrorWords::tr("mean of first less second")));
    rows.push_back(row(inUnit(OwnErrorWords::tr("Lower limit of agreement"), error), *study.lowerLimit, error,
                       OwnErrorWords::tr("bias − 1.96 SD")));
    rows.push_back(row(inUnit(OwnErrorWords::tr("Upper limit of agreement"), error), *study.upperLimit, error,
                       OwnErrorWords::tr("bias + 1.96 SD")));
}

/// A change beyond the MDC of logarithms is one by this factor.
QString ratioSentence(const ErrorStudy& study)
{
    return OwnErrorWords::tr(
               "On the log scale the MDC is a ratio: at 95 % a change is beyond error when one result is "
               "more than %1 times the other (interval %2 to %3).")
        .arg(fixed(std::exp(study.mdc95.value), 3), fixed(std::exp(study.mdc95.low), 3),
             fixed(std::exp(study.mdc95.high), 3));
}

QString growthSentence(const OwnError& error)
{
    const QString found = OwnErrorWords::tr("Rank correlation of each person's spread with the level: %1.")
                              .arg(fixed(error.study->growth, 2));
    if (error.isLog)
        return found;
    QString what = OwnErrorWords::tr("No sign that the error grows with the level.");
    if (error.grows && error.mayLog)
        what = OwnErrorWords::tr("The error grows with the level: the log scale suits these results better.");
    else if (error.grows)
        what = OwnErrorWords::tr("The error grows with the level, but the log scale needs values above 0.");
    return session::joined("%1 %2", {found, what});
}

} // namespace

QString numberWords(double number, const OwnError& error)
{
    if (error.isLog)
        return fixed(number, 3);
    const qsizetype point = records::written(0, error.measure).indexOf(u'.');
    const int recorded = point < 0 ? 0 : int(records::written(0, error.measure).size() - point - 1);
    return fixed(number, recorded + 2);
}

QString estimateWords(const Estimate& estimate, const OwnError& error)
{
    return OwnErrorWords::tr("%1 (%2 to %3)")
        .arg(numberWords(estimate.value, error), numberWords(estimate.low, error),
             numberWords(estimate.high, error));
}

QString coefficientWords(const Estimate& estimate)
{
    return estimate.hasInterval()
               ? OwnErrorWords::tr("%1 (%2 to %3)")
                     .arg(fixed(estimate.value, 3), fixed(estimate.low, 3), fixed(estimate.high, 3))
               : OwnErrorWords::tr("%1 (interval not defined)").arg(fixed(estimate.value, 3));
}

QString inUnit(const QString& name, const OwnError& error)
{
    const QString unit = values::unitWords(error.measure.unit, session::screenPhrases());
    if (error.isLog)
        return unit.isEmpty() ? OwnErrorWords::tr("%1 (natural logarithm)").arg(name)
                              : OwnErrorWords::tr("%1 (natural logarithm of %2)").arg(name, unit);
    return unit.isEmpty() ? name : OwnErrorWords::tr("%1 (%2)", "name, its unit").arg(name, unit);
}

std::vector<StudyRow> studyRows(const OwnError& error)
{
    if (!error.study)
        return {};
    const ErrorStudy& study = *error.study;
    std::vector<StudyRow> rows = {
        {OwnErrorWords::tr("People"), QString::number(study.subjects), {}, OwnErrorWords::tr("each once")},
        {OwnErrorWords::tr("Trials of each"), QString::number(study.trials), {}, {}},
        {OwnErrorWords::tr("Left out"),
         QString::number(error.results.leftOut),
         {},
         OwnErrorWords::tr("incomplete or not usable")},
        coefficientRow(u"ICC(1,1)"_s, study.icc11, OwnErrorWords::tr("one-way")),
        coefficientRow(u"ICC(2,1)"_s, study.icc21, OwnErrorWords::tr("two-way, agreement")),
        coefficientRow(u"ICC(3,1)"_s, study.icc31, OwnErrorWords::tr("two-way, consistency")),
        row(inUnit(OwnErrorWords::tr("SEM"), error), study.sem, error,
            OwnErrorWords::tr("√ of the error mean square")),
        row(inUnit(OwnErrorWords::tr("MDC90"), error), study.mdc90, error,
            OwnErrorWords::tr("1.645 · √2 · SEM")),
        row(inUnit(OwnErrorWords::tr("MDC95"), error), study.mdc95, error,
            OwnErrorWords::tr("1.96 · √2 · SEM"))};
    addAgreement(rows, error);
    for (size_t trial = 0; trial < study.practice.size(); ++trial)
        rows.push_back({inUnit(OwnErrorWords::tr("Mean of trial %1").arg(trial + 1), error),
                        numberWords(study.practice[trial], error),
                        {},
                        trial == 0 ? OwnErrorWords::tr("a rise or fall is practice or fatigue") : QString()});
    return rows;
}

QStringList studyRemarks(const OwnError& error)
{
    if (!error.study)
        return {};
    QStringList lines = {growthSentence(error)};
    if (error.isLog)
        lines += ratioSentence(*error.study);
    if (!isInRange(error))
        lines +=
            OwnErrorWords::tr("The results hold values this test cannot have (%1), so they may be of another "
                              "test or unit and make no threshold.")
                .arg(records::allowedWords(error.measure).in(session::screenPhrases()));
    if (error.source == StudySource::MarkedVisits && error.population.id.isEmpty())
        lines +=
            OwnErrorWords::tr("These are people of every population together: choose one for a threshold.");
    if (error.source == StudySource::Trials)
        lines += OwnErrorWords::tr("Within-session repeats hold no change from one day to the next, so they "
                                   "make no threshold between "
                                   "visits.");
    if (error.study->subjects < statistics::fewestSubjects)
        lines += OwnErrorWords::tr("Fewer than %n person(s): it may not yet stand in for a published row.",
                                   nullptr, statistics::fewestSubjects);
    return lines;
}

QString whyNone(const OwnError& error)
{
    if (error.study)
        return {};
    if (error.results.repeats.size() < 2)
        return error.source == StudySource::MarkedVisits
                   ? OwnErrorWords::tr(
                         "Fewer than two people have a visit marked as “No change expected” since the "
                         "last visit, on an earlier day and with this result at both. The mark is one of the "
                         "visit's conditions.")
               : error.source == StudySource::Trials
                   ? OwnErrorWords::tr(
                         "Fewer than two people have two or more trials of this test in one signed "
                         "visit.")
                   : OwnErrorWords::tr("The file holds fewer than two people with every trial.");
    return OwnErrorWords::tr(
        "An error study needs two or more trials of each person, and values that differ.");
}

QString sourceLine(const OwnError& error)
{
    QStringList parts;
    switch (error.source) {
    case StudySource::Trials:
        parts += OwnErrorWords::tr("Within-session repeats: trials of one visit");
        break;
    case StudySource::MarkedVisits:
        parts += OwnErrorWords::tr("Visits marked “No change expected”");
        break;
    case StudySource::File:
        parts += OwnErrorWords::tr("File %1").arg(error.file);
        break;
    }
    if (error.source != StudySource::File)
        parts += error.population.id.isEmpty() ? OwnErrorWords::tr("people of every population")
                                               : error.population.title;
    if (error.side != records::Side::None)
        parts += error.side == records::Side::Right ? OwnErrorWords::tr("right side")
                                                    : OwnErrorWords::tr("left side");
    if (error.results.from.isValid() && error.results.from == error.results.to)
        parts += session::dayInWords(error.results.to);
    else if (error.results.from.isValid())
        parts += range(session::dayInWords(error.results.from), session::dayInWords(error.results.to));
    if (error.source == StudySource::MarkedVisits && error.study)
        parts += OwnErrorWords::tr("%1 to %n day(s) apart", nullptr, error.results.mostDays)
                     .arg(error.results.fewestDays);
    return session::joined("%1, %2", parts);
}

} // namespace own
