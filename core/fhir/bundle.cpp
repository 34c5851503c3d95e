#include "core/fhir/bundle.h"

#include "core/fhir/codes.h"
#include "core/fhir/observation.h"
#include "core/fhir/parts.h"

#include <QSet>

#include <algorithm>

namespace fhir
{

using namespace Qt::StringLiterals;

namespace
{

using records::Visit;

/// A document of ours as it is kept: a form, the clinic's own catalogue.
QByteArray keptDocument(const QString& id, const QString& kind, const QByteArray& json)
{
    const QByteArray attachment = jsonObject(
        {{"contentType", "\"application/json\""}, {"data", jsonText(QString::fromLatin1(json.toBase64()))}});
    return entry(id, jsonObject({{"resourceType", "\"DocumentReference\""},
                                 {"id", jsonText(id)},
                                 {"status", "\"current\""},
                                 {"type", conceptOf({coding(kindSystem, kind)}, kind)},
                                 {"content", jsonList({jsonObject({{"attachment", attachment}})})}}));
}

QByteArray tagged()
{
    return jsonObject({{"tag", jsonList({coding(kindSystem, wholeRecordsTag)})}});
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
        for (const Visit& newest : records::onRecord(m_record.visits))
            addVisit(standing(newest));
        for (const records::Asked& asked : m_record.asked)
            addWord(u"asked"_s, asked.visit, {}, asked.at, named(asked.who));
        addHappenings();
        addTargets();
        addChoices();
        for (const records::Letter& letter : letters)
            addLetter(letter, letters);
        const QString id = idOf(u"document"_s, patientId() + m_now.toString(Qt::ISODateWithMs));
        std::vector<QByteArray> entries = {composition()};
        entries.insert(entries.end(), m_entries.begin(), m_entries.end());
        return jsonObject({{"resourceType", "\"Bundle\""},
                           {"meta", tagged()},
                           {"identifier", jsonObject({{"system", "\"urn:ietf:rfc:3986\""},
                                                      {"value", jsonText(u"urn:uuid:"_s + id)}})},
                           {"type", "\"document\""},
                           {"timestamp", instantText(m_now)},
                           {"entry", jsonList(entries)}});
    }

private:
    QString patientId() const { return m_record.patient.id.text; }

    void add(const QString& id, const QByteArray& resource) { m_entries.push_back(entry(id, resource)); }

    void addPatient()
    {
        const records::Patient& patient = m_record.patient;
        const QByteArray number =
            patient.recordNumber.isEmpty()
                ? QByteArray()
                : jsonObject({{"system", jsonText(numberSystem)}, {"value", jsonText(patient.recordNumber)}});
        const QByteArray name = jsonObject(
            {{"family", jsonText(patient.family)}, {"given", jsonList({jsonText(patient.given)})}});
        const QByteArray practice = named(patient.generalPractitioner);
        const Ours ours = Ours()
                              .put(u"population"_s, patient.population)
                              .put(u"hand"_s, code(patient.dominantHand))
                              .put(u"height_cm"_s, patient.heightCm)
                              .put(u"weight_kg"_s, patient.weightKg)
                              .put(u"referrer"_s, patient.referrer)
                              .put(u"allergies"_s, patient.allergies) // words, which may say "none known"
                              .put(u"note"_s, patient.notes);
        add(patientId(), jsonObject({{"resourceType", "\"Patient\""},
                                     {"id", jsonText(patientId())},
                                     {"extension", jsonList({ours.extension()})},
                                     {"identifier", jsonList({number})},
                                     {"name", jsonList({name})},
                                     {"gender", jsonText(code(patient.sex))},
                                     {"birthDate", dayText(patient.born)},
                                     {"generalPractitioner", jsonList({practice})}}));
        if (patient.diagnosis.isEmpty() && !patient.onset)
            return;
        const QString id = idOf(u"diagnosis"_s, patientId());
        add(id, jsonObject({{"resourceType", "\"Condition\""},
                            {"id", jsonText(id)},
                            {"code", conceptOf({}, patient.diagnosis)},
                            {"subject", reference(patientId())},
                            {"onsetDateTime", dayText(patient.onset)}}));
        m_background.push_back(reference(id));
    }

