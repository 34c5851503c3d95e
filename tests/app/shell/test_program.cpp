#include "tests/support/clinic_desk.h"
#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QDirIterator>
#include <QImage>
#include <QProcess>

using namespace Qt::StringLiterals;

namespace test_program
{

struct Answer {
    int exitCode = -1;
    QString out;
    QString err;
};

Answer run(const QStringList& arguments)
{
    QProcess program;
    program.start(places::program(), arguments);
    if (!program.waitForFinished(120000) || program.exitStatus() != QProcess::NormalExit)
        return {};
    return {program.exitCode(), QString::fromUtf8(program.readAllStandardOutput()),
            QString::fromUtf8(program.readAllStandardError())};
}

class TestProgram : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void wrongUseIsSaidInOneSentence_data();
    void wrongUseIsSaidInOneSentence();
    void aLanguageIsOneItSpeaks();
    void picturesNeedRecords();
    void everyScreenHasItsPictureInBothLooks();
    void picturesThatAreKilledLeaveNoCopyOfTheRecords();
};

void TestProgram::wrongUseIsSaidInOneSentence_data()
{
    QTest::addColumn<QStringList>("arguments");
    QTest::newRow("unknown option") << QStringList{u"--window"_s};
    QTest::newRow("records without a file") << QStringList{u"--records"_s};
    QTest::newRow("too many records") << QStringList{u"a.aplomb"_s, u"--records"_s, u"b.aplomb"_s};
    QTest::newRow("an option of Qt without its value") << QStringList{u"-style"_s};
    QTest::newRow("too many files") << QStringList{u"--records"_s, u"a"_s, u"b"_s};
}

void TestProgram::wrongUseIsSaidInOneSentence()
{
    QFETCH(QStringList, arguments);
    const Answer answer = run(arguments);
    QCOMPARE(answer.exitCode, 2);
    QVERIFY(answer.err.contains(u"Use: aplomb"_s));
    QVERIFY(answer.out.isEmpty());
}

void TestProgram::aLanguageIsOneItSpeaks()
{
    const Answer spoken = run({u"--language"_s, u"en"_s, u"check"_s, u"none.aplomb"_s});
    QCOMPARE(spoken.exitCode, 1);
    for (const QStringList& asked : {QStringList{u"--language"_s, u"tlh"_s}, QStringList{u"--language"_s}}) {
        const Answer answer = run(asked);
        QCOMPARE(answer.exitCode, 2);
        QCOMPARE(answer.err, u"The language of --language must be one of en.\n"_s);
    }
}

void TestProgram::picturesNeedRecords()
{
    const QTemporaryDir folder;
    const Answer answer =
        run({u"pictures"_s, folder.filePath(u"none.aplomb"_s), u"--to"_s, folder.filePath(u"pictures"_s)});
    QCOMPARE(answer.exitCode, 1);
    QVERIFY(!answer.err.isEmpty());
}

void TestProgram::everyScreenHasItsPictureInBothLooks()
{
    clinic_desk::Desk desk;
    desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), u"L-0042"_s).id);
    desk.addVisit(QDate(2026, 1, 12));
    const QString folder = desk.folder.filePath(u"pictures"_s);
    const Answer answer = run({u"pictures"_s, desk.path(), u"--to"_s, folder});
    QVERIFY2(answer.exitCode == 0, qPrintable(answer.err));
    for (const QString& look : {u"light"_s, u"dark"_s}) {
        for (const QString& screen : {u"patients"_s, u"patient-form"_s, u"examination"_s, u"change"_s,
                                      u"trend"_s, u"letters"_s, u"welcome"_s}) {
            const QImage picture(u"%1/%2-%3.png"_s.arg(folder, look, screen));
            const int least = screen == u"welcome"_s ? 700 : 800; // it fits a screen of 800
            QVERIFY2(picture.width() >= least, qPrintable(screen));
            constexpr auto others =
                QFile::ReadGroup | QFile::WriteGroup | QFile::ReadOther | QFile::WriteOther;
            QVERIFY(!(QFile::permissions(u"%1/%2-%3.png"_s.arg(folder, look, screen)) & others));
            const bool isDark = picture.pixelColor(2, picture.height() - 4).lightness() < 128;
            QCOMPARE(isDark, look == u"dark"_s);
        }
    }
}

void TestProgram::picturesThatAreKilledLeaveNoCopyOfTheRecords()
{
    const clinic_desk::Desk desk;
    const QTemporaryDir scratch;
    const QDir pictures(desk.folder.filePath(u"pictures"_s));
    QProcess program;
    auto environment = QProcessEnvironment::systemEnvironment();
    environment.insert(u"TMPDIR"_s, scratch.path());
    program.setProcessEnvironment(environment);
    program.start(places::program(), {u"pictures"_s, desk.path(), u"--to"_s, pictures.path()});
    QTRY_VERIFY_WITH_TIMEOUT(!pictures.entryList({u"*.png"_s}).isEmpty(), 60'000);
    program.kill();
    QVERIFY(program.waitForFinished(120'000));
    QCOMPARE(program.exitStatus(), QProcess::CrashExit);
    for (QDirIterator walk(scratch.path(), QDir::Files | QDir::Hidden, QDirIterator::Subdirectories);
         walk.hasNext();) {
        QFile file(walk.next());
        QVERIFY(file.open(QIODevice::ReadOnly));
        QVERIFY2(!file.readAll().contains("SQLite format 3"), qPrintable(file.fileName()));
    }
}

HOUSE_TEST(TestProgram)

} // namespace test_program

#include "test_program.moc"
