#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace test_export
{

using findings_file::walk;
using program::Outcome;
using program::Place;

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

class TestExport : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsExportedIsImported()
    {
        const Place place;
        QCOMPARE(place.import({walk(), walk({{u"date"_s, u"2024-04-01"_s}})}).code, 0);
        const Outcome written = program::run({u"export"_s, place.records, place.path(u"out.csv"_s)});
        QCOMPARE(written.err, QString());
        QCOMPARE(written.out, u"Exported: patients 1, versions of visits 2, findings 2, letters 0.\n"_s);
        const Place other;
        const Outcome taken = program::run({u"import"_s, other.records, place.path(u"out.csv"_s)});
        QCOMPARE(taken.out, u"Imported: 1 new patient, 2 new visits, 0 amendments and 2 findings.\n"_s);
        QCOMPARE(program::run({u"export"_s, other.records, other.path(u"out.csv"_s)}).code, 0);
        QCOMPARE(contentOf(other.path(u"out.csv"_s)), contentOf(place.path(u"out.csv"_s)));
        QCOMPARE(other.changes(u"T-1"_s), place.changes(u"T-1"_s));
        QCOMPARE(program::run({u"check"_s, other.records}).out, u"sound\n"_s);
        const QFile::Permissions others = QFile::ReadGroup | QFile::ReadOther;
        QVERIFY(!(QFile::permissions(place.path(u"out.csv"_s)) & others));
    }

    void daysPatientAndMeasureLimitIt()
    {
        const Place place;
        QCOMPARE(place.import({walk(), walk({{u"date"_s, u"2024-04-01"_s}})}).code, 0);
        const auto said = [&](const QStringList& options) {
            return program::run(QStringList{u"export"_s, place.records, place.path(u"out.csv"_s)} + options)
                .out;
        };
        const QString one = u"Exported: patients 1, versions of visits 1, findings 1, letters 0.\n"_s;
        QCOMPARE(said({u"--from"_s, u"2024-04-01"_s}), one);
        QCOMPARE(said({u"--until"_s, u"2024-03-31"_s}), one);
        QVERIFY(said({u"--measure"_s, u"berg-balance"_s}).startsWith(u"Exported: patients 0"_s));
        QVERIFY(said({u"--patient"_s, u"T-1"_s}).startsWith(u"Exported: patients 1"_s));
    }

    void wrongUseIsSaidAndWritesNothing_data()
    {
        QTest::addColumn<QStringList>("words");
        QTest::addColumn<QString>("said");
        QTest::newRow("ending") << QStringList{u"out.txt"_s}
                                << u"The file that is written must end in .csv."_s;
        QTest::newRow("day") << QStringList{u"out.csv"_s, u"--from"_s, u"1.3.2024"_s}
                             << u"The day of --from must be written as YYYY-MM-DD."_s;
        QTest::newRow("fhir") << QStringList{u"out.csv"_s, u"--fhir"_s, u"out.xml"_s}
                              << u"The file of --fhir must end in .json."_s;
        QTest::newRow("turned") << QStringList{u"out.csv"_s, u"--from"_s, u"2024-03-02"_s, u"--until"_s,
                                               u"2024-03-01"_s}
                                << u"The day of --from must not be after that of --until."_s;
    }

    void wrongUseIsSaidAndWritesNothing()
    {
        QFETCH(QStringList, words);
        QFETCH(const QString, said);
        const Place place;
        QCOMPARE(place.import({walk()}).code, 0);
        words.front() = place.path(words.front());
        const Outcome refused = program::run(QStringList{u"export"_s, place.records} + words);
        QCOMPARE(refused.code, 2);
        QVERIFY2(refused.err.startsWith(said), qPrintable(refused.err));
        QVERIFY(!QFileInfo::exists(words.front()));
    }

    void documentsOfFhirStandBesideIt()
    {
        const Place place;
        QCOMPARE(place.import({walk(), walk({{u"patient"_s, u"T-2"_s}})}).code, 0);
        const QString fhir = place.path(u"out.json"_s);
        QCOMPARE(program::run({u"export"_s, place.records, place.path(u"out.csv"_s), u"--fhir"_s, fhir}).code,
                 0);
        const QJsonObject both = QJsonDocument::fromJson(contentOf(fhir)).object();
        QCOMPARE(both[u"type"_s].toString(), u"collection"_s);
        QCOMPARE(both[u"entry"_s].toArray().size(), 2);
        QCOMPARE(program::run({u"export"_s, place.records, place.path(u"out.csv"_s), u"--patient"_s, u"T-1"_s,
                               u"--fhir"_s, fhir})
                     .code,
                 0);
        QCOMPARE(QJsonDocument::fromJson(contentOf(fhir)).object()[u"type"_s].toString(), u"document"_s);
        const Place other;
        const Outcome taken = program::run({u"import"_s, other.records, fhir});
        QCOMPARE(taken.out, u"Imported: 1 new patient, 1 new visit, 0 amendments and 1 finding.\n"_s);
        QCOMPARE(program::run({u"export"_s, other.records, other.path(u"out.csv"_s)}).code, 0);
        QCOMPARE(contentOf(other.path(u"out.csv"_s)), contentOf(place.path(u"out.csv"_s)));
    }

    void whatABundleHoldsBesideIsNamed()
    {
        const Place place;
        QFile file(place.path(u"other.json"_s));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(R"({"resourceType":"Bundle","entry":[{"resource":{"resourceType":"Slot"}},)"
                   R"({"resource":{"resourceType":"Patient"}}]})");
        file.close();
        const Outcome taken = program::run({u"import"_s, place.records, file.fileName()});
        QCOMPARE(taken.code, 0);
        QCOMPARE(taken.out, u"Nothing is new; the records hold all of it already.\n"_s);
        QVERIFY2(taken.err.startsWith(u"Left out: Patient (1). It has no record number, or several.\n"
                                      "Left out: Slot (1)\n"_s),
                 qPrintable(taken.err));
    }

    void aFolderThatIsThereIsLeftAlone()
    {
        const Place place;
        QCOMPARE(place.import({walk()}).code, 0);
        const Outcome refused = program::run(
            {u"export"_s, place.records, place.path(u"out.csv"_s), u"--letters"_s, place.folder.path()});
        QCOMPARE(refused.code, 1);
        QCOMPARE(refused.err, u"The folder for the letters is there already; name one that is not.\n"_s);
        QVERIFY(!QFileInfo::exists(place.path(u"out.csv"_s)));
    }
};

HOUSE_TEST(TestExport)

} // namespace test_export

#include "test_export.moc"
