#include "core/fhir/reading.h"

#include "core/base/file.h"
#include "core/catalogue/reader.h"
#include "core/fhir/bundle.h"
#include "tests/support/made_up_record.h"
#include "tests/support/test_support.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRandomGenerator>

using namespace Qt::StringLiterals;

namespace test_reading
{

const QDate today(2026, 3, 12);
const QDateTime now(today, QTime(9, 30), Qt::UTC);

const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

base::Result<exchange::FindingsFile> readBack(const QByteArray& bytes)
{
    return fhir::bundleFrom(bytes, book(), today);
}

/// A Bundle as another program may write it, of these resources.
QByteArray foreign(const QJsonArray& resources)
{
    QJsonArray entries;
    for (const QJsonValue& resource : resources)
        entries += QJsonObject{{u"fullUrl"_s, u"http://example.org/fhir/"_s + resource[u"id"_s].toString()},
                               {u"resource"_s, resource}};
    return QJsonDocument(QJsonObject{{u"resourceType"_s, u"Bundle"_s},
                                     {u"type"_s, u"searchset"_s},
                                     {u"entry"_s, entries}})
        .toJson();
}

const QJsonObject ida{{u"resourceType"_s, u"Patient"_s},
                      {u"id"_s, u"p1"_s},
                      {u"identifier"_s, QJsonArray{QJsonObject{{u"value"_s, u"N-1"_s}}}},
                      {u"name"_s, QJsonArray{QJsonObject{{u"family"_s, u"Varnhem"_s},
                                                         {u"given"_s, QJsonArray{u"Ida"_s, u"Odile"_s}}}}},
                      {u"gender"_s, u"female"_s},
                      {u"birthDate"_s, u"1950-02-03"_s}};

/// An Observation with a code of LOINC and a number in UCUM.
QJsonObject seen(const QString& code, double value, const QString& unit,
                 const QString& at = u"2026-03-02T10:15:00+01:00"_s)
{
    const QJsonObject coding{{u"system"_s, u"http://loinc.org"_s}, {u"code"_s, code}};
    return {
        {u"resourceType"_s, u"Observation"_s},
        {u"id"_s, u"o1"_s},
        {u"status"_s, u"final"_s},
        {u"code"_s, QJsonObject{{u"coding"_s, QJsonArray{coding}}}},
        {u"subject"_s, QJsonObject{{u"reference"_s, u"Patient/p1"_s}}},
        {u"effectiveDateTime"_s, at},
        {u"valueQuantity"_s,
         QJsonObject{{u"value"_s, value}, {u"system"_s, u"http://unitsofmeasure.org"_s}, {u"code"_s, unit}}}};
}

QJsonObject with(QJsonObject object, const QString& name, const QJsonValue& value)
{
    object[name] = value;
    return object;
}

QString wordsOf(const exchange::LeftOut& left)
{
    return u"%1 %2 %3 %4"_s.arg(left.type, left.code, QString::number(left.count), left.why.english());
}

class TestReading : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// In memory, without records between: everything but how often it was saved.
    void whatWasWrittenComesBackValueForValue()
    {
        std::vector<QByteArray> documents;
        std::vector<records::WholeRecord> made;
        records::Letter letter;
        letter.id = records::LetterId::make();
        letter.kind = u"referral"_s;
        letter.author = {u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s};
        letter.signedAt = now;
        letter.pdf = "%PDF as signed";
        for (quint32 number = 1; number <= 60; ++number) {
            made.push_back(madeUpRecord(number, book()));
            documents.push_back(fhir::document(made.back(), {letter}, book(), now));
        }
        const QByteArray bytes = fhir::collection(documents, {}, now);
        if (const QString path = qEnvironmentVariable("APLOMB_BUNDLE");
            !path.isEmpty()) // tests/published/fhir
            QVERIFY(base::write(bytes, path));
        const auto file = readBack(bytes);
        QVERIFY2(file, file ? "" : qPrintable(file.error().what.english()));
        QVERIFY2(file->faults.isNone(),
                 file->faults.isNone() ? "" : qPrintable(file->faults.asOne().what.english()));
        QCOMPARE(file->leftOut.size(), size_t(2)); // letters are not read back
        QCOMPARE(wordsOf(file->leftOut[0]), u"DocumentReference referral 60 "_s);
        QCOMPARE(wordsOf(file->leftOut[1]), u"DiagnosticReport referral 60 "_s);
        QCOMPARE(file->records.size(), made.size());
        const auto order = [](records::WholeRecord record) {
            std::ranges::sort(record.visits, {}, [](const records::Visit& visit) {
                return std::pair(visit.series.text, visit.version);
            });
            std::ranges::sort(record.happenings, {}, [](const records::Happening& happening) {
                return std::pair(happening.id.text, happening.version);
            });
            return record;
        };
        for (size_t i = 0; i < made.size(); ++i)
            QVERIFY2(order(file->records[i].record) == order(made[i]), qPrintable(QString::number(i + 1)));
    }

