#include "core/catalogue/reader.h"
#include "core/fhir/bundle.h"
#include "core/fhir/json_text.h"
#include "tests/support/made_up_record.h"
#include "tests/support/test_support.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRegularExpression>
#include <QSet>

using namespace Qt::StringLiterals;

namespace test_bundle
{

const QDateTime now(QDate(2026, 3, 12), QTime(9, 30), Qt::UTC);

const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

records::WholeRecord falk()
{
    records::WholeRecord record;
    record.patient.id = records::PatientId::make();
    record.patient.recordNumber = u"F-1"_s;
    record.patient.family = u"Falk"_s;
    record.patient.sex = records::Sex::Female;
    record.patient.born = QDate(1950, 2, 3);
    records::Visit visit;
    visit.id = records::VisitId::make();
    visit.series = visit.id;
    visit.patient = record.patient.id;
    visit.day = QDate(2026, 3, 2);
    visit.state = records::VisitState::Signed;
    visit.author = {u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s};
    visit.signedAt = QDateTime(visit.day, QTime(10, 0), Qt::UTC);
    record.visits = {visit};
    return record;
}

records::Finding found(const QString& measure, values::Value value, records::Side side = records::Side::None)
{
    records::Finding finding;
    finding.measure = measure;
    finding.side = side;
    finding.value = std::move(value);
    return finding;
}

std::vector<QJsonObject> resources(const QByteArray& document, const QString& type = {})
{
    std::vector<QJsonObject> all;
    for (const QJsonValue& entry : QJsonDocument::fromJson(document).object()[u"entry"_s].toArray()) {
        const QJsonObject resource = entry.toObject()[u"resource"_s].toObject();
        if (type.isEmpty() || resource[u"resourceType"_s] == type)
            all.push_back(resource);
    }
    return all;
}

QByteArray documentOf(const records::WholeRecord& record, const std::vector<records::Letter>& letters = {})
{
    return fhir::document(record, letters, book(), now);
}

/// The one Observation of a finding.
QJsonObject observation(const records::Finding& finding)
{
    records::WholeRecord record = falk();
    record.visits[0].findings = {finding};
    return resources(documentOf(record), u"Observation"_s).at(0);
}

QString codeIn(const QJsonObject& resource, const QString& member)
{
    return resource[member].toObject()[u"coding"_s].toArray().at(0).toObject()[u"code"_s].toString();
}

/// Every object in a value, itself among them.
void eachObject(const QJsonValue& value, const std::function<void(const QJsonObject&)>& take)
{
    if (value.isArray()) {
        for (const QJsonValue& part : value.toArray())
            eachObject(part, take);
    } else if (value.isObject()) {
        const QJsonObject object = value.toObject();
        take(object);
        for (const QJsonValue& part : object)
            eachObject(part, take);
    }
}

QSet<QString> idsIn(const QJsonObject& resource)
{
    QSet<QString> ids;
    for (const QJsonValue& contained : resource[u"contained"_s].toArray())
        ids += contained[u"id"_s].toString();
    return ids;
}

/// HL7 FHIR R4 (4.0.1): what may not be missing, and the codes of a status (hl7.org/fhir/R4, the pages of the
/// resources; from memory).
struct Rule {
    QString type;
    QStringList needed;
    QStringList statuses;
};

const std::vector<Rule> rules = {
    {u"Composition"_s,
     {u"status"_s, u"type"_s, u"date"_s, u"author"_s, u"title"_s},
     {u"preliminary"_s, u"final"_s, u"amended"_s, u"entered-in-error"_s}},
    {u"Patient"_s, {}, {}},
    {u"Practitioner"_s, {}, {}},
    {u"Encounter"_s, {u"status"_s, u"class"_s}, {u"in-progress"_s, u"finished"_s, u"entered-in-error"_s}},
    {u"Observation"_s,
     {u"status"_s, u"code"_s},
     {u"preliminary"_s, u"final"_s, u"amended"_s, u"entered-in-error"_s}},
    {u"Condition"_s, {u"subject"_s}, {}},
    {u"Goal"_s, {u"lifecycleStatus"_s, u"description"_s, u"subject"_s}, {}},
    {u"Basic"_s, {u"code"_s}, {}},
    {u"DiagnosticReport"_s, {u"status"_s, u"code"_s}, {u"final"_s}},
    {u"DocumentReference"_s, {u"status"_s, u"content"_s}, {u"current"_s, u"superseded"_s}},
    {u"Provenance"_s, {u"target"_s, u"recorded"_s, u"agent"_s}, {}}};

class TestBundle : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyDocumentIsOne_data()
    {
        QTest::addColumn<quint32>("number");
        for (quint32 number = 1; number <= 30; ++number)
            QTest::addRow("%u", number) << number;
    }

