#include "core/fhir/observation.h"

#include "core/exchange/whole_columns.h"
#include "core/fhir/codes.h"
#include "core/fhir/parts.h"

namespace fhir
{

using namespace Qt::StringLiterals;

namespace
{

QByteArray component(const QString& system, const QString& code, const QString& title, const char* kind,
                     const QByteArray& value)
{
    return jsonObject({{"code", conceptOf({coding(system, code, title)}, title)}, {kind, value}});
}

std::vector<QByteArray> components(const records::Visit& visit, const records::Finding& finding,
                                   const catalogue::Measure& measure, const catalogue::Catalogue& catalogue)
{
    std::vector<QByteArray> all;
    for (size_t place = 0; place < finding.trials.size(); ++place) {
        const QString number = QString::number(records::trialNumber(finding, place));
        all.push_back(component(measureSystem, u"trial-"_s + number, u"Trial "_s + number, "valueQuantity",
                                quantity(finding.trials[place], measure.unit, measure.step)));
    }
    if (finding.capReached)
        all.push_back(
            component(measureSystem, u"cap-reached"_s, u"Stopped at the cap"_s, "valueBoolean", "true"));
    for (const QString& sign : finding.signs) {
        const catalogue::Option* option = catalogue::optionOf(measure.watchFor, sign);
        all.push_back(component(optionSystem, measure.id + u'.' + sign,
                                option == nullptr ? sign : option->title, "valueBoolean", "true"));
    }
    for (const auto& [id, value] :
         records::withExceptions(visit.conditions, finding.exceptions).asKeyValueRange()) {
        const catalogue::Condition* condition = catalogue.condition(id);
        if (condition == nullptr || value.isEmpty())
            continue;
        if (condition->isNumber)
            all.push_back(component(conditionSystem, id, condition->title, "valueQuantity",
                                    quantity(value.toDouble(), condition->unit, std::nullopt)));
        else
            all.push_back(component(conditionSystem, id, condition->title, "valueString", jsonText(value)));
    }
    return all;
}

QString statusOf(const records::Visit& visit)
{
    if (visit.withdrawn)
        return u"entered-in-error"_s;
    return visit.state == records::VisitState::Draft     ? u"preliminary"_s
           : visit.state == records::VisitState::Amended ? u"amended"_s
                                                         : u"final"_s;
}

QByteArray exam()
{
    return conceptOf({coding(u"http://terminology.hl7.org/CodeSystem/observation-category"_s, u"exam"_s)},
                     {});
}

} // namespace

catalogue::Measure measureOf(const QString& id, const catalogue::Catalogue& catalogue)
{
    if (const catalogue::Measure* known = catalogue.measure(id))
        return *known;
    catalogue::Measure unknown;
    unknown.id = unknown.title = id;
    return unknown;
}

QByteArray testCode(const catalogue::Measure& measure)
{
    std::vector<QByteArray> codings = {coding(measureSystem, measure.id, measure.title)};
    if (const QString known = loincOf(measure.id); !known.isEmpty())
        codings.push_back(coding(loincSystem, known));
    return conceptOf(codings, measure.title);
}

Made observation(const records::Visit& visit, const records::Finding& finding, const QString& author,
                 const QByteArray& encounter, const catalogue::Catalogue& catalogue)
{
    const QString id =
        idOf(u"observation"_s, visit.id.text + u'/' + finding.measure + u'/' + code(finding.side));
    const catalogue::Measure measure = measureOf(finding.measure, catalogue);
    QByteArray number, word, why, reason;
    if (const auto* missing = std::get_if<values::Missing>(&finding.value)) {
        if (missing->why == values::Absence::Unable)
            word =
                conceptOf({coding(stateSystem, u"unable"_s, u"tried and unable"_s)}, u"tried and unable"_s);
        else
            why = conceptOf({coding(absentSystem, absentCode(missing->why))}, {});
        if (!missing->reason.isEmpty())
            reason = jsonObject(
                {{"extension",
                  jsonList({jsonObject({{"url", jsonText(ourExtension)}, {"valueCode", "\"reason\""}})})},
                 {"text", jsonText(missing->reason)}});
    } else if (const auto* value = std::get_if<values::Quantity>(&finding.value)) {
        number = quantity(value->number, value->unit, measure.step);
    } else {
        const auto* grade = std::get_if<values::Grade>(&finding.value);
        const QString key =
            grade != nullptr ? QString::number(grade->step) : std::get<values::Choice>(finding.value).key;
        const catalogue::Option* option = catalogue::optionOf(measure.options, key);
        const QString title = option == nullptr ? key : option->title;
        word = conceptOf({coding(optionSystem, measure.id + u'.' + key, title)}, title);
    }
    QStringList taps;
    for (const double tap : finding.taps)
        taps += exchange::numeral(tap);
    const Ours ours = Ours().put(u"taps"_s, taps.join(u' ')).put(finding.exceptions);
    const QByteArray note =
        finding.note.isEmpty() ? QByteArray() : jsonObject({{"text", jsonText(finding.note)}});
    const QByteArray side =
        finding.side == records::Side::None ? QByteArray() : conceptOf({}, code(finding.side));
    return {id, jsonObject(
                    {{"resourceType", "\"Observation\""},
                     {"id", jsonText(id)},
                     {"extension", jsonList({ours.extension()})},
                     {"status", jsonText(statusOf(visit))},
                     {"category", jsonList({exam()})},
                     {"code", testCode(measure)},
                     {"subject", reference(visit.patient.text)},
                     {"encounter", encounter},
                     {"effectiveDateTime", dayText(visit.day)},
                     {"issued", instantText(visit.signedAt)},
                     {"performer", jsonList({reference(author)})},
                     {"valueQuantity", number},
                     {"valueCodeableConcept", word},
                     {"dataAbsentReason", why},
                     {"note", jsonList({reason, note})},
                     {"bodySite", side},
                     {"method", measure.position.isEmpty() ? QByteArray() : conceptOf({}, measure.position)},
                     {"component", jsonList(components(visit, finding, measure, catalogue))}})};
}

Made redFlag(const records::Visit& visit, const QString& flag, const records::RedFlagAnswer& answer,
             const QByteArray& encounter, const catalogue::Catalogue& catalogue)
{
    const QString id = idOf(u"red-flag"_s, visit.id.text + u'/' + flag);
    const catalogue::RedFlag* known = catalogue.redFlag(flag);
    const QString question = known == nullptr ? flag : known->question;
    QByteArray note;
    Ours ours;
    if (const auto& done = answer.acknowledged) {
        note = jsonObject({{"text", jsonText(done->action)}});
        ours.put(u"date"_s, done->day).put(u"time"_s, done->time.toString(u"HH:mm"_s));
    }
    return {id, jsonObject({{"resourceType", "\"Observation\""},
                            {"id", jsonText(id)},
                            {"extension", jsonList({ours.extension()})},
                            {"status", jsonText(statusOf(visit))},
                            {"category", jsonList({exam()})},
                            {"code", conceptOf({coding(flagSystem, flag, question)}, question)},
                            {"subject", reference(visit.patient.text)},
                            {"encounter", encounter},
                            {"effectiveDateTime", dayText(visit.day)},
                            {"valueBoolean", answer.isYes ? "true" : "false"},
                            {"note", jsonList({note})}})};
}

} // namespace fhir