    void whatIsUnderstoodOfAnotherProgramIsTakenAndTheRestNamed()
    {
        const auto file = readBack(
            foreign({ida, seen(u"89423-8"_s, 12.75, u"s"_s), seen(u"64098-7"_s, 420, u"m"_s),
                     seen(u"66247-8"_s, 11, u"{#}"_s, u"2026-03-05"_s), seen(u"8302-2"_s, 171, u"cm"_s),
                     seen(u"8302-2"_s, 172, u"cm"_s), seen(u"64098-7"_s, 1400, u"[ft_i]"_s, u"2026-03-06"_s),
                     with(seen(u"89423-8"_s, 13, u"s"_s, u"2026-03-07"_s), u"status"_s, u"preliminary"_s),
                     with(seen(u"89423-8"_s, 13, u"s"_s), u"effectiveDateTime"_s, u"2026-03"_s),
                     QJsonObject{{u"resourceType"_s, u"MedicationRequest"_s}}}));
        QVERIFY(file && file->faults.isNone());
        QCOMPARE(file->patients.size(), size_t(1));
        const records::Patient& patient = file->patients[0].patient;
        QCOMPARE(patient.recordNumber, u"N-1"_s);
        QCOMPARE(patient.given, u"Ida Odile"_s);
        QCOMPARE(patient.born.value(), QDate(1950, 2, 3));
        QCOMPARE(file->patients[0].visits.size(), size_t(2));
        const records::Visit& visit = file->patients[0].visits[0].visit;
        QCOMPARE(visit.day, QDate(2026, 3, 2));
        QCOMPARE(visit.findings.size(), size_t(2));
        const records::Finding* walk = visit.finding(u"timed-up-and-go"_s, records::Side::None);
        QVERIFY(walk != nullptr);
        QVERIFY(walk->value == values::Value(values::Quantity{12.75, values::Unit::Second}));
        QVERIFY(file->patients[0].visits[1].visit.finding(u"chair-stand-30s"_s, records::Side::None) !=
                nullptr); // UCUM 2.1: what stands in braces is the unity
        QStringList left;
        for (const exchange::LeftOut& each : file->leftOut)
            left += wordsOf(each);
        QCOMPARE(left,
                 (QStringList{u"Observation 8302-2 2 "_s,
                              u"Observation 64098-7 1 Its value is no number in the unit of the test."_s,
                              u"Observation 89423-8 1 It is not final."_s,
                              u"Observation 89423-8 1 It has no day."_s, u"MedicationRequest  1 "_s}));
    }

    void whatStandsTwiceOrBelongsToNobodyIsNotGuessed()
    {
        const auto twice =
            readBack(foreign({ida, seen(u"89423-8"_s, 12, u"s"_s), seen(u"89423-8"_s, 13, u"s"_s)}));
        QVERIFY(twice && twice->patients[0].visits.empty());
        QCOMPARE(wordsOf(twice->leftOut.at(0)),
                 u"Observation 89423-8 2 The same test stands twice on one day."_s);
        const auto nobody =
            readBack(foreign({with(ida, u"identifier"_s, QJsonArray()), seen(u"89423-8"_s, 12, u"s"_s)}));
        QVERIFY(nobody && nobody->patients.empty());
        QCOMPARE(wordsOf(nobody->leftOut.at(0)), u"Patient  1 It has no record number, or several."_s);
        QCOMPARE(wordsOf(nobody->leftOut.at(1)), u"Observation 89423-8 1 Its patient is not taken."_s);
    }

