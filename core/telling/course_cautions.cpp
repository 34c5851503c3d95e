#include "core/telling/wording.h"

#include <algorithm>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;

QString practice(const judging::Change& change, const judging::Comparison& held, const Measure& measure,
                 const Phrasebook& phrases)
{
    if (!measure.practice || !change.practiceUntil || held.reference.day > *change.practiceUntil)
        return {};
    return phrases(
               "The reference visit holds an early test of this patient, so practice alone may improve the "
               "result. %1")
        .arg(measure.practice->words);
}

std::vector<double> numbersOf(const judging::Course& course)
{
    std::vector<double> numbers;
    for (const judging::RunPoint& point : course.run) {
        if (point.number)
            numbers.push_back(*point.number);
    }
    return numbers;
}

/// A first result far from the second, while all later ones stay near the second, says more about the day
/// than about the patient.
QString regressionToTheMean(const judging::Change& change, const judging::Comparison& held,
                            const Measure& measure, const Phrasebook& phrases)
{
    const std::vector<double> numbers = numbersOf(change.course);
    const bool isFirst =
        !change.course.run.empty() && held.reference.visit == change.course.run.front().visit;
    if (!isFirst || !held.threshold || numbers.size() < 3)
        return {};
    const auto isNear = [&](double one, double other) {
        return verdictOf(*held.threshold, one, other, measure.better) == judging::Verdict::WithinError;
    };
    const double second = numbers[1];
    const bool standsAlone =
        !isNear(numbers[0], second) &&
        std::all_of(numbers.begin() + 2, numbers.end(), [&](double later) { return isNear(second, later); });
    if (!standsAlone)
        return {};
    return phrases("The first result stands apart and all later ones lie within error of the second: it may "
                   "have been an unusual day. Look also at the comparison with the mean of the first two.");
}

} // namespace

QStringList cautions(const judging::Change& change, const judging::Comparison& comparison,
                     const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    QStringList lines = cautions(comparison, catalogue, phrases);
    const Measure* measure = catalogue.measure(comparison.measure);
    if (measure == nullptr || !comparison.difference || !comparison.comparability.isComparable())
        return lines;
    lines += {practice(change, comparison, *measure, phrases),
              regressionToTheMean(change, comparison, *measure, phrases)};
    lines.removeAll(QString());
    return lines;
}

} // namespace telling
