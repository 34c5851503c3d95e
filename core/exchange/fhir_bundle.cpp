#include "core/exchange/fhir_bundle.h"

#include "core/exchange/json_text.h"

#include <QUuid>

#include <algorithm>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

using records::Visit;

// Code systems of our own: fixed UUIDs, so that no address need be promised.
const QString measureSystem = u"urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a01"_s;
const QString optionSystem = u"urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a02"_s;
const QString conditionSystem = u"urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a03"_s;
const QString stateSystem = u"urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a04"_s;
const QString numberSystem = u"urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a05"_s;
const QString kindSystem = u"urn:uuid:5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a06"_s;
const QString loinc = u"http://loinc.org"_s;
const QString ucum = u"http://unitsofmeasure.org"_s;
const QString absent = u"http://terminology.hl7.org/CodeSystem/data-absent-reason"_s;

/// Codes seen with their names at loinc.org.
const std::pair<QString, QString> loincCodes[] = {{u"timed-up-and-go"_s, u"89423-8"_s},
                                                  {u"six-minute-walk"_s, u"64098-7"_s},
                                                  {u"sara"_s, u"93001-6"_s},
                                                  {u"chair-stand-30s"_s, u"66247-8"_s}};

QByteArray coding(const QString& system, const QString& code, const QString& display = {})
{
    return jsonObject(
        {{"system", jsonText(system)}, {"code", jsonText(code)}, {"display", jsonText(display)}});
}

QByteArray conceptOf(const std::vector<QByteArray>& codings, const QString& text)
{
    return jsonObject({{"coding", jsonList(codings)}, {"text", jsonText(text)}});
}

/// An id that is the same whenever the same thing is exported.
QString idOf(const QString& kind, const QString& whose)
{
    static const QUuid space(u"5d0f6a0e-4c5b-4f0c-9f0a-6b0c7e1f2a00"_s);
    return QUuid::createUuidV5(space, kind + u'/' + whose).toString(QUuid::WithoutBraces);
}

QByteArray reference(const QString& id)
{
    return jsonObject({{"reference", jsonText(u"urn:uuid:"_s + id)}});
}

QByteArray dayText(QDate day)
{
    return jsonText(day.toString(Qt::ISODate));
}

QByteArray instantText(const QDateTime& at)
{
    return at.isValid() ? jsonText(at.toUTC().toString(Qt::ISODateWithMs)) : QByteArray();
}

QByteArray entry(const QString& id, const QByteArray& resource)
{
    return jsonObject({{"fullUrl", jsonText(u"urn:uuid:"_s + id)}, {"resource", resource}});
}

QByteArray quantity(double number, values::Unit unit, std::optional<double> step)
{
    const QString code = values::code(unit);
    const QString symbol = values::symbol(unit);
    return jsonObject({{"value", jsonNumber(number, step)},
                       {"unit", jsonText(symbol.isEmpty() ? u"1"_s : symbol)},
                       {"system", jsonText(ucum)},
                       {"code", jsonText(code.isEmpty() ? u"1"_s : code)}});
}

/// http://hl7.org/fhir/R4/valueset-data-absent-reason.html
QString absentCode(values::Absence absence)
{
    if (absence == values::Absence::NotAttempted)
        return u"not-performed"_s;
    if (absence == values::Absence::Refused)
        return u"asked-declined"_s;
    return absence == values::Absence::NotApplicable ? u"not-applicable"_s : u"not-asked"_s;
}

/// One document on its way.
class Document
{
public:
    Document(const records::WholeRecord& record, const catalogue::Catalogue& catalogue, const QDateTime& now)
        : m_record(record), m_catalogue(catalogue), m_now(now)
    {
    }

    QByteArray made(const std::vector<records::Letter>& letters)
    {
        addPatient();
        for (const Visit& visit : records::onRecord(m_record.visits))
            addVisit(visit);
        for (const records::Letter& letter : letters)
            addLetter(letter, letters);
        const QString id = idOf(u"document"_s, patientId() + m_now.toString(Qt::ISODateWithMs));
        std::vector<QByteArray> entries = {composition()};
        entries.insert(entries.end(), m_entries.begin(), m_entries.end());
        return jsonObject({{"resourceType", "\"Bundle\""},
                           {"identifier", jsonObject({{"system", "\"urn:ietf:rfc:3986\""},
                                                      {"value", jsonText(u"urn:uuid:"_s + id)}})},
                           {"type", "\"document\""},
                           {"timestamp", instantText(m_now)},
                           {"entry", jsonList(entries)}});
    }

private:
    QString patientId() const { return m_record.patient.id.text; }

