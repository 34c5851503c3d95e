#include "app/own/own_error.h"

#include "app/own/own_error_words.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace Qt::StringLiterals;

namespace own
{

namespace
{

using charts::AgreementPoints; // lupdate takes a class it cannot see for the one that speaks

struct OwnErrorTexts {
    Q_DECLARE_TR_FUNCTIONS(own::OwnError)
};

/// Four figures: as many as a published row has, and the change still fits its standard error.
double rounded(double number)
{
    return QString::number(number, 'g', 4).toDouble();
}

double meanOf(const std::vector<double>& row)
{
    return std::accumulate(row.begin(), row.end(), 0.0) / double(row.size());
}

/// The results on the scale of the study.
statistics::Repeats onScale(const OwnError& error)
{
    const auto logs = error.isLog ? statistics::logarithms(error.results.repeats) : std::nullopt;
    return logs ? *logs : error.results.repeats;
}

} // namespace

OwnError worked(OwnError error)
{
    const auto logs = statistics::logarithms(error.results.repeats);
    const auto measured = statistics::errorStudy(error.results.repeats);
    error.mayLog = logs.has_value();
    error.grows = measured && statistics::growsWithLevel(*measured);
    error.isLog = error.isLog && error.mayLog;
    error.study = error.isLog ? statistics::errorStudy(*logs) : measured;
    return error;
}

bool isInRange(const OwnError& error)
{
    const double lowest = error.measure.lowest.value_or(-HUGE_VAL);
    const double highest = error.measure.highest.value_or(HUGE_VAL);
    return std::ranges::all_of(error.results.repeats, [&](const std::vector<double>& row) {
        return std::ranges::all_of(row, [&](double value) { return value >= lowest && value <= highest; });
    });
}

bool mayStandIn(const OwnError& error)
{
    const bool areOneKind = error.source == StudySource::File || !error.population.id.isEmpty();
    return error.study && error.source != StudySource::Trials && areOneKind &&
           error.study->subjects >= statistics::fewestSubjects && isInRange(error);
}

AgreementPoints agreementPoints(const OwnError& error)
{
    AgreementPoints made;
    if (!error.study)
        return made;
    const bool isPair = error.study->trials == 2;
    for (const std::vector<double>& row : onScale(error)) {
        const double mean = meanOf(row);
        if (isPair)
            made.points.emplace_back(mean, row[0] - row[1]);
        else
            for (const double value : row)
                made.points.emplace_back(mean, value - mean);
    }
    made.meanWords = inUnit(OwnErrorTexts::tr("Mean of the person's trials"), error);
    made.differenceWords = inUnit(isPair ? OwnErrorTexts::tr("First less second")
                                         : OwnErrorTexts::tr("Each trial less the person's mean"),
                                  error);
    if (isPair) {
        made.middle = error.study->bias->value;
        made.lower = error.study->lowerLimit->value;
        made.upper = error.study->upperLimit->value;
        made.middleWords = OwnErrorTexts::tr("bias %1").arg(numberWords(made.middle, error));
        made.lowerWords = OwnErrorTexts::tr("agreement %1").arg(numberWords(*made.lower, error));
        made.upperWords = OwnErrorTexts::tr("agreement %1").arg(numberWords(*made.upper, error));
        made.spoken =
            OwnErrorTexts::tr("Bland–Altman plot of %n person(s): %1, limits of agreement %2 to %3.", nullptr,
                              error.study->subjects)
                .arg(made.middleWords, numberWords(*made.lower, error), numberWords(*made.upper, error));
    } else {
        made.middleWords = OwnErrorTexts::tr("no error");
        made.spoken =
            OwnErrorTexts::tr("Plot of %n person(s): each of %1 trials less the person's mean, against that "
                              "mean.",
                              nullptr, error.study->subjects)
                .arg(error.study->trials);
    }
    return made;
}

std::pair<catalogue::Threshold, catalogue::Source> asThreshold(const OwnError& error,
                                                               const records::Clinic& clinic, QDate today)
{
    catalogue::Threshold row;
    catalogue::Source source;
    row.isOwn = true;
    row.measure = error.measure.id;
    if (!error.study)
        return {row, source};
    row.scale = error.isLog ? catalogue::Scale::Log : catalogue::Scale::Absolute;
    row.improvement = row.decline = rounded(error.study->mdc95.value);
    row.confidence = 0.95;
    row.basis = catalogue::Basis::Stated;
    if (!error.isLog)
        row.sem = rounded(error.study->sem.value);
    row.icc = rounded(error.study->icc21.value);
    row.n = error.study->subjects;
    if (error.source == StudySource::MarkedVisits) {
        row.population = error.population.id;
        row.populationWords =
            OwnErrorTexts::tr("%1: patients of the clinic, at visits marked “No change expected”")
                .arg(error.population.title);
        row.daysLow = error.results.fewestDays;
        row.daysHigh = error.results.mostDays;
        row.repeats = catalogue::repeatsOf(row.daysHigh);
    }
    row.protocol = sourceLine(error);
    row.note = OwnErrorTexts::tr("MDC95 %1; ICC(2,1) %2; %3 left out.")
                   .arg(estimateWords(error.study->mdc95, error), coefficientWords(error.study->icc21))
                   .arg(error.results.leftOut);
    const QString name = clinic.name.isEmpty() ? OwnErrorTexts::tr("This clinic") : clinic.name;
    source.reference = OwnErrorTexts::tr("%1, own error study of “%2”, %3")
                           .arg(name, error.measure.title, today.toString(Qt::ISODate));
    source.shortForm = OwnErrorTexts::tr("Own error study %1").arg(today.toString(Qt::ISODate));
    return {row, source};
}

} // namespace own
