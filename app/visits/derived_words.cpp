#include "app/visits/derived_words.h"

#include "core/base/rounding.h"
#include "core/catalogue/catalogue.h"
#include "core/statistics/tapping.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace visits
{

namespace
{

struct DerivedWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

QString fixed(double number, int decimals)
{
    return base::fixed(number, decimals);
}

std::optional<double> numberOn(records::Side side, const catalogue::Measure& measure,
                               const records::Visit& visit)
{
    const records::Finding* finding = visit.finding(measure.id, side);
    const auto* quantity = finding == nullptr ? nullptr : std::get_if<values::Quantity>(&finding->value);
    return quantity == nullptr ? std::nullopt : std::optional(quantity->number);
}

} // namespace

QString rhythmWords(const records::Finding* finding)
{
    const auto run = statistics::tapping(finding == nullptr ? std::vector<double>() : finding->taps);
    if (!run)
        return {};
    QStringList words = {DerivedWords::tr("%1 taps/s").arg(fixed(run->perSecond, 1)),
                         DerivedWords::tr("mean interval %1 s").arg(fixed(run->meanInterval, 3))};
    words += DerivedWords::tr("longest %1 s").arg(fixed(run->longest, 2));
    if (run->variation)
        words += DerivedWords::tr("variation %1 %").arg(fixed(*run->variation, 0));
    if (run->slowing)
        words +=
            *run->slowing >= 0
                ? DerivedWords::tr("last third %1 % slower than the first").arg(fixed(*run->slowing, 0))
                : DerivedWords::tr("last third %1 % quicker than the first").arg(fixed(-*run->slowing, 0));
    return words.join(u" · "_s);
}

QString asymmetryWords(const catalogue::Measure& measure, const records::Visit& visit)
{
    const auto right = numberOn(records::Side::Right, measure, visit);
    const auto left = numberOn(records::Side::Left, measure, visit);
    const auto asymmetry = right && left ? statistics::asymmetry(*right, *left) : std::nullopt;
    if (!asymmetry)
        return {};
    if (*asymmetry == 0)
        return DerivedWords::tr("right and left alike");
    return *asymmetry > 0
               ? DerivedWords::tr("right above left by %1 % of their mean").arg(fixed(*asymmetry, 0))
               : DerivedWords::tr("left above right by %1 % of their mean").arg(fixed(-*asymmetry, 0));
}

} // namespace visits