    void addPatient()
    {
        const records::Patient& patient = m_record.patient;
        const QByteArray number =
            patient.recordNumber.isEmpty()
                ? QByteArray()
                : jsonObject({{"system", jsonText(numberSystem)}, {"value", jsonText(patient.recordNumber)}});
        const QByteArray name = jsonObject(
            {{"family", jsonText(patient.family)}, {"given", jsonList({jsonText(patient.given)})}});
        m_entries.push_back(entry(
            patientId(), jsonObject({{"resourceType", "\"Patient\""},
                                     {"id", jsonText(patientId())},
                                     {"identifier", jsonList({number})},
                                     {"name", jsonList({name})},
                                     {"gender", jsonText(code(patient.sex))},
                                     {"birthDate", patient.born ? dayText(*patient.born) : QByteArray()}})));
    }

    /// Whoever signs, once; empty for nobody.
    QString practitioner(const records::Author& author)
    {
        if (author.name.isEmpty())
            return {};
        const QString id =
            idOf(u"practitioner"_s, author.name + u'\n' + author.role + u'\n' + author.registration);
        if (m_practitioners.contains(id))
            return id;
        m_practitioners += id;
        const QByteArray number = author.registration.isEmpty()
                                      ? QByteArray()
                                      : jsonObject({{"value", jsonText(author.registration)}});
        const QByteArray role =
            author.role.isEmpty() ? QByteArray() : jsonObject({{"code", conceptOf({}, author.role)}});
        m_entries.push_back(
            entry(id, jsonObject({{"resourceType", "\"Practitioner\""},
                                  {"id", jsonText(id)},
                                  {"identifier", jsonList({number})},
                                  {"name", jsonList({jsonObject({{"text", jsonText(author.name)}})})},
                                  {"qualification", jsonList({role})}})));
        return id;
    }

    QByteArray referenceTo(const QString& id) const { return id.isEmpty() ? QByteArray() : reference(id); }

    void addVisit(const Visit& visit)
    {
        const bool isDraft = visit.state == records::VisitState::Draft;
        const QString encounter = visit.series.text;
        const QString author = practitioner(visit.author);
        const QString status = visit.withdrawn ? u"entered-in-error"_s
                               : isDraft       ? u"in-progress"_s
                                               : u"finished"_s;
        const QByteArray participant =
            author.isEmpty() ? QByteArray() : jsonObject({{"individual", reference(author)}});
        m_entries.push_back(entry(
            encounter,
            jsonObject(
                {{"resourceType", "\"Encounter\""},
                 {"id", jsonText(encounter)},
                 {"status", jsonText(status)},
                 {"class",
                  coding(u"http://terminology.hl7.org/CodeSystem/v3-ActCode"_s, u"AMB"_s, u"ambulatory"_s)},
                 {"subject", reference(patientId())},
                 {"participant", jsonList({participant})},
                 {"period", jsonObject({{"start", dayText(visit.day)}, {"end", dayText(visit.day)}})}})));
        std::vector<QByteArray> parts = {reference(encounter)};
        if (!visit.withdrawn) {
            for (const records::Finding& finding : visit.findings)
                parts.push_back(reference(addObservation(visit, finding, author)));
        }
        m_isPreliminary = m_isPreliminary || (isDraft && !visit.withdrawn);
        m_sections.push_back(jsonObject({{"title", jsonText(u"Visit "_s + visit.day.toString(Qt::ISODate))},
                                         {"entry", jsonList(parts)}}));
        if (!author.isEmpty())
            addProvenance(visit, author, parts);
        if (!author.isEmpty() && !m_authors.contains(author))
            m_authors += author;
    }

    /// Who signed, when, and in the place of which version and why.
    void addProvenance(const Visit& visit, const QString& author, const std::vector<QByteArray>& targets)
    {
        const QString id = idOf(u"provenance"_s, visit.id.text);
        const auto before = std::ranges::find_if(m_record.visits, [&](const Visit& other) {
            return other.series == visit.series && other.version == visit.version - 1;
        });
        QByteArray replaced;
        if (before != m_record.visits.end())
            replaced = jsonObject(
                {{"role", "\"revision\""},
                 {"what", jsonObject({{"identifier", jsonObject({{"system", "\"urn:ietf:rfc:3986\""},
                                                                 {"value", jsonText(u"urn:uuid:"_s +
                                                                                    before->id.text)}})}})}});
        const QByteArray reason =
            visit.amendmentReason.isEmpty() ? QByteArray() : conceptOf({}, visit.amendmentReason);
        const QByteArray agent = jsonObject(
            {{"type",
              conceptOf({coding(u"http://terminology.hl7.org/CodeSystem/provenance-participant-type"_s,
                                u"attester"_s)},
                        {})},
             {"who", reference(author)}});
        m_entries.push_back(entry(id, jsonObject({{"resourceType", "\"Provenance\""},
                                                  {"id", jsonText(id)},
                                                  {"target", jsonList(targets)},
                                                  {"recorded", instantText(visit.signedAt)},
                                                  {"reason", jsonList({reason})},
                                                  {"agent", jsonList({agent})},
                                                  {"entity", jsonList({replaced})}})));
    }

