#include "app/console/change_json.h"

#include "core/judging/change.h"
#include "core/judging/run_trend.h"
#include "core/telling/wording.h"

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
    QString words = source == nullptr ? row.source : source->reference;
    if (source != nullptr && !source->doi.isEmpty())
        words += u", doi:"_s + source->doi;
    if (row.isOwn)
        words += u", the clinic's own"_s;
    if (row.checked == catalogue::Checked::Memory)
        words += u", from memory"_s;
    return words;
}

QJsonValue ruleOf(const std::optional<judging::Raised>& raised)
{
    if (!raised)
        return {};
    return QJsonObject{{u"name"_s, judging::code(raised->rule)}, {u"falseFlagRate"_s, raised->falseFlagRate}};
}

/// An end that lies beyond all pairs is not a number and stands as null.
QJsonValue bound(double number)
{
    return std::isfinite(number) ? plain(number) : QJsonValue();
}

/// Grades have a direction and no slope.
QJsonValue trendOf(const std::optional<judging::Trend>& trend, const std::optional<statistics::Slope>& slope)
{
    if (!trend)
        return {};
    return QJsonObject{
        {u"slope"_s, slope ? plain(slope->value) : QJsonValue()},
        {u"low"_s, slope ? bound(slope->low) : QJsonValue()},
        {u"high"_s, slope ? bound(slope->high) : QJsonValue()},
        {u"p"_s, plain(trend->p)},
        {u"n"_s, trend->n},
        {u"direction"_s, trend->direction ? QJsonValue(judging::code(*trend->direction)) : QJsonValue()},
        {u"strength"_s, judging::code(trend->strength)},
        {u"since"_s, trend->direction ? QJsonValue(trend->since.toString(Qt::ISODate)) : QJsonValue()}};
}

/// A turn that is there now: its size and bound in standard errors, since when.
QJsonValue reversalOf(const std::optional<judging::Trend>& trend)
{
    if (!trend || !trend->reversal)
        return {};
    const judging::Reversal& reversal = *trend->reversal;
    return QJsonObject{{u"direction"_s, judging::code(reversal.direction)},
                       {u"strength"_s, judging::code(reversal.strength)},
                       {u"z"_s, plain(reversal.z)},
                       {u"bound"_s, plain(reversal.bound)},
                       {u"day"_s, reversal.since.toString(Qt::ISODate)}};
}

QJsonValue ownScatterOf(const std::optional<judging::OwnScatter>& own)
{
    if (!own)
        return {};
    return QJsonObject{{u"visits"_s, own->visits},
                       {u"mean"_s, plain(own->mean)},
                       {u"deviation"_s, plain(own->deviation)},
                       {u"t"_s, plain(own->t)},
                       {u"limit"_s, plain(own->limit)}};
}

QJsonArray cannotShowOf(const judging::CannotShow& hidden)
{
    QJsonArray ways;
    if (hidden.better)
        ways += u"better"_s;
    if (hidden.worse)
        ways += u"worse"_s;
    return ways;
}

QJsonObject objectOf(const judging::Comparison& comparison, const QString& against,
                     const judging::Course& course, const catalogue::Catalogue& catalogue,
                     const base::Phrasebook& phrases)
{
    const catalogue::Measure* measure = catalogue.measure(comparison.measure);
    const records::Occasion& now = comparison.now;
    const records::Occasion& reference = comparison.reference;
    const bool isJudged = comparison.threshold && comparison.difference && measure != nullptr;
    return {{u"measure"_s, comparison.measure},
            {u"side"_s, records::code(comparison.side)},
            {u"date"_s, now.day.toString(Qt::ISODate)},
            {u"value"_s, valueOf(now.finding.value)},
            {u"state"_s, values::stateCode(now.finding.value)},
            {u"visit"_s, records::code(now.state)},
            {u"unit"_s, measure == nullptr ? QString() : values::code(measure->unit)},
            {u"against"_s, against},
            {u"againstDate"_s, reference.day.toString(Qt::ISODate)},
            {u"againstValue"_s, valueOf(reference.finding.value)},
            {u"againstState"_s, values::stateCode(reference.finding.value)},
            {u"againstVisit"_s, records::code(reference.state)},
            {u"difference"_s, plain(comparison.difference)},
            {u"threshold"_s,
             isJudged ? plain(comparison.threshold->limitFor(*comparison.difference, measure->better))
                      : QJsonValue()},
            {u"thresholdSource"_s,
             isJudged ? QJsonValue(sourceOf(comparison.threshold->row, catalogue)) : QJsonValue()},
            {u"tier"_s, comparison.tier == judging::Tier::None ? QJsonValue()
                                                               : QJsonValue(judging::code(comparison.tier))},
            {u"verdict"_s, judging::code(comparison.verdict)},
            {u"steps"_s, comparison.steps ? QJsonValue(std::abs(*comparison.steps)) : QJsonValue()},
            {u"ownScatter"_s, ownScatterOf(comparison.own)},
            {u"cannotShow"_s, cannotShowOf(comparison.cannotShow)},
            {u"why"_s, telling::why(comparison, catalogue, phrases)},
            {u"strength"_s, judging::code(comparison.strength)},
            {u"z"_s, plain(comparison.z)},
            {u"probabilityBeyondZero"_s, plain(comparison.probabilityBeyondZero)},
            {u"probabilityBeyondImportant"_s, plain(comparison.probabilityBeyondImportant)},
            {u"runStart"_s, course.run.empty() ? QString() : course.run.front().day.toString(Qt::ISODate)},
            {u"trend"_s, trendOf(course.trend,
                                 measure == nullptr ? std::nullopt : judging::robustSlope(course, *measure))},
            {u"reversal"_s, reversalOf(course.trend)},
            {u"rule"_s, ruleOf(comparison.raised)}};
}

} // namespace

QJsonArray changeJson(const Found& found, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases)
{
    QJsonArray all;
    for (const judging::Change& change :
         judging::latestChanges(found.visits, found.patient, catalogue, found.judging)) {
        for (const auto& [against, comparison] :
             {std::pair(u"previous"_s, change.previous), std::pair(u"baseline"_s, change.baseline)}) {
            if (comparison)
                all += objectOf(*comparison, against, change.course, catalogue, phrases);
        }
    }
    return all;
}

} // namespace console
