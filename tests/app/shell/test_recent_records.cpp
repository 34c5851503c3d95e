#include "app/shell/main_window.h"
#include "app/shell/recent_menu.h"
#include "app/shell/settings.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QMenu>
#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_recent_records
{

QStringList wordsOf(const QMenu& menu)
{
    QStringList words;
    for (const QAction* action : menu.actions()) {
        if (!action->isSeparator())
            words += action->text();
    }
    return words;
}

/// The records that were open most recently, on the menu.
class TestRecentRecords : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theLastEightAreKeptTheLastFirst()
    {
        const clinic_desk::Desk desk; // settings of its own
        for (int each = 1; each <= 10; ++each)
            shell::rememberRecords(u"/clinics/%1.aplomb"_s.arg(each));
        shell::rememberRecords(u"/clinics/5.aplomb"_s);
        const QStringList kept = shell::recentRecords();
        QCOMPARE(kept.size(), 8);
        QCOMPARE(kept.first(), u"/clinics/5.aplomb"_s);
        QCOMPARE(kept.count(u"/clinics/5.aplomb"_s), 1);
        QCOMPARE(kept.last(), u"/clinics/3.aplomb"_s);
    }

    /// Number, file and folder; those of this window are not offered, and an & is one.
    void theMenuNamesTheOthers()
    {
        const clinic_desk::Desk desk;
        shell::rememberRecords(desk.path());
        shell::rememberRecords(u"/clinics/North & South.aplomb"_s);
        shell::RecentMenu menu(desk.path(), nullptr);
        QSignalSpy chosen(&menu, &shell::RecentMenu::chosen);
        Q_EMIT menu.aboutToShow();
        QCOMPARE(wordsOf(menu), QStringList({u"&1 North && South.aplomb in /clinics"_s, u"&Forget them"_s}));
        menu.actions().first()->trigger();
        QCOMPARE(chosen.first().first().toString(), u"/clinics/North & South.aplomb"_s);
    }

    void theyAreForgottenByACommand()
    {
        const clinic_desk::Desk desk;
        shell::rememberRecords(u"/clinics/north.aplomb"_s);
        shell::RecentMenu menu(desk.path(), nullptr);
        menu.findChild<QAction*>(u"forgetRecords"_s)->trigger();
        QVERIFY(shell::recentRecords().isEmpty());
        Q_EMIT menu.aboutToShow();
        QVERIFY(!menu.findChild<QAction*>(u"forgetRecords"_s)->isEnabled());
    }

    /// Said by name, and no longer offered.
    void recordsThatAreGoneAreTakenOff()
    {
        clinic_desk::Desk desk;
        const QString gone = desk.folder.filePath(u"gone.aplomb"_s);
        shell::rememberRecords(gone);
        shell::MainWindow window(*desk.session, desk.answers);
        QSignalSpy asked(&window, &shell::MainWindow::recordsAsked);
        auto* menu = window.findChild<shell::RecentMenu*>(u"recentRecords"_s);
        Q_EMIT menu->aboutToShow();
        menu->actions().first()->trigger();
        QCOMPARE(asked.count(), 0);
        QCOMPARE(desk.answers.told.size(), 1);
        QVERIFY2(desk.answers.told.first().contains(gone), qPrintable(desk.answers.told.first()));
        QVERIFY(shell::recentRecords().isEmpty());
    }

    /// The list is of this account and this computer, and no patient's.
    void theyAreNotInTheRecords()
    {
        clinic_desk::Desk desk;
        shell::rememberRecords(desk.folder.filePath(u"elsewhere-7731.aplomb"_s));
        desk.add(u"Plover"_s, u"Ann"_s, QDate(1958, 2, 3));
        desk.session.reset();
        QFile file(desk.path());
        QVERIFY(file.open(QIODevice::ReadOnly));
        QVERIFY(!file.readAll().contains("elsewhere-7731"));
    }
};

HOUSE_TEST(TestRecentRecords)

} // namespace test_recent_records

#include "test_recent_records.moc"