    void everyDocumentIsOne()
    {
        QFETCH(const quint32, number);
        const records::WholeRecord record = madeUpRecord(number, book());
        QJsonParseError fault;
        const QByteArray bytes = documentOf(record);
        const QJsonObject bundle = QJsonDocument::fromJson(bytes, &fault).object();
        QVERIFY2(fault.error == QJsonParseError::NoError, qPrintable(fault.errorString()));
        QCOMPARE(bundle[u"resourceType"_s].toString(), u"Bundle"_s);
        QCOMPARE(bundle[u"type"_s].toString(), u"document"_s);
        QVERIFY(!bundle[u"identifier"_s].toObject()[u"value"_s].toString().isEmpty());
        QVERIFY(!bundle[u"timestamp"_s].toString().isEmpty());
        const auto all = resources(bytes);
        QCOMPARE(all.front()[u"resourceType"_s].toString(), u"Composition"_s);

        QSet<QString> urls;
        for (const QJsonValue& entry : bundle[u"entry"_s].toArray()) {
            const QString url = entry.toObject()[u"fullUrl"_s].toString();
            QVERIFY2(!urls.contains(url), qPrintable(url));
            urls += url;
            QCOMPARE(url, u"urn:uuid:"_s + entry.toObject()[u"resource"_s].toObject()[u"id"_s].toString());
        }
        for (const QJsonObject& resource : all) {
            const QString type = resource[u"resourceType"_s].toString();
            const auto rule = std::ranges::find(rules, type, &Rule::type);
            QVERIFY2(rule != rules.end(), qPrintable(type));
            for (const QString& needed : rule->needed)
                QVERIFY2(resource.contains(needed), qPrintable(type + u'.' + needed));
            if (!rule->statuses.isEmpty())
                QVERIFY2(rule->statuses.contains(resource[u"status"_s].toString()), qPrintable(type));
            eachObject(resource, [&](const QJsonObject& object) {
                QVERIFY(!object.isEmpty());
                const QString to = object[u"reference"_s].toString();
                if (to.startsWith(u'#')) // to what it contains, or to itself
                    QVERIFY2(to == u"#" || idsIn(resource).contains(to.mid(1)), qPrintable(type + to));
                else if (!to.isEmpty())
                    QVERIFY2(urls.contains(to), qPrintable(type + to));
                int values = 0;
                for (auto member = object.begin(); member != object.end(); ++member) {
                    QVERIFY2(!member->isNull(), qPrintable(member.key()));
                    if (member->isString())
                        QVERIFY2(!member->toString().isEmpty(), qPrintable(member.key()));
                    values += int(member.key().startsWith(u"value"_s) && member.key() != u"value"_s);
                }
                QVERIFY(values <= 1); // value[x] is one
                QVERIFY(!(values == 1 && object.contains(u"dataAbsentReason"_s)));
                if (object[u"system"_s] == u"http://unitsofmeasure.org"_s)
                    QVERIFY(!object[u"code"_s].toString().isEmpty());
            });
        }
        size_t findings = 0;
        for (const records::Visit& visit : records::current(record.visits))
            findings += visit.findings.size() + visit.redFlags.size();
        findings += records::newest(record.happenings).size();
        QCOMPARE(resources(bytes, u"Observation"_s).size(), findings);
        QCOMPARE(resources(bytes, u"Encounter"_s).size(), records::onRecord(record.visits).size());
        QVERIFY(documentOf(record) == bytes); // the same at the same instant
    }

