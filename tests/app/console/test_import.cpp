#include "app/session/account.h"
#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

#include <QFileInfo>

using namespace Qt::StringLiterals;

namespace test_import
{

using findings_file::Cells;
using findings_file::walk;
using program::Outcome;
using program::Place;

const Cells berg = {{u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46"_s}};
const Cells later = {{u"date"_s, u"2024-04-01"_s}};

class TestImport : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void makesTheRecordsWhereThereAreNone();
    void anUnchangedFileIsNoChange();
    void furtherRowsAreAdded();
    void aDifferentValueIsAnErrorAndChangesNothing();
    void allOfAFileOrNone();
    void aFailedImportLeavesNoRecordsFile();
    void aFileThatIsNotThereIsAnError();
    void aFileWithoutEndAndOneTooLargeAreErrors();
    void recordsOfAnotherProgramAreLeftAlone();
    void importedRecordsAreSound();
    void whoImportsIsTheAccountOrIsNamed();
    void aNameThatIsEmptyIsWrongUse();
};

void TestImport::whoImportsIsTheAccountOrIsNamed()
{
    const Place place;
    QCOMPARE(place.import({walk()}).code, 0);
    QCOMPARE(
        program::run({u"import"_s, place.records, place.file({walk(later)}), u"--by"_s, u"M. Ferrer"_s}).code,
        0);
    const auto store =
        *storage::Store::open(place.records, {u"tester"_s, [] { return QDateTime::currentDateTimeUtc(); }},
                              records::Opening::MustExist);
    const auto patient = **storage::Patients(*store).withRecordNumber(u"T-1"_s);
    const auto visits = *storage::Visits(*store).ofPatient(patient.id);
    QCOMPARE(visits.size(), size_t(2));
    QCOMPARE(visits.front().author.name, session::account());
    QCOMPARE(visits.back().author.name, u"M. Ferrer"_s);
    QCOMPARE(storage::AuditTrail(*store).newest(1)->front().who, u"M. Ferrer"_s);
}

void TestImport::aNameThatIsEmptyIsWrongUse()
{
    const Place place;
    const Outcome refused =
        program::run({u"import"_s, place.records, place.file({walk()}), u"--by"_s, u" "_s});
    QCOMPARE(refused.code, 2);
    QVERIFY(refused.err.startsWith(u"The name of --by must not be empty."_s));
    QVERIFY(!QFileInfo::exists(place.records));
}

void TestImport::makesTheRecordsWhereThereAreNone()
{
    const Place place;
    const Outcome imported = place.import({walk(), walk(berg), walk(later)});
    QCOMPARE(imported.code, 0);
    QCOMPARE(imported.out, u"Imported: 1 new patient, 2 new visits, 0 amendments and 3 findings.\n"_s);
    QVERIFY(QFileInfo::exists(place.records));
    const QFile::Permissions others =
        QFile::ReadGroup | QFile::WriteGroup | QFile::ReadOther | QFile::WriteOther;
    QVERIFY(!(QFile::permissions(place.records) & others));
}

void TestImport::anUnchangedFileIsNoChange()
{
    const Place place;
    const std::vector<Cells> rows = {
        walk(), walk(berg), walk(later),
        walk({{u"measure"_s, u"tandem-steps"_s}, {u"value"_s, u""_s}, {u"state"_s, u"unable"_s}})};
    QCOMPARE(place.import(rows).code, 0);
    const QJsonArray before = place.changes(u"T-1"_s);
    QVERIFY(!before.isEmpty());
    for (int again = 0; again < 2; ++again) {
        const Outcome imported = place.import(rows);
        QCOMPARE(imported.code, 0);
        QCOMPARE(imported.out, u"Nothing is new; the records hold all of it already.\n"_s);
    }
    QCOMPARE(place.changes(u"T-1"_s), before);
}

void TestImport::furtherRowsAreAdded()
{
    const Place place;
    QCOMPARE(place.import({walk()}).code, 0);
    const Outcome imported =
        place.import({walk(), walk(berg), walk(later), walk({{u"trial"_s, u"2"_s}, {u"value"_s, u"11"_s}})});
    QCOMPARE(imported.err, QString());
    QCOMPARE(imported.out, u"Imported: 0 new patients, 1 new visit, 1 amendment and 3 findings.\n"_s);
    QCOMPARE(place.change(u"T-1"_s, u"timed-up-and-go"_s, u"previous"_s)[u"againstValue"_s].toDouble(), 11.0);
    QCOMPARE(place.import({walk(), walk(berg), walk(later)}).out,
             u"Nothing is new; the records hold all of it already.\n"_s);
}

void TestImport::aDifferentValueIsAnErrorAndChangesNothing()
{
    const Place place;
    QCOMPARE(place.import({walk()}).code, 0);
    const QJsonArray before = place.changes(u"T-1"_s);
    const Outcome imported = place.import({walk(later), walk({{u"value"_s, u"12.6"_s}})});
    QCOMPARE(imported.code, 1);
    QCOMPARE(imported.out, QString());
    QVERIFY2(imported.err.startsWith(u"Line 3, column value: Allowed is what the records hold"_s),
             qPrintable(imported.err));
    QCOMPARE(imported.err.count(u'\n'), 1);
    QCOMPARE(place.changes(u"T-1"_s), before);
}

void TestImport::allOfAFileOrNone()
{
    const Place place;
    QCOMPARE(place.import({walk()}).code, 0);
    const QJsonArray before = place.changes(u"T-1"_s);
    const Outcome wrongCell = place.import(
        {walk(later), walk({{u"patient"_s, u"T-2"_s}}),
         walk({{u"measure"_s, u"tandem-steps"_s}, {u"value"_s, u"13"_s}, {u"date"_s, u"2024-05-01"_s}})});
    QCOMPARE(wrongCell.code, 1);
    QVERIFY2(wrongCell.err.startsWith(u"Line 4, column value: "_s) && wrongCell.err.contains(u"0 to 10"_s),
             qPrintable(wrongCell.err));
    // The first patient could be added; the second is known under another name.
    const Outcome wrongName =
        place.import({walk({{u"patient"_s, u"T-0"_s}}), walk({{u"family"_s, u"Aalto"_s}})});
    QCOMPARE(wrongName.code, 1);
    QVERIFY2(wrongName.err.startsWith(u"Line 3, column family: "_s), qPrintable(wrongName.err));
    QCOMPARE(place.changes(u"T-1"_s), before);
    for (const QString& patient : {u"T-0"_s, u"T-2"_s})
        QCOMPARE(program::run({u"change"_s, place.records, u"--patient"_s, patient}).code, 1);
}

void TestImport::aFailedImportLeavesNoRecordsFile()
{
    const Place place;
    QCOMPARE(place.import({walk({{u"value"_s, u"fast"_s}})}).code, 1);
    QCOMPARE(place.import({walk({{u"trial"_s, u"2"_s}})}).code, 1);
    QCOMPARE(QDir(place.folder.path()).entryList(QDir::Files), QStringList{u"findings.csv"_s});
}

void TestImport::aFileThatIsNotThereIsAnError()
{
    const Place place;
    const Outcome imported = program::run({u"import"_s, place.records, place.path(u"nothing.csv"_s)});
    QCOMPARE(imported.code, 1);
    QCOMPARE(imported.err.count(u'\n'), 1);
    QVERIFY(!QFileInfo::exists(place.records));
}

void TestImport::aFileWithoutEndAndOneTooLargeAreErrors()
{
    const Place place;
    const Outcome imported = program::run({u"import"_s, place.records, u"/dev/zero"_s});
    QCOMPARE(imported.code, 1);
    QCOMPARE(imported.err, u"This is not a file; a folder, a device or a pipe cannot be read.\n"_s);
    QFile large(place.path(u"large.csv"_s));
    QVERIFY(large.open(QIODevice::WriteOnly) && large.resize(100'000'001));
    QCOMPARE(program::run({u"import"_s, place.records, large.fileName()}).err,
             u"The file is larger than 100 MB, the most that is allowed.\n"_s);
}

void TestImport::recordsOfAnotherProgramAreLeftAlone()
{
    const Place place;
    QFile foreign(place.records);
    QVERIFY(foreign.open(QIODevice::WriteOnly));
    foreign.write("Dear diary");
    foreign.close();
    QCOMPARE(place.import({walk()}).code, 1);
    QVERIFY(foreign.open(QIODevice::ReadOnly));
    QCOMPARE(foreign.readAll(), QByteArray("Dear diary"));
}

void TestImport::importedRecordsAreSound()
{
    const Place place;
    QCOMPARE(place.import({walk(), walk(berg)}).code, 0);
    QCOMPARE(place.import({walk(later), walk({{u"measure"_s, u"sara"_s}, {u"value"_s, u"10.5"_s}})}).code, 0);
    const Outcome checked = program::run({u"check"_s, place.records});
    QCOMPARE(checked.code, 0);
    QCOMPARE(checked.out, u"sound\n"_s);
}

HOUSE_TEST(TestImport)

} // namespace test_import

#include "test_import.moc"
