#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QFileInfo>

#include <sys/stat.h>

using namespace Qt::StringLiterals;

namespace test_files
{

using program::Outcome;
using program::Place;
using program::start;
using records::Opening;

/// A records file with one patient, T-1.
struct Clinic : Place {
    records::PatientId patient;

    Clinic()
    {
        auto store = open(Opening::MayCreate);
        records::Patient made;
        made.recordNumber = u"T-1"_s;
        made.family = u"Nowak"_s;
        patient = storage::Patients(*store).save(made)->id;
    }

    std::unique_ptr<storage::Store> open(Opening opening) const
    {
        const auto now = [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); };
        auto store = storage::Store::open(records, {u"Dr Serra"_s, now}, opening);
        return store ? std::move(*store) : nullptr;
    }

    QByteArray bytes() const
    {
        QFile file(records);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }

    QString pipe() const
    {
        const QString name = path(u"pipe.csv"_s);
        return mkfifo(name.toLocal8Bit().constData(), 0600) == 0 ? name : QString();
    }
};

/// What the verbs do to files and find in them.
class TestFiles : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void readingVerbsWorkBesideAnOpenWindow();
    void aBackupIsMadeBesideAnOpenWindow();
    void aBackupTakesNoFilesPlace();
    void aWritingVerbIsToldWhoHasTheRecords();
    void aCatalogueIsNotWrittenOverRecords_data();
    void aCatalogueIsNotWrittenOverRecords();
    void aFullOutputIsAnError_data();
    void aFullOutputIsAnError();
    void aPipeNobodyWritesToIsNotWaitedFor_data();
    void aPipeNobodyWritesToIsNotWaitedFor();
    void anUnknownPlatformEndsInOneSentence_data();
    void anUnknownPlatformEndsInOneSentence();
    void whereItIsTomorrowAVisitOfTomorrowIsSound();
    void whatLiesBehindTheEndIsAFault();
    void dataCannotOrderTheTerminalAbout();
    void aKilledDemoLeavesNoClinic();
};

void TestFiles::readingVerbsWorkBesideAnOpenWindow()
{
    const Clinic clinic;
    const auto window = clinic.open(Opening::MustExist);
    records::Patient further;
    further.recordNumber = u"T-2"_s;
    QVERIFY(storage::Patients(*window).save(further)); // in the log and not yet in the file
    QCOMPARE(start({u"change"_s, clinic.records, u"--patient"_s, u"T-2"_s}).code, 0);
    QCOMPARE(start({u"change"_s, clinic.records, u"--all"_s}).code, 0);
    QCOMPARE(start({u"check"_s, clinic.records}).code, 0);
    QCOMPARE(
        start({u"catalogue"_s, u"write"_s, clinic.path(u"own.json"_s), u"--records"_s, clinic.records}).code,
        0);
    const Outcome letter =
        start({u"letter"_s, clinic.records, u"--patient"_s, u"T-2"_s, u"--to"_s, clinic.path(u"x.pdf"_s)});
    QCOMPARE(letter.err, u"This patient has no signed visit to write about yet.\n"_s);
    further.recordNumber = u"T-3"_s;
    QVERIFY(storage::Patients(*window).save(further));
}

void TestFiles::aBackupIsMadeBesideAnOpenWindow()
{
    const Clinic clinic;
    const auto window = clinic.open(Opening::MustExist);
    records::Patient further;
    further.recordNumber = u"T-2"_s;
    QVERIFY(storage::Patients(*window).save(further)); // in the log and not yet in the file
    const QString backup = clinic.path(u"backup.aplomb"_s);
    const Outcome done = start({u"backup"_s, clinic.records, backup});
    QCOMPARE(done.err, QString());
    QCOMPARE(done.code, 0);
    QCOMPARE(done.out, u"Backed up and checked: %1\n"_s.arg(backup));
    QCOMPARE(start({u"check"_s, backup}).out, u"sound\n"_s);
    QCOMPARE(start({u"change"_s, backup, u"--patient"_s, u"T-2"_s}).code, 0);
}