    /// http://hl7.org/fhir/R4/datatypes.html#decimal: the precision of a decimal has meaning.
    void decimalsKeepTheirPrecision()
    {
        QCOMPARE(fhir::jsonNumber(12.5, 0.01), QByteArray("12.50"));
        QCOMPARE(fhir::jsonNumber(12.5, 0.1), QByteArray("12.5"));
        QCOMPARE(fhir::jsonNumber(12, 1), QByteArray("12"));
        QCOMPARE(fhir::jsonNumber(12.375, 0.1), QByteArray("12.375"));
        QCOMPARE(fhir::jsonNumber(0.1 + 0.2, std::nullopt), QByteArray("0.30000000000000004"));
        records::WholeRecord record = falk();
        record.visits[0].findings = {
            found(u"ten-metre-walk-time-comfortable"_s, values::Quantity{12.5, values::Unit::Second})};
        QVERIFY(documentOf(record).contains("\"value\":12.50,\"unit\":\"s\""));
    }

    /// UCUM (ucum.org): the unit of a number without one is 1.
    void unitsAreThoseOfUcum()
    {
        const QJsonObject walk =
            observation(found(u"six-minute-walk"_s, values::Quantity{420, values::Unit::Metre}));
        QCOMPARE(walk[u"valueQuantity"_s].toObject()[u"code"_s].toString(), u"m"_s);
        QCOMPARE(codeIn(walk, u"code"_s), u"six-minute-walk"_s);
        const QJsonArray codings = walk[u"code"_s].toObject()[u"coding"_s].toArray();
        QCOMPARE(codings.at(1).toObject()[u"system"_s].toString(), u"http://loinc.org"_s);
        QCOMPARE(codings.at(1).toObject()[u"code"_s].toString(), u"64098-7"_s);
        const QJsonObject bare = observation(found(u"x"_s, values::Quantity{3, values::Unit::One}));
        QCOMPARE(bare[u"valueQuantity"_s].toObject()[u"code"_s].toString(), u"1"_s);
    }

    /// http://hl7.org/fhir/R4/codesystem-data-absent-reason.html
    void whatWasNotDoneSaysWhyAndUnableIsAValue()
    {
        using values::Absence;
        const auto of = [](Absence why) {
            return observation(found(u"tandem-steps"_s, values::Missing{why, u"tired"_s}));
        };
        const std::vector<std::pair<Absence, QString>> codes = {{Absence::NotAttempted, u"not-performed"_s},
                                                                {Absence::Refused, u"asked-declined"_s},
                                                                {Absence::NotApplicable, u"not-applicable"_s},
                                                                {Absence::NotAsked, u"not-asked"_s}};
        for (const auto& [why, code] : codes) {
            QCOMPARE(codeIn(of(why), u"dataAbsentReason"_s), code);
            QVERIFY(!of(why).contains(u"valueCodeableConcept"_s));
        }
        const QJsonObject unable = of(Absence::Unable);
        QCOMPARE(codeIn(unable, u"valueCodeableConcept"_s), u"unable"_s);
        QVERIFY(!unable.contains(u"dataAbsentReason"_s));
        QCOMPARE(unable[u"note"_s].toArray().at(0).toObject()[u"text"_s].toString(), u"tired"_s);
    }

    void sideTrialsAndConditionsComeWithIt()
    {
        records::Finding peg =
            found(u"nine-hole-peg"_s, values::Quantity{20, values::Unit::Second}, records::Side::Left);
        records::addTrial(peg, 2, 21.25);
        records::WholeRecord record = falk();
        record.visits[0].conditions = {{u"aid"_s, u"stick"_s}, {u"distance_m"_s, u"10"_s}};
        peg.exceptions = {{u"aid"_s, u"none"_s}};
        record.visits[0].findings = {peg};
        const QJsonObject made = resources(documentOf(record), u"Observation"_s).at(0);
        QCOMPARE(made[u"bodySite"_s].toObject()[u"text"_s].toString(), u"left"_s);
        QVERIFY(!made[u"method"_s].toObject()[u"text"_s].toString().isEmpty());
        const QJsonArray parts = made[u"component"_s].toArray();
        QCOMPARE(parts.size(), 3);
        QCOMPARE(codeIn(parts.at(0).toObject(), u"code"_s), u"trial-2"_s);
        QCOMPARE(parts.at(0).toObject()[u"valueQuantity"_s].toObject()[u"value"_s].toDouble(), 21.25);
        QCOMPARE(parts.at(1).toObject()[u"valueString"_s].toString(), u"none"_s);
        QCOMPARE(parts.at(2).toObject()[u"valueQuantity"_s].toObject()[u"value"_s].toDouble(), 10.0);
    }