    QByteArray testCode(const catalogue::Measure& measure) const
    {
        std::vector<QByteArray> codings = {coding(measureSystem, measure.id, measure.title)};
        for (const auto& [id, known] : loincCodes) {
            if (id == measure.id)
                codings.push_back(coding(loinc, known));
        }
        return conceptOf(codings, measure.title);
    }

    QByteArray component(const QString& system, const QString& code, const QString& title, const char* kind,
                         const QByteArray& value) const
    {
        return jsonObject({{"code", conceptOf({coding(system, code, title)}, title)}, {kind, value}});
    }

    std::vector<QByteArray> components(const Visit& visit, const records::Finding& finding,
                                       const catalogue::Measure& measure) const
    {
        std::vector<QByteArray> all;
        for (size_t place = 0; place < finding.trials.size(); ++place) {
            const QString number = QString::number(records::trialNumber(finding, place));
            all.push_back(component(measureSystem, u"trial-"_s + number, u"Trial "_s + number,
                                    "valueQuantity",
                                    quantity(finding.trials[place], measure.unit, measure.step)));
        }
        if (finding.capReached)
            all.push_back(
                component(measureSystem, u"cap-reached"_s, u"Stopped at the cap"_s, "valueBoolean", "true"));
        for (const auto& [id, value] :
             records::withExceptions(visit.conditions, finding.exceptions).asKeyValueRange()) {
            const catalogue::Condition* condition = m_catalogue.condition(id);
            if (condition == nullptr || value.isEmpty())
                continue;
            if (condition->isNumber)
                all.push_back(component(conditionSystem, id, condition->title, "valueQuantity",
                                        quantity(value.toDouble(), condition->unit, std::nullopt)));
            else
                all.push_back(
                    component(conditionSystem, id, condition->title, "valueString", jsonText(value)));
        }
        return all;
    }