    /// Whoever signs, once; empty for nobody.
    QString practitioner(const records::Author& author)
    {
        if (author == records::Author())
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

    /// The id of the form a visit was made with, which is written once.
    QString formOf(const Visit& visit)
    {
        if (!visit.formAsMade)
            return {};
        const QByteArray document = catalogue::written(*visit.formAsMade).toUtf8();
        const QString id = idOf(u"form"_s, QString::fromUtf8(document));
        if (!m_forms.contains(id)) {
            m_forms.insert(id);
            m_entries.push_back(keptDocument(id, u"form"_s, document));
            m_background.push_back(reference(id));
        }
        return id;
    }

    QByteArray encounter(const Visit& visit, const QString& id, const std::vector<QByteArray>& contained,
                         const std::vector<QByteArray>& extensions)
    {
        const QString author = practitioner(visit.author);
        const QString status = visit.withdrawn                             ? u"entered-in-error"_s
                               : visit.state == records::VisitState::Draft ? u"in-progress"_s
                                                                           : u"finished"_s;
        const QByteArray participant =
            author.isEmpty() ? QByteArray() : jsonObject({{"individual", reference(author)}});
        const Ours ours = Ours()
                              .put(u"uid"_s, visit.id.text)
                              .put(u"version"_s, QString::number(visit.version))
                              .put(u"state"_s, code(visit.state))
                              .put(u"form"_s, visit.form)
                              .putRef(u"made"_s, formOf(visit))
                              .put(u"confirmed"_s, visit.conditionsConfirmed ? u"yes"_s : QString())
                              .put(u"reason"_s, visit.amendmentReason)
                              .put(u"at"_s, visit.signedAt)
                              .put(visit.conditions);
        std::vector<QByteArray> all = {ours.extension()};
        all.insert(all.end(), extensions.begin(), extensions.end());
        return jsonObject(
            {{"resourceType", "\"Encounter\""},
             {"id", jsonText(id)},
             {"contained", jsonList(contained)},
             {"extension", jsonList(all)},
             {"status", jsonText(status)},
             {"class",
              coding(u"http://terminology.hl7.org/CodeSystem/v3-ActCode"_s, u"AMB"_s, u"ambulatory"_s)},
             {"subject", reference(patientId())},
             {"participant", jsonList({participant})},
             {"period", jsonObject({{"start", dayText(visit.day)}, {"end", dayText(visit.day)}})}});
    }

    /// What was found and asked at a visit: ids and resources.
    std::vector<Made> observations(const Visit& visit, const QByteArray& encounter)
    {
        const QString author = practitioner(visit.author);
        std::vector<Made> all;
        for (const records::Finding& finding : visit.findings)
            all.push_back(observation(visit, finding, author, encounter, m_catalogue));
        for (const auto& [id, answer] : visit.redFlags)
            all.push_back(redFlag(visit, id, answer, encounter, m_catalogue));
        return all;
    }

    /// What was signed last stands while its amendment is a draft.
    const Visit& standing(const Visit& newest) const
    {
        const Visit* signedLast = &newest;
        for (const Visit& version : m_record.visits) {
            const bool isBefore = version.series == newest.series && version.version == newest.version - 1;
            if (newest.state == records::VisitState::Draft && isBefore)
                signedLast = &version;
        }
        return *signedLast;
    }

    /// The Encounter of the version that stands, and in it the others: who reads the entries of the Bundle
    /// meets no visit twice, and nothing that was found at one entered in error.
    void addVisit(const Visit& visit)
    {
        std::vector<QByteArray> contained, earlier;
        const auto contain = [&](const QString& id, const QByteArray& resource) {
            contained.push_back(resource);
            earlier.push_back(
                jsonObject({{"url", jsonText(earlierExtension)}, {"valueReference", within(id)}}));
        };
        for (const Visit& before : m_record.visits) {
            if (before.series != visit.series || before.version == visit.version)
                continue;
            const QString id = u"v%1"_s.arg(before.version);
            contain(id, encounter(before, id, {}, {}));
            for (const auto& [found, resource] : observations(before, within(id)))
                contain(found, resource);
        }
        if (visit.withdrawn) {
            for (const auto& [found, resource] : observations(visit, within({})))
                contain(found, resource);
        }
        const QString id = visit.series.text;
        add(id, encounter(visit, id, contained, earlier));
        std::vector<QByteArray> parts = {reference(id)};
        if (!visit.withdrawn) {
            for (const auto& [found, resource] : observations(visit, reference(id))) {
                add(found, resource);
                parts.push_back(reference(found));
            }
        }
        m_isPreliminary = m_isPreliminary || (visit.state == records::VisitState::Draft && !visit.withdrawn);
        m_sections.push_back(jsonObject({{"title", jsonText(u"Visit "_s + visit.day.toString(Qt::ISODate))},
                                         {"entry", jsonList(parts)}}));
        const QString author = practitioner(visit.author);
        if (!author.isEmpty())
            addProvenance(visit, author, parts);
        if (visit.withdrawn)
            addWord(u"withdrawn"_s, visit.series, visit.withdrawn->reason, visit.withdrawn->at,
                    reference(practitioner(visit.withdrawn->author)));
        if (!author.isEmpty() && !m_authors.contains(author))
            m_authors += author;
    }

    /// What somebody said of a visit afterwards.
    void addWord(const QString& kind, const records::VisitId& series, const QString& reason,
                 const QDateTime& at, const QByteArray& who)
    {
        const QString id = idOf(kind, series.text);
        const QByteArray why = reason.isEmpty() ? QByteArray() : conceptOf({}, reason);
        add(id, jsonObject({{"resourceType", "\"Provenance\""},
                            {"id", jsonText(id)},
                            {"target", jsonList({reference(series.text)})},
                            {"recorded", instantText(at)},
                            {"reason", jsonList({why})},
                            {"activity", conceptOf({coding(kindSystem, kind)}, kind)},
                            {"agent", jsonList({jsonObject({{"who", who}})})}}));
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

    QByteArray happening(const records::Happening& event, const QString& id,
                         const std::vector<QByteArray>& contained,
                         const std::vector<QByteArray>& earlier) const
    {
        const Ours ours = Ours()
                              .put(u"version"_s, QString::number(event.version))
                              .put(u"injury"_s, code(event.injury))
                              .put(u"reason"_s, event.takenBackFor);
        std::vector<QByteArray> extensions = {ours.extension()};
        extensions.insert(extensions.end(), earlier.begin(), earlier.end());
        const QString status = !event.takenBackFor.isEmpty() ? u"entered-in-error"_s
                               : event.version > 1           ? u"amended"_s
                                                             : u"final"_s;
        const QByteArray span =
            event.until ? jsonObject({{"start", dayText(event.from)}, {"end", dayText(event.until)}})
                        : QByteArray();
        return jsonObject({{"resourceType", "\"Observation\""},
                           {"id", jsonText(id)},
                           {"contained", jsonList(contained)},
                           {"extension", jsonList(extensions)},
                           {"status", jsonText(status)},
                           {"code", conceptOf({coding(happeningSystem, code(event.kind))}, code(event.kind))},
                           {"subject", reference(patientId())},
                           {"effectiveDateTime", event.until ? QByteArray() : dayText(event.from)},
                           {"effectivePeriod", span},
                           {"issued", instantText(event.enteredAt)},
                           {"performer", jsonList({named(event.who)})},
                           {"valueString", jsonText(event.words)}});
    }

    /// What happened between visits, as it stands; in it what it replaced.
    void addHappenings()
    {
        for (const records::Happening& newest : records::newest(m_record.happenings)) {
            std::vector<QByteArray> contained, earlier;
            for (const records::Happening& before : m_record.happenings) {
                if (before.id != newest.id || before.version == newest.version)
                    continue;
                const QString id = u"v%1"_s.arg(before.version);
                contained.push_back(happening(before, id, {}, {}));
                earlier.push_back(
                    jsonObject({{"url", jsonText(earlierExtension)}, {"valueReference", within(id)}}));
            }
            add(newest.id.text, happening(newest, newest.id.text, contained, earlier));
            m_events.push_back(reference(newest.id.text));
        }
    }

    /// Every target ever agreed; of one measure and side the newest alone is in force.
    void addTargets()
    {
        for (size_t place = 0; place < m_record.targets.size(); ++place) {
            const records::Target& target = m_record.targets[place];
            const QString id = idOf(u"target"_s, patientId() + u'/' + QString::number(place));
            const bool isInForce =
                target.droppedFor.isEmpty() &&
                records::newestOf(m_record.targets, target.measure, target.side) == &target;
            const catalogue::Measure measure = measureOf(target.measure, m_catalogue);
            const Ours ours =
                Ours()
                    .put(u"side"_s, target.side == records::Side::None ? QString() : code(target.side))
                    .put(u"words"_s, target.words)
                    .put(u"at"_s, target.enteredAt);
            const QByteArray aim =
                jsonObject({{"measure", testCode(measure)},
                            {"detailQuantity", quantity(target.value, measure.unit, measure.step)},
                            {"dueDate", dayText(target.by)}});
            add(id, jsonObject({{"resourceType", "\"Goal\""},
                                {"id", jsonText(id)},
                                {"extension", jsonList({ours.extension()})},
                                {"lifecycleStatus", isInForce ? "\"active\"" : "\"cancelled\""},
                                {"description",
                                 conceptOf({}, target.words.isEmpty() ? measure.title : target.words)},
                                {"subject", reference(patientId())},
                                {"startDate", dayText(target.agreedOn)},
                                {"target", jsonList({aim})},
                                {"statusReason", jsonText(target.droppedFor)},
                                {"expressedBy", named(target.who)}}));
            m_targets.push_back(reference(id));
        }
    }

    /// What says how the patient is judged, for which R4 has no resource.
    void addBasic(const QString& kind, qsizetype place, const Ours& ours)
    {
        const QString id = idOf(kind, patientId() + u'/' + QString::number(place));
        add(id, jsonObject({{"resourceType", "\"Basic\""},
                            {"id", jsonText(id)},
                            {"extension", jsonList({ours.extension()})},
                            {"code", conceptOf({coding(kindSystem, kind)}, kind)},
                            {"subject", reference(patientId())}}));
        m_background.push_back(reference(id));
    }

    void addChoices()
    {
        qsizetype place = 0;
        for (const records::EvidenceChoice& choice : m_record.patient.choices)
            addBasic(u"choice"_s, place++,
                     Ours()
                         .put(u"measure"_s, choice.measure)
                         .put(u"threshold"_s, choice.threshold)
                         .put(u"reason"_s, choice.reason)
                         .put(u"who"_s, choice.who)
                         .put(u"at"_s, choice.chosenAt));
        for (const records::DeclaredEqual& word : m_record.patient.declared)
            addBasic(u"declared"_s, place++,
                     Ours()
                         .put(u"measure"_s, word.measure)
                         .put(u"earlier"_s, word.earlier.text)
                         .put(u"later"_s, word.later.text)
                         .put(u"taken_back"_s, word.isTakenBack ? u"yes"_s : QString())
                         .put(u"reason"_s, word.reason)
                         .put(u"who"_s, word.who)
                         .put(u"at"_s, word.declaredAt));
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
                                        {"author", jsonList({reference(author)})},
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
                                                      {"resultsInterpreter", jsonList({reference(author)})},
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
        const std::pair<const char*, const std::vector<QByteArray>&> more[] = {
            {"\"Events\"", m_events},
            {"\"Targets\"", m_targets},
            {"\"Letters\"", m_letters},
            {"\"Background\"", m_background}};
        for (const auto& [title, list] : more) {
            if (!list.empty())
                sections.push_back(jsonObject({{"title", title}, {"entry", jsonList(list)}}));
        }
        const QString title = u"Coordination, balance and gait"_s;
        return entry(id, jsonObject({{"resourceType", "\"Composition\""},
                                     {"id", jsonText(id)},
                                     {"status", m_isPreliminary ? "\"preliminary\"" : "\"final\""},
                                     {"type", conceptOf({coding(loincSystem, u"11488-4"_s)}, title)},
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
    std::vector<QByteArray> m_events;
    std::vector<QByteArray> m_targets;
    std::vector<QByteArray> m_background;
    QSet<QString> m_forms;
    QStringList m_practitioners;
    QStringList m_authors;
    bool m_isPreliminary = false;
};

} // namespace

QByteArray document(const records::WholeRecord& record, const std::vector<records::Letter>& letters,
                    const catalogue::Catalogue& catalogue, const QDateTime& now)
{
    return Document(record, catalogue, now).made(letters);
}

QByteArray collection(const std::vector<QByteArray>& documents, const catalogue::Own& own,
                      const QDateTime& now)
{
    const QByteArray ours = catalogue::written(own);
    const bool isOwn = ours != catalogue::written(catalogue::Own());
    if (documents.size() == 1 && !isOwn)
        return documents.front();
    std::vector<QByteArray> entries;
    entries.reserve(documents.size() + 1);
    if (isOwn)
        entries.push_back(keptDocument(idOf(u"catalogue"_s, QString::fromUtf8(ours)), u"catalogue"_s, ours));
    for (const QByteArray& document : documents)
        entries.push_back(jsonObject({{"resource", document}}));
    return jsonObject({{"resourceType", "\"Bundle\""},
                       {"meta", tagged()},
                       {"type", "\"collection\""},
                       {"timestamp", instantText(now)},
                       {"entry", jsonList(entries)}});
}

} // namespace fhir