    void anAmendmentSaysWhoWhenWhyAndInPlaceOfWhat()
    {
        records::WholeRecord record = falk();
        records::Visit amended = record.visits[0];
        amended.id = records::VisitId::make();
        amended.version = 2;
        amended.state = records::VisitState::Amended;
        amended.amendmentReason = u"wrong side"_s;
        amended.findings = {found(u"toe-tapping"_s, values::Grade{2}, records::Side::Right)};
        record.visits.push_back(amended);
        const QByteArray document = documentOf(record);
        QCOMPARE(resources(document, u"Observation"_s).at(0)[u"status"_s].toString(), u"amended"_s);
        const auto signatures = resources(document, u"Provenance"_s);
        QCOMPARE(signatures.size(), size_t(1));
        QCOMPARE(signatures[0][u"reason"_s].toArray().at(0).toObject()[u"text"_s].toString(),
                 u"wrong side"_s);
        QCOMPARE(signatures[0][u"recorded"_s].toString(), u"2026-03-02T10:00:00.000Z"_s);
        QVERIFY(document.contains("urn:uuid:" + record.visits[0].id.text.toLatin1() + "\"}}}"));
    }

    /// What a colleague reads of it is what counts here, until the amendment is signed.
    void anAmendmentThatIsADraftDoesNotHideWhatWasSigned()
    {
        records::WholeRecord record = falk();
        record.visits[0].findings = {found(u"toe-tapping"_s, values::Grade{2}, records::Side::Right)};
        records::Visit draft = record.visits[0];
        draft.id = records::VisitId::make();
        draft.version = 2;
        draft.state = records::VisitState::Draft;
        draft.author = {};
        draft.signedAt = {};
        draft.findings[0].value = values::Grade{3};
        record.visits.push_back(draft);
        const QByteArray document = documentOf(record);
        const auto seen = resources(document, u"Observation"_s);
        QCOMPARE(seen.size(), size_t(1));
        QCOMPARE(seen[0][u"status"_s].toString(), u"final"_s);
        QCOMPARE(codeIn(seen[0], u"valueCodeableConcept"_s), u"toe-tapping.2"_s);
        const auto visits = resources(document, u"Encounter"_s);
        QCOMPARE(visits.size(), size_t(1));
        QCOMPARE(visits[0][u"status"_s].toString(), u"finished"_s);
        QCOMPARE(visits[0][u"contained"_s].toArray().size(), 2); // the draft and its finding
    }

    /// Superseded versions, and what was found at a visit entered in error, stand in the Encounter alone.
    void whatDoesNotStandIsNoEntry()
    {
        records::WholeRecord record = falk();
        record.visits[0].findings = {found(u"toe-tapping"_s, values::Grade{2}, records::Side::Right)};
        record.visits[0].withdrawn = records::Withdrawal{u"other person"_s, record.visits[0].author, now};
        const QByteArray document = documentOf(record);
        QCOMPARE(resources(document, u"Observation"_s).size(), size_t(0));
        const QJsonObject visit = resources(document, u"Encounter"_s).at(0);
        QCOMPARE(visit[u"status"_s].toString(), u"entered-in-error"_s);
        const QJsonValue inside = visit[u"contained"_s].toArray().at(0);
        QCOMPARE(inside[u"status"_s].toString(), u"entered-in-error"_s);
        QCOMPARE(inside[u"encounter"_s][u"reference"_s].toString(), u"#"_s);
    }