    QString addObservation(const Visit& visit, const records::Finding& finding, const QString& author)
    {
        const QString id =
            idOf(u"observation"_s, visit.id.text + u'/' + finding.measure + u'/' + code(finding.side));
        const catalogue::Measure* known = m_catalogue.measure(finding.measure);
        catalogue::Measure unknown;
        unknown.id = unknown.title = finding.measure;
        const catalogue::Measure& measure = known == nullptr ? unknown : *known;
        const QString status = visit.state == records::VisitState::Draft     ? u"preliminary"_s
                               : visit.state == records::VisitState::Amended ? u"amended"_s
                                                                             : u"final"_s;
        QByteArray number, word, why;
        QStringList notes = {finding.note};
        if (const auto* missing = std::get_if<values::Missing>(&finding.value)) {
            if (missing->why == values::Absence::Unable)
                word = conceptOf({coding(stateSystem, u"unable"_s, u"tried and unable"_s)},
                                 u"tried and unable"_s);
            else
                why = conceptOf({coding(absent, absentCode(missing->why))}, {});
            notes.prepend(missing->reason);
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
        for (const QString& sign : finding.signs) {
            const catalogue::Option* option = catalogue::optionOf(measure.watchFor, sign);
            notes += u"Seen: "_s + (option == nullptr ? sign : option->title);
        }
        std::vector<QByteArray> annotations;
        for (const QString& note : std::as_const(notes)) {
            if (!note.isEmpty())
                annotations.push_back(jsonObject({{"text", jsonText(note)}}));
        }
        const QByteArray side =
            finding.side == records::Side::None ? QByteArray() : conceptOf({}, code(finding.side));
        m_entries.push_back(entry(
            id,
            jsonObject(
                {{"resourceType", "\"Observation\""},
                 {"id", jsonText(id)},
                 {"status", jsonText(status)},
                 {"category",
                  jsonList({conceptOf(
                      {coding(u"http://terminology.hl7.org/CodeSystem/observation-category"_s, u"exam"_s)},
                      {})})},
                 {"code", testCode(measure)},
                 {"subject", reference(patientId())},
                 {"encounter", reference(visit.series.text)},
                 {"effectiveDateTime", dayText(visit.day)},
                 {"issued", instantText(visit.signedAt)},
                 {"performer", jsonList({referenceTo(author)})},
                 {"valueQuantity", number},
                 {"valueCodeableConcept", word},
                 {"dataAbsentReason", why},
                 {"note", jsonList(annotations)},
                 {"bodySite", side},
                 {"method", measure.position.isEmpty() ? QByteArray() : conceptOf({}, measure.position)},
                 {"component", jsonList(components(visit, finding, measure))}})));
        return id;
    }

    void addLetter(const records::Letter& letter, const std::vector<records::Letter>& all)
    {
        const auto about = std::ranges::find(m_record.visits, letter.visit, &Visit::id);
        const bool isReplaced = std::ranges::any_of(
            all, [&](const records::Letter& other) { return other.replaces == letter.id; });
        const QString author = practitioner(letter.author);
        const QByteArray type = conceptOf({coding(kindSystem, letter.kind)}, letter.kind);
        const QByteArray encounter =
            about == m_record.visits.end() ? QByteArray() : reference(about->series.text);
        const auto document = [&](bool isWhole) {
            return jsonObject(
                {{"contentType", "\"application/pdf\""},
                 {"language", jsonText(letter.language)},
                 {"data", isWhole ? jsonText(QString::fromLatin1(letter.pdf.toBase64())) : QByteArray()},
                 {"title", jsonText(letter.kind)},
                 {"creation", instantText(letter.signedAt)}});
        };
        QByteArray relation;
        if (letter.replaces)
            relation = jsonObject({{"code", "\"replaces\""}, {"target", reference(letter.replaces->text)}});
        const bool isThere =
            letter.replaces && std::ranges::find(all, *letter.replaces, &records::Letter::id) != all.end();
        m_entries.push_back(entry(
            letter.id.text, jsonObject({{"resourceType", "\"DocumentReference\""},
                                        {"id", jsonText(letter.id.text)},
                                        {"status", jsonText(isReplaced ? u"superseded"_s : u"current"_s)},
                                        {"docStatus", "\"final\""},
                                        {"type", type},
                                        {"subject", reference(patientId())},
                                        {"date", instantText(letter.signedAt)},
                                        {"author", jsonList({referenceTo(author)})},
                                        {"relatesTo", isThere ? jsonList({relation}) : QByteArray()},
                                        {"content", jsonList({jsonObject({{"attachment", document(true)}})})},
                                        {"context", jsonObject({{"encounter", jsonList({encounter})}})}})));
        const QString report = idOf(u"report"_s, letter.id.text);
        m_entries.push_back(entry(report, jsonObject({{"resourceType", "\"DiagnosticReport\""},
                                                      {"id", jsonText(report)},
                                                      {"status", "\"final\""},
                                                      {"code", type},
                                                      {"subject", reference(patientId())},
                                                      {"encounter", encounter},
                                                      {"issued", instantText(letter.signedAt)},
                                                      {"resultsInterpreter", jsonList({referenceTo(author)})},
                                                      {"presentedForm", jsonList({document(false)})}})));
        m_letters.push_back(reference(letter.id.text));
        m_letters.push_back(reference(report));
    }

    QByteArray composition() const
    {
        const QString id = idOf(u"composition"_s, patientId() + m_now.toString(Qt::ISODateWithMs));
        std::vector<QByteArray> authors;
        for (const QString& author : m_authors)
            authors.push_back(reference(author));
        if (authors.empty()) // nobody has signed yet
            authors.push_back(jsonObject({{"display", "\"Aplomb\""}}));
        std::vector<QByteArray> sections = m_sections;
        if (!m_letters.empty())
            sections.push_back(jsonObject({{"title", "\"Letters\""}, {"entry", jsonList(m_letters)}}));
        const QString title = u"Coordination, balance and gait"_s;
        return entry(id, jsonObject({{"resourceType", "\"Composition\""},
                                     {"id", jsonText(id)},
                                     {"status", m_isPreliminary ? "\"preliminary\"" : "\"final\""},
                                     {"type", conceptOf({coding(loinc, u"11488-4"_s)}, title)},
                                     {"subject", reference(patientId())},
                                     {"date", instantText(m_now)},
                                     {"author", jsonList(authors)},
                                     {"title", jsonText(title)},
                                     {"section", jsonList(sections)}}));
    }

    const records::WholeRecord& m_record;
    const catalogue::Catalogue& m_catalogue;
    QDateTime m_now;
    std::vector<QByteArray> m_entries;
    std::vector<QByteArray> m_sections;
    std::vector<QByteArray> m_letters;
    QStringList m_practitioners;
    QStringList m_authors;
    bool m_isPreliminary = false;
};

} // namespace

QByteArray fhirDocument(const records::WholeRecord& record, const std::vector<records::Letter>& letters,
                        const catalogue::Catalogue& catalogue, const QDateTime& now)
{
    return Document(record, catalogue, now).made(letters);
}

QByteArray fhirCollection(const std::vector<QByteArray>& documents, const QDateTime& now)
{
    if (documents.size() == 1)
        return documents.front();
    std::vector<QByteArray> entries;
    entries.reserve(documents.size());
    for (const QByteArray& document : documents)
        entries.push_back(jsonObject({{"resource", document}}));
    return jsonObject({{"resourceType", "\"Bundle\""},
                       {"type", "\"collection\""},
                       {"timestamp", instantText(now)},
                       {"entry", jsonList(entries)}});
}

} // namespace exchange
