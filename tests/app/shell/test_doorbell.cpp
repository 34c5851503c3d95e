#include "app/shell/doorbell.h"

#include "tests/support/clinic_desk.h"
#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QFileInfo>
#include <QLocalSocket>
#include <QProcess>
#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_doorbell
{

using shell::Doorbell;

/// The program with settings and sockets of its own, as the same person starts it.
void start(QProcess& program, const clinic_desk::Desk& desk)
{
    auto environment = QProcessEnvironment::systemEnvironment();
    environment.insert(u"XDG_RUNTIME_DIR"_s, desk.folder.path());
    environment.insert(u"XDG_CONFIG_HOME"_s, desk.folder.path());
    program.setProcessEnvironment(environment);
    program.start(places::program(), {u"--records"_s, desk.path()});
}

class TestDoorbell : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aSecondStartRaisesTheWindowThatIsThere();
    void theBellIsOfThisUserAlone();
    void theBellOfAnEndedWindowIsTakenOver();
    void whereNobodyIsNobodyAnswers();
    void bellsAreToldApartByTheirRecords();
};

void TestDoorbell::aSecondStartRaisesTheWindowThatIsThere()
{
    clinic_desk::Desk desk;
    desk.session.reset();
    qputenv("XDG_RUNTIME_DIR", desk.folder.path().toLocal8Bit());
    QProcess first;
    start(first, desk);
    QTRY_VERIFY_WITH_TIMEOUT(QFileInfo::exists(Doorbell::pathFor(desk.path())), 60'000);
    QProcess second;
    start(second, desk);
    QVERIFY(second.waitForFinished(120'000));
    QCOMPARE(second.exitStatus(), QProcess::NormalExit);
    QCOMPARE(second.exitCode(), 0);
    QCOMPARE(first.state(), QProcess::Running);
    first.kill();
    QVERIFY(first.waitForFinished(120'000));
    desk.session = desk.openAgain(); // the killed one holds nobody off
    QVERIFY(desk.session != nullptr);
}

void TestDoorbell::theBellIsOfThisUserAlone()
{
    const clinic_desk::Desk desk;
    qputenv("XDG_RUNTIME_DIR", desk.folder.path().toLocal8Bit());
    const Doorbell bell(desk.path());
    const auto others = QFile::ReadGroup | QFile::WriteGroup | QFile::ReadOther | QFile::WriteOther;
    QVERIFY(QFileInfo::exists(Doorbell::pathFor(desk.path())));
    QVERIFY(!(QFile::permissions(Doorbell::pathFor(desk.path())) & others));
}

void TestDoorbell::theBellOfAnEndedWindowIsTakenOver()
{
    const clinic_desk::Desk desk;
    qputenv("XDG_RUNTIME_DIR", desk.folder.path().toLocal8Bit());
    QFile leftover(Doorbell::pathFor(desk.path()));
    QVERIFY(leftover.open(QIODevice::WriteOnly));
    leftover.close();
    Doorbell bell(desk.path());
    QSignalSpy rung(&bell, &Doorbell::rung);
    QLocalSocket caller;
    caller.connectToServer(Doorbell::pathFor(desk.path()));
    QVERIFY(caller.waitForConnected());
    QTRY_COMPARE(rung.size(), 1);
    QTRY_COMPARE(caller.bytesAvailable(), 1);
}

void TestDoorbell::whereNobodyIsNobodyAnswers()
{
    const clinic_desk::Desk desk;
    qputenv("XDG_RUNTIME_DIR", desk.folder.path().toLocal8Bit());
    QVERIFY(!Doorbell::isAnswered(desk.path()));
}

void TestDoorbell::bellsAreToldApartByTheirRecords()
{
    const clinic_desk::Desk desk;
    const QString link = desk.folder.filePath(u"link"_s);
    QVERIFY(QFile::link(desk.path(), link));
    QCOMPARE(Doorbell::pathFor(link), Doorbell::pathFor(desk.path()));
    QVERIFY(Doorbell::pathFor(desk.path()) != Doorbell::pathFor(desk.folder.filePath(u"other"_s)));
}

HOUSE_TEST(TestDoorbell)

} // namespace test_doorbell

#include "test_doorbell.moc"