void TestFiles::aBackupTakesNoFilesPlace()
{
    const Clinic clinic;
    const QByteArray before = clinic.bytes();
    const Outcome refused = start({u"backup"_s, clinic.records, clinic.records});
    QCOMPARE(refused.code, 1);
    QCOMPARE(refused.err, u"There is a file of that name already; choose another for the backup.\n"_s);
    QCOMPARE(clinic.bytes(), before);
}

void TestFiles::aWritingVerbIsToldWhoHasTheRecords()
{
    const Clinic clinic;
    const auto window = clinic.open(Opening::MustExist);
    const QByteArray own = R"({"format": 1})";
    QFile file(clinic.path(u"own.json"_s));
    QVERIFY(file.open(QIODevice::WriteOnly) && file.write(own) > 0);
    file.close();
    const QStringList verbs[] = {
        {u"import"_s, clinic.records, clinic.file({findings_file::walk()})},
        {u"demo"_s, clinic.records},
        {u"catalogue"_s, u"read"_s, file.fileName(), u"--records"_s, clinic.records}};
    for (const QStringList& verb : verbs) {
        const Outcome refused = start(verb);
        QCOMPARE(refused.code, 1);
        QCOMPARE(refused.out, QString());
        QVERIFY2(refused.err.startsWith(u"These records are open elsewhere: Dr Serra has had them open"_s) &&
                     refused.err.contains(u"since 01-Mar-2026, 13:45."_s) && refused.err.count(u'\n') == 1,
                 qPrintable(refused.err));
    }
}

void TestFiles::aCatalogueIsNotWrittenOverRecords_data()
{
    QTest::addColumn<QString>("target");
    QTest::newRow("those it reads") << u"clinic.aplomb"_s;
    QTest::newRow("their log") << u"clinic.aplomb-wal"_s;
    QTest::newRow("others") << u"copy.json"_s;
}

void TestFiles::aCatalogueIsNotWrittenOverRecords()
{
    QFETCH(QString, target);
    const Clinic clinic;
    const QByteArray before = clinic.bytes();
    QVERIFY(QFile::copy(clinic.records, clinic.path(u"copy.json"_s)));
    const Outcome written =
        start({u"catalogue"_s, u"write"_s, clinic.path(target), u"--records"_s, clinic.records});
    QCOMPARE(written.code, 1);
    QCOMPARE(written.err, u"A records file is there, and nothing is written over it.\n"_s);
    QCOMPARE(clinic.bytes(), before);
    QVERIFY(QFileInfo(clinic.path(u"copy.json"_s)).size() == before.size());
}

void TestFiles::aFullOutputIsAnError_data()
{
    QTest::addColumn<QStringList>("arguments");
    QTest::newRow("change") << QStringList{u"change"_s, u"RECORDS"_s, u"--all"_s};
    QTest::newRow("change as JSON") << QStringList{u"change"_s, u"RECORDS"_s, u"--all"_s, u"--json"_s};
    QTest::newRow("check") << QStringList{u"check"_s, u"RECORDS"_s};
    QTest::newRow("help") << QStringList{u"--help"_s};
    QTest::newRow("version") << QStringList{u"--version"_s};
}

