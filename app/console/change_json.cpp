#include "app/console/change_json.h"

#include "core/interpretation/change.h"
#include "core/interpretation/wording.h"

#include <QJsonObject>

#include <cmath>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

/// Without the noise of binary fractions: 0.3, not 0.30000000000000004.
QJsonValue plain(std::optional<double> number)
{
    return number ? QJsonValue(std::round(*number * 1e9) / 1e9) : QJsonValue();
}

QJsonValue valueOf(const values::Value& value)
{
    const auto* choice = std::get_if<values::Choice>(&value);
    return choice == nullptr ? plain(values::number(value)) : QJsonValue(choice->key);
}

QString sourceOf(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue)
{
    const catalogue::Source* source = catalogue.source(row.source);
    if (source == nullptr)
        return row.source;
    return source->doi.isEmpty() ? source->reference : source->reference + u", doi:"_s + source->doi;
}

void addComparison(QJsonObject& object, const interpretation::Comparison& comparison,
                   const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    const catalogue::Measure* measure = catalogue.measure(comparison.measure);
    object[u"againstDate"_s] = comparison.reference.day.toString(Qt::ISODate);
    object[u"againstValue"_s] = valueOf(comparison.reference.finding.value);
    object[u"againstState"_s] = values::stateCode(comparison.reference.finding.value);
    object[u"difference"_s] = plain(comparison.difference);
    if (comparison.threshold && comparison.difference && measure != nullptr) {
        object[u"threshold"_s] =
            plain(comparison.threshold->limitFor(*comparison.difference, measure->better));
        object[u"thresholdSource"_s] = sourceOf(comparison.threshold->row, catalogue);
    }
    object[u"verdict"_s] = interpretation::code(comparison.verdict);
    object[u"why"_s] = interpretation::why(comparison, catalogue, phrases);
}

QJsonObject withoutComparison(const interpretation::Change& change, const QString& against,
                              const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(change.measure);
    const QJsonValue none;
    return {{u"measure"_s, change.measure},
            {u"side"_s, records::code(change.side)},
            {u"date"_s, change.now.day.toString(Qt::ISODate)},
            {u"value"_s, valueOf(change.now.finding.value)},
            {u"state"_s, values::stateCode(change.now.finding.value)},
            {u"unit"_s, measure == nullptr ? QString() : values::code(measure->unit)},
            {u"against"_s, against},
            {u"againstDate"_s, none},
            {u"againstValue"_s, none},
            {u"againstState"_s, none},
            {u"difference"_s, none},
            {u"threshold"_s, none},
            {u"thresholdSource"_s, none},
            {u"verdict"_s, none},
            {u"why"_s, u"There is no earlier visit to compare with."_s}};
}

} // namespace

QJsonArray changeJson(const Found& found, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases)
{
    QJsonArray all;
    for (const interpretation::Change& change :
         interpretation::latestChanges(found.visits, found.patient, catalogue)) {
        for (const auto& [against, comparison] :
             {std::pair(u"previous"_s, change.previous), std::pair(u"baseline"_s, change.baseline)}) {
            QJsonObject object = withoutComparison(change, against, catalogue);
            if (comparison)
                addComparison(object, *comparison, catalogue, phrases);
            all += object;
        }
    }
    return all;
}

} // namespace console