    void eventsTargetsAndRedFlagsComeWithIt()
    {
        records::WholeRecord record = falk();
        record.visits[0].redFlags = {{book().redFlags[0].id, {true, {{u"sent on"_s, now.date(), {10, 5}}}}}};
        records::Happening fall{records::HappeningId::make(),
                                1,
                                record.patient.id,
                                records::HappeningKind::Fall,
                                QDate(2026, 2, 1),
                                {},
                                records::Injury::Yes,
                                u"on the stairs"_s,
                                {},
                                u"A. Tester"_s,
                                now};
        record.happenings = {fall};
        records::Target walk;
        walk.measure = u"timed-up-and-go"_s;
        walk.value = 12;
        walk.agreedOn = QDate(2026, 1, 5);
        walk.enteredAt = now;
        records::Target faster = walk;
        faster.value = 10;
        record.targets = {walk, faster};
        const QByteArray document = documentOf(record);
        const auto seen = resources(document, u"Observation"_s);
        QCOMPARE(seen.size(), size_t(2));
        QCOMPARE(seen[0][u"valueBoolean"_s].toBool(), true);
        QCOMPARE(seen[0][u"note"_s][0][u"text"_s].toString(), u"sent on"_s);
        QCOMPARE(codeIn(seen[1], u"code"_s), u"fall"_s);
        QCOMPARE(seen[1][u"valueString"_s].toString(), u"on the stairs"_s);
        const auto goals = resources(document, u"Goal"_s);
        QCOMPARE(goals.size(), size_t(2));
        QCOMPARE(goals[0][u"lifecycleStatus"_s].toString(), u"cancelled"_s);
        QCOMPARE(goals[1][u"lifecycleStatus"_s].toString(), u"active"_s);
        QCOMPARE(goals[1][u"target"_s][0][u"detailQuantity"_s][u"value"_s].toDouble(), 10.0);
    }

    void aSignedLetterIsADocumentAndAReport()
    {
        const records::WholeRecord record = falk();
        records::Letter letter;
        letter.id = records::LetterId::make();
        letter.visit = record.visits[0].id;
        letter.author = record.visits[0].author;
        letter.signedAt = now;
        letter.pdf = "%PDF as signed";
        records::Letter corrected = letter;
        corrected.id = records::LetterId::make();
        corrected.replaces = letter.id;
        const QByteArray document = documentOf(record, {letter, corrected});
        const auto references = resources(document, u"DocumentReference"_s);
        QCOMPARE(references.size(), size_t(2));
        QCOMPARE(references[0][u"status"_s].toString(), u"superseded"_s);
        QCOMPARE(references[1][u"status"_s].toString(), u"current"_s);
        QCOMPARE(references[1][u"relatesTo"_s].toArray().at(0).toObject()[u"code"_s].toString(),
                 u"replaces"_s);
        const QString data = references[0][u"content"_s]
                                 .toArray()
                                 .at(0)
                                 .toObject()[u"attachment"_s]
                                 .toObject()[u"data"_s]
                                 .toString();
        QCOMPARE(QByteArray::fromBase64(data.toLatin1()), letter.pdf);
        QCOMPARE(resources(document, u"DiagnosticReport"_s).size(), size_t(2));
        QCOMPARE(resources(document, u"Practitioner"_s).size(), size_t(1));
    }

    void severalPatientsAreACollectionOfDocuments()
    {
        const QByteArray one = documentOf(falk());
        QCOMPARE(fhir::collection({one}, {}, now), one);
        const QByteArray two = fhir::collection({one, documentOf(falk())}, {}, now);
        const QJsonObject bundle = QJsonDocument::fromJson(two).object();
        QCOMPARE(bundle[u"type"_s].toString(), u"collection"_s);
        QCOMPARE(resources(two, u"Bundle"_s).size(), size_t(2));
        QVERIFY(!QJsonDocument::fromJson(fhir::collection({}, {}, now)).isNull());
    }
};

HOUSE_TEST(TestBundle)

} // namespace test_bundle

#include "test_bundle.moc"
