#include "app/console/request.h"
#include "core/base/file.h"
#include "core/exchange/repeats_csv.h"
#include "core/statistics/error_study.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

using statistics::ErrorStudy;
using statistics::Estimate;

QJsonObject objectOf(const Estimate& estimate)
{
    return {{u"value"_s, estimate.value}, {u"low"_s, estimate.low}, {u"high"_s, estimate.high}};
}

QString written(const Estimate& estimate)
{
    const auto number = [](double value) { return QString::number(value, 'g', 4); };
    if (!estimate.hasInterval())
        return u"%1 (95 % interval not defined)"_s.arg(number(estimate.value));
    return u"%1 (95 % interval %2 to %3)"_s.arg(number(estimate.value), number(estimate.low),
                                                number(estimate.high));
}

QByteArray json(const ErrorStudy& study, int leftOut)
{
    QJsonObject all{{u"n"_s, study.subjects},
                    {u"trials"_s, study.trials},
                    {u"leftOut"_s, leftOut},
                    {u"icc11"_s, objectOf(study.icc11)},
                    {u"icc21"_s, objectOf(study.icc21)},
                    {u"icc31"_s, objectOf(study.icc31)},
                    {u"sem"_s, objectOf(study.sem)},
                    {u"mdc90"_s, objectOf(study.mdc90)},
                    {u"mdc95"_s, objectOf(study.mdc95)}};
    QJsonArray practice;
    for (const double mean : study.practice)
        practice += mean;
    all[u"practice"_s] = practice;
    if (study.bias) {
        all[u"bias"_s] = objectOf(*study.bias);
        all[u"limits"_s] =
            QJsonObject{{u"lower"_s, objectOf(*study.lowerLimit)}, {u"upper"_s, objectOf(*study.upperLimit)}};
    }
    return QJsonDocument(all).toJson();
}

QStringList lines(const ErrorStudy& study, int leftOut)
{
    QStringList all = {u"%1 subjects with %2 trials each; %3 incomplete left out."_s.arg(study.subjects)
                           .arg(study.trials)
                           .arg(leftOut),
                       u"ICC(1,1) "_s + written(study.icc11),
                       u"ICC(2,1) "_s + written(study.icc21),
                       u"ICC(3,1) "_s + written(study.icc31),
                       u"SEM "_s + written(study.sem),
                       u"MDC90 "_s + written(study.mdc90),
                       u"MDC95 "_s + written(study.mdc95)};
    if (study.bias) {
        all += u"Bias, first less second "_s + written(*study.bias);
        all += u"Limits of agreement from "_s + written(*study.lowerLimit);
        all += u"  to "_s + written(*study.upperLimit);
    }
    QStringList means;
    for (const double mean : study.practice)
        means += QString::number(mean, 'g', 4);
    all += u"Mean of each trial "_s + means.join(u", "_s);
    if (study.subjects < statistics::fewestSubjects)
        all += u"Fewer than %1 people: too few to stand in for a published error."_s.arg(
            statistics::fewestSubjects);
    return all;
}

} // namespace

base::Result<void> studyError(const Request& request)
{
    const auto bytes = base::read(request.file, exchange::largestRepeatsFile);
    if (!bytes)
        return bytes.error();
    const auto tests = exchange::repeatsFromCsv(*bytes);
    if (!tests)
        return tests.error();
    const auto study = statistics::errorStudy(tests->repeats);
    if (!study) {
        return base::Error{base::ErrorKind::Invalid,
                           base::said("An error study needs at least two subjects with the same two or more "
                                      "trials, and values that differ."),
                           {}};
    }
    if (request.asJson)
        request.out << json(*study, tests->leftOut);
    else
        request.out << lines(*study, tests->leftOut).join(u'\n') << '\n';
    return {};
}

} // namespace console
