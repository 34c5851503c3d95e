#include "app/shell/opening.h"

#include "core/records/summary.h"
#include "core/storage/clinic_catalogues.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QFile>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_opening
{

/// A person's first start in an empty folder.
struct FirstStart {
    QTemporaryDir folder;
    Answers answers;

    QString path() const { return folder.filePath(u"new/clinic.aplomb"_s); }

    std::unique_ptr<session::Session> open()
    {
        const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
        return shell::openedRecords(path(), clinic_desk::book(), clock, answers);
    }
};

void atWelcome(const std::function<void(QWidget&)>& act)
{
    QTimer::singleShot(0, qApp, [act] {
        QWidget* welcome = QApplication::activeModalWidget();
        QVERIFY(welcome != nullptr);
        act(*welcome);
    });
}

class TestOpening : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anEmptyClinicIsBegunWithItsName();
    void theDemoClinicIsMadeAndMarked();
    void turningBackMakesNoFile();
    void whatIsThereIsOpenedWithoutAsking();
    void aClinicsCatalogueThatCannotBeUsedIsToldOnce();
    void aForeignFileIsToldAndLeftAlone();
    void recordsThatAreOpenElsewhereAreToldWithWhoAndSinceWhen();
};

void TestOpening::anEmptyClinicIsBegunWithItsName()
{
    FirstStart start;
    atWelcome([](QWidget& welcome) {
        auto* begin = welcome.findChild<QPushButton*>(u"beginEmpty"_s);
        QVERIFY(!begin->isEnabled());
        QTest::keyClicks(welcome.findChild<QLineEdit*>(u"newClinicName"_s), u"Hillside Clinic"_s);
        QTest::keyClick(&welcome, Qt::Key_Return);
    });
    const auto session = start.open();
    QVERIFY(session != nullptr);
    QCOMPARE(session->clinic().name, u"Hillside Clinic"_s);
    QVERIFY(!session->clinic().isDemo);
    QVERIFY(session->patients()->empty());
    const auto others = QFile::ReadGroup | QFile::ReadOther | QFile::WriteGroup | QFile::WriteOther;
    QVERIFY(!(QFile::permissions(start.path()) & others));
}

void TestOpening::theDemoClinicIsMadeAndMarked()
{
    FirstStart start;
    atWelcome([](QWidget& welcome) {
        QTest::keyClick(welcome.findChild<QPushButton*>(u"beginDemo"_s), Qt::Key_Space);
    });
    const auto session = start.open();
    QVERIFY(session != nullptr);
    QVERIFY(session->clinic().isDemo);
    QVERIFY(session->patients()->size() >= 12);
}

void TestOpening::turningBackMakesNoFile()
{
    FirstStart start;
    atWelcome([](QWidget& welcome) { QTest::keyClick(&welcome, Qt::Key_Escape); });
    QVERIFY(start.open() == nullptr);
    QVERIFY(!QFile::exists(start.path()));
    QVERIFY(start.answers.told.isEmpty());
}

void TestOpening::recordsThatAreOpenElsewhereAreToldWithWhoAndSinceWhen()
{
    const clinic_desk::Desk desk;
    Answers answers;
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 45), Qt::UTC); };
    QVERIFY(shell::openedRecords(desk.path(), clinic_desk::book(), clock, answers) == nullptr);
    QCOMPARE(answers.told.size(), 1);
    QVERIFY2(
        answers.told.first().startsWith(u"These records are open elsewhere: tester has had them open"_s) &&
            answers.told.first().contains(u"since 12-Mar-2026, 15:15."_s),
        qPrintable(answers.told.first()));
}

void TestOpening::whatIsThereIsOpenedWithoutAsking()
{
    clinic_desk::Desk desk;
    desk.session.reset();
    Answers answers;
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
    QVERIFY(shell::openedRecords(desk.path(), clinic_desk::book(), clock, answers) != nullptr);
}

void TestOpening::aClinicsCatalogueThatCannotBeUsedIsToldOnce()
{
    clinic_desk::Desk desk;
    QVERIFY(storage::ClinicCatalogues(desk.session->store()).add("{\"format\": 1}"));
    desk.session.reset();
    Answers answers;
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
    QVERIFY(shell::openedRecords(desk.path(), clinic_desk::book(), clock, answers) != nullptr);
    QCOMPARE(answers.told, QStringList{u"Version 1 of the clinic's own catalogue: “format” is not a text. So "
                                       "only the catalogue that comes with the program is used."_s});
}

void TestOpening::aForeignFileIsToldAndLeftAlone()
{
    FirstStart start;
    QVERIFY(QDir(start.folder.path()).mkdir(u"new"_s));
    QFile file(start.path());
    QVERIFY(file.open(QFile::WriteOnly));
    file.write("a shopping list");
    file.close();
    QVERIFY(start.open() == nullptr);
    QCOMPARE(start.answers.told.size(), 1);
    QVERIFY(file.open(QFile::ReadOnly));
    QCOMPARE(file.readAll(), QByteArray("a shopping list"));
}

HOUSE_TEST(TestOpening)

} // namespace test_opening

#include "test_opening.moc"