void TestFiles::aFullOutputIsAnError()
{
    QFETCH(QStringList, arguments);
    const Clinic clinic;
    QProcess process;
    process.setStandardOutputFile(u"/dev/full"_s);
    process.start(places::program(), arguments.replaceInStrings(u"RECORDS"_s, clinic.records));
    QVERIFY(process.waitForFinished(120'000));
    QCOMPARE(process.exitCode(), 1);
    QCOMPARE(process.readAllStandardError(),
             "What was asked for could not be written to the standard output.\n");
}

void TestFiles::aPipeNobodyWritesToIsNotWaitedFor_data()
{
    QTest::addColumn<QStringList>("arguments");
    QTest::newRow("import") << QStringList{u"import"_s, u"RECORDS"_s, u"PIPE"_s};
    QTest::newRow("error-study") << QStringList{u"error-study"_s, u"PIPE"_s};
    QTest::newRow("catalogue") << QStringList{u"catalogue"_s, u"read"_s, u"PIPE"_s, u"--records"_s,
                                              u"RECORDS"_s};
    QTest::newRow("records") << QStringList{u"check"_s, u"PIPE"_s};
}

void TestFiles::aPipeNobodyWritesToIsNotWaitedFor()
{
    QFETCH(QStringList, arguments);
    const Clinic clinic;
    arguments.replaceInStrings(u"RECORDS"_s, clinic.records).replaceInStrings(u"PIPE"_s, clinic.pipe());
    const Outcome refused = start(arguments);
    QCOMPARE(refused.code, 1);
    QCOMPARE(refused.err.count(u'\n'), 1);
}

void TestFiles::anUnknownPlatformEndsInOneSentence_data()
{
    QTest::addColumn<QStringList>("arguments");
    QTest::addColumn<int>("code");
    QTest::newRow("of a verb") << QStringList{u"check"_s, u"x.aplomb"_s, u"-platform"_s, u"x"_s} << 2;
    QTest::newRow("of the window") << QStringList{u"-platform"_s, u"x"_s} << 1; // which Qt would abort at
}

void TestFiles::anUnknownPlatformEndsInOneSentence()
{
    QFETCH(QStringList, arguments);
    QFETCH(int, code);
    const Outcome used = start(arguments);
    QCOMPARE(used.code, code);
    QCOMPARE(used.err.count(u'\n'), 1);
}

void TestFiles::whereItIsTomorrowAVisitOfTomorrowIsSound()
{
    const Clinic clinic;
    {
        const auto store = clinic.open(Opening::MustExist);
        records::Visit visit;
        visit.patient = clinic.patient;
        visit.day = QDateTime::currentDateTimeUtc().addSecs(14 * 3600).date();
        QVERIFY(storage::Visits(*store).add(visit));
    }
    QProcess process;
    auto environment = QProcessEnvironment::systemEnvironment();
    environment.insert(u"TZ"_s, u"Etc/GMT+12"_s); // twelve hours behind
    process.setProcessEnvironment(environment);
    process.start(places::program(), {u"check"_s, clinic.records});
    QVERIFY(process.waitForFinished(120'000));
    QCOMPARE(process.readAllStandardOutput(), "sound\n");
}

void TestFiles::whatLiesBehindTheEndIsAFault()
{
    const Clinic clinic;
    QVERIFY(QFile::resize(clinic.records, QFileInfo(clinic.records).size() + 4096));
    const Outcome checked = start({u"check"_s, clinic.records});
    QCOMPARE(checked.code, 1);
    QCOMPARE(checked.out,
             u"Behind the end of the records the file holds 4096 bytes that are none of theirs.\n"_s);
}

void TestFiles::dataCannotOrderTheTerminalAbout()
{
    const Clinic clinic;
    {
        const auto store = clinic.open(Opening::MustExist);
        records::Patient patient = *storage::Patients(*store).withId(clinic.patient);
        patient.family = u"No\u001b[2Jwak\u009b1m \u202eabc"_s;
        QVERIFY(storage::Patients(*store).save(patient));
    }
    const Outcome shown = start({u"change"_s, clinic.records, u"--patient"_s, u"T-1"_s});
    QCOMPARE(shown.code, 0);
    QVERIFY2(shown.out.contains(u"WAK"_s), qPrintable(shown.out));
    for (const QChar order : {QChar(0x1b), QChar(0x9b), QChar(0x202e)})
        QVERIFY(!shown.out.contains(order));
    const Outcome missing = start({u"check"_s, clinic.records, u"\u001b[2J"_s});
    QVERIFY(!missing.err.contains(u'\u001b'));
}

void TestFiles::aKilledDemoLeavesNoClinic()
{
    const Place place;
    QProcess demo;
    demo.start(places::program(), {u"demo"_s, place.records});
    QTRY_VERIFY(QFileInfo(place.records + u".unfinished"_s).size() > 0);
    demo.kill();
    QVERIFY(demo.waitForFinished(120'000));
    QCOMPARE(demo.exitStatus(), QProcess::CrashExit);
    QVERIFY(!QFileInfo::exists(place.records));
    QCOMPARE(start({u"demo"_s, place.records}).code, 0);
    QCOMPARE(QDir(place.folder.path()).entryList(QDir::Files), QStringList{u"clinic.aplomb"_s});
}

HOUSE_TEST(TestFiles)

} // namespace test_files

#include "test_files.moc"