    void aValueThatIsNotAllowedIsAFaultOfItsEntry()
    {
        const auto file = readBack(foreign({ida, seen(u"89423-8"_s, -4, u"s"_s)}));
        QVERIFY(file);
        QCOMPARE(file->faults.count(), 1);
        QVERIFY(file->faults.asOne().what.english().startsWith(u"Entry 2, value: "_s));
    }

    void whatIsNoBundleIsRefusedWithOneSentence_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QString>("said");
        QTest::newRow("cut") << QByteArray("{\"resourceType\":\"Bundle\",")
                             << u"The file is no JSON from character"_s;
        QTest::newRow("list") << QByteArray("[1]") << u"The file is JSON, but no Bundle of FHIR"_s;
        QTest::newRow("patient") << QByteArray("{\"resourceType\":\"Patient\"}")
                                 << u"The file is JSON, but no Bundle of FHIR"_s;
        QTest::newRow("entry") << QByteArray("{\"resourceType\":\"Bundle\",\"entry\":{}}")
                               << u"Entry 1, entry: Allowed is a list."_s;
        QTest::newRow("resource") << QByteArray("{\"resourceType\":\"Bundle\",\"entry\":[{\"resource\":5}]}")
                                  << u"Entry 1, resource: Allowed is a resource of FHIR."_s;
        QTest::newRow("deep") << QByteArray("{\"a\":").repeated(100'000)
                              << u"The file is nested too deeply"_s;
        QTest::newRow("deep lists") << QByteArray("[").repeated(100'000)
                                    << u"The file is nested too deeply"_s;
    }

    void whatIsNoBundleIsRefusedWithOneSentence()
    {
        QFETCH(const QByteArray, bytes);
        QFETCH(const QString, said);
        const auto refused = readBack(bytes);
        QVERIFY(!refused);
        QVERIFY2(refused.error().what.english().startsWith(said), qPrintable(refused.error().what.english()));
    }

    void aChangedBundleOfOursNamesEntryAndPart_data()
    {
        QTest::addColumn<QByteArray>("from");
        QTest::addColumn<QByteArray>("to");
        QTest::addColumn<QString>("said");
        QTest::newRow("number") << QByteArray("\"value\":12.5,") << QByteArray("\"value\":\"12.5\",")
                                << u"value: Allowed is a number."_s;
        QTest::newRow("unit") << QByteArray("\"code\":\"s\"") << QByteArray("\"code\":\"min\"")
                              << u"unit: Allowed for this measure is “s”."_s;
        QTest::newRow("patient") << QByteArray("\"subject\":{\"reference\":\"urn:uuid:")
                                 << QByteArray("\"subject\":{\"reference\":\"urn:uuid:x")
                                 << u"subject: Allowed is a Patient of this Bundle."_s;
        QTest::newRow("gender") << QByteArray("\"gender\":\"female\"") << QByteArray("\"gender\":5")
                                << u"gender: Allowed is a text."_s;
        QTest::newRow("column") << QByteArray("\"url\":\"version\"") << QByteArray("\"url\":\"verses\"")
                                << u"verses: Allowed are the names of columns and conditions."_s;
        QTest::newRow("absent") << QByteArray("\"valueQuantity\"") << QByteArray("\"valueQuality\"")
                                << u"state: Allowed are done, unable"_s;
    }

    void aChangedBundleOfOursNamesEntryAndPart()
    {
        QFETCH(const QByteArray, from);
        QFETCH(const QByteArray, to);
        QFETCH(const QString, said);
        records::WholeRecord record;
        record.patient.id = records::PatientId::make();
        record.patient.family = u"Varnhem"_s;
        record.patient.sex = records::Sex::Female;
        records::Visit visit;
        visit.id = records::VisitId::make();
        visit.series = visit.id;
        visit.patient = record.patient.id;
        visit.day = QDate(2026, 3, 2);
        records::Finding walk;
        walk.measure = u"timed-up-and-go"_s;
        walk.value = values::Quantity{12.5, values::Unit::Second};
        visit.findings = {walk};
        record.visits = {visit};
        QByteArray bytes = fhir::document(record, {}, book(), now);
        QVERIFY(readBack(bytes)->faults.isNone());
        QVERIFY2(bytes.contains(from), bytes.constData());
        bytes.replace(from, to);
        const auto file = readBack(bytes);
        QVERIFY(file && !file->faults.isNone());
        const QString words = file->faults.asOne().what.english();
        QVERIFY2(words.startsWith(u"Entry "_s) && words.contains(said), qPrintable(words));
    }

    /// Cuts, swaps and doubled pieces; whatever comes, it is said. More: APLOMB_ROUNDS=20000.
    void noBundleIsTooStrange()
    {
        std::vector<QByteArray> bundles;
        for (const quint32 number : {3U, 4U, 8U})
            bundles.push_back(fhir::document(madeUpRecord(number, book()), {}, book(), now));
        bundles.push_back(foreign({ida, seen(u"89423-8"_s, 12, u"s"_s), seen(u"8302-2"_s, 171, u"cm"_s)}));
        const QByteArray pieces[] = {"null",          "[]",     "{}", "\"\"", "-1e400", "true",
                                     "\"urn:uuid:\"", "{\"a\":"};
        QRandomGenerator random(20260312);
        const auto place = [&](const QByteArray& bytes) {
            return qsizetype(random.bounded(int(bytes.size())));
        };
        const int wished = qEnvironmentVariableIntValue("APLOMB_ROUNDS");
        int read = 0, refused = 0;
        for (int round = 0; round < (wished > 0 ? wished : 400); ++round) {
            QByteArray bytes = bundles[size_t(round) % bundles.size()];
            for (int change = random.bounded(1, 4); change > 0; --change) {
                const qsizetype at = place(bytes);
                switch (random.bounded(5)) {
                case 0: // a value of another type
                    if (const qsizetype colon = bytes.indexOf(':', at); colon >= 0) {
                        const qsizetype end = std::max(colon + 1, bytes.indexOf(',', colon));
                        bytes.replace(colon + 1, end - colon - 1,
                                      pieces[random.bounded(int(std::size(pieces)))]);
                    }
                    break;
                case 1:
                    bytes.truncate(at + 1);
                    break;
                case 2:
                    bytes.remove(at, random.bounded(1, 40));
                    break;
                case 3:
                    bytes.insert(at, bytes.mid(place(bytes), random.bounded(1, 200)));
                    break;
                default:
                    bytes[at] = char(random.bounded(256));
                }
                if (bytes.isEmpty())
                    bytes = "{";
            }
            const auto file = readBack(bytes);
            ++(file ? read : refused);
            if (!file)
                QVERIFY(!file.error().what.english().isEmpty());
        }
        QVERIFY(read > 20 && refused > 20); // both were met
    }

    /// Between any two pieces of a large file, so that no one waits for the rest of it.
    void aReadingStopsWhereverItIs()
    {
        std::vector<QByteArray> documents;
        for (quint32 number = 1; number <= 12; ++number)
            documents.push_back(fhir::document(madeUpRecord(number, book()), {}, book(), now));
        const QByteArray bytes = fhir::collection(documents, {}, now);
        std::vector<int> told;
        QVERIFY(fhir::bundleFrom(bytes, book(), today, [&](int percent) {
            told.push_back(percent);
            return true;
        }));
        QVERIFY(std::ranges::is_sorted(told));
        QVERIFY(told.front() == 0 && told.back() > 90 && told.back() <= 100);
        QVERIFY(std::ranges::count_if(told, [](int percent) { return percent > 0 && percent < 90; }) >=
                bytes.size() / (4 << 20));
        for (size_t i = 0; i < told.size(); i += 1 + told.size() / 5) {
            const auto stopped =
                fhir::bundleFrom(bytes, book(), today, [&](int percent) { return percent < told[i]; });
            QVERIFY(!stopped);
            QVERIFY(stopped.error() == base::stopped());
        }
        const QByteArray theirs = foreign({ida, seen(u"89423-8"_s, 12, u"s"_s)});
        const auto stopped = fhir::bundleFrom(theirs, book(), today, [](int) { return false; });
        QVERIFY(!stopped);
        QVERIFY(stopped.error() == base::stopped());
    }
};

HOUSE_TEST(TestReading)

} // namespace test_reading

#include "test_reading.moc"
