#include "app/importing/export_dialog.h"
#include "app/session/importing.h"
#include "app/widgets/long_work.h"
#include "core/records/summary.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace test_export_dialog
{

struct DialogDesk : clinic_desk::Desk {
    std::unique_ptr<importing::ExportDialog> dialog;

    DialogDesk()
    {
        session->setPerson(*answers.atKeyboard);
        for (const auto& [family, number] :
             {std::pair(u"Falk"_s, u"F-1"_s), std::pair(u"Halden"_s, u"F-2"_s)}) {
            session->choosePatient(add(family, u"Ida"_s, QDate(1950, 2, 3), number).id);
            addVisit(QDate(2026, 1, 2));
            addVisit(QDate(2026, 3, 2));
        }
        answers.file = folder.filePath(u"records.csv"_s);
        const auto patients = *session->patients();
        dialog = std::make_unique<importing::ExportDialog>(*session, answers, patients, nullptr);
        dialog->show();
        QApplication::setActiveWindow(dialog.get());
    }

    template <class Widget>
    Widget& part(const char* name) const
    {
        return *dialog->findChild<Widget*>(QString::fromLatin1(name));
    }

    void write() const { part<QPushButton>("writeExport").click(); }

    /// Patients and visits of the file, which is read as an import reads it.
    std::pair<size_t, size_t> written() const
    {
        QFile file(*answers.file);
        if (!file.open(QIODevice::ReadOnly))
            return {};
        const auto read = session::findingsFile(*session, file.readAll());
        size_t visits = 0;
        for (const exchange::ReadRecord& record : read->records)
            visits += record.record.visits.size();
        return {read->records.size(), visits};
    }
};

class TestExportDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everythingIsWrittenWhereNothingIsChosen()
    {
        const DialogDesk desk;
        QCOMPARE(desk.part<QLabel>("exportPatientsCount").text(), u"All 2 chosen"_s);
        desk.write();
        QCOMPARE(desk.answers.told, QStringList());
        QCOMPARE(desk.answers.suggested, QStringList{u"records-2026-03-12.csv"_s});
        QCOMPARE(desk.answers.said, QStringList{u"The records are in the file."_s});
        QCOMPARE(desk.written(), std::pair(size_t(2), size_t(4)));
        QVERIFY(desk.dialog->isHidden());
    }

    void theKeyboardGoesThroughItFromTheFirstToTheLast()
    {
        const DialogDesk desk;
        desk.part<QLineEdit>("exportPatientsFind").setFocus();
        for (const char* next :
             {"exportPatients", "exportPatientsAll", "exportPatientsNone", "exportMeasuresFind",
              "exportMeasures", "exportMeasuresAll", "exportMeasuresNone", "exportFrom", "exportUntil",
              "exportLetters", "exportFhir", "cancelExport", "writeExport"}) {
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
            QCOMPARE(QApplication::focusWidget()->objectName(), QString::fromLatin1(next));
        }
        auto& list = desk.part<QListWidget>("exportPatients");
        list.setFocus();
        QTest::keyClick(&list, Qt::Key_Space); // unticks who has the keyboard
        QCOMPARE(desk.part<QLabel>("exportPatientsCount").text(), u"1 of 2 chosen"_s);
    }

    void whatIsChosenLimitsIt()
    {
        const DialogDesk desk;
        desk.part<QLineEdit>("exportPatientsFind").setText(u"halden"_s);
        desk.part<QPushButton>("exportPatientsNone").click();
        QCOMPARE(desk.part<QLabel>("exportPatientsCount").text(), u"1 of 2 chosen"_s);
        QTest::keyClicks(&desk.part<QLineEdit>("exportFrom"), u"2026-02-01"_s);
        desk.write();
        QCOMPARE(desk.written(), std::pair(size_t(1), size_t(1)));
    }

    void nobodyChosenWritesNothing()
    {
        const DialogDesk desk;
        desk.part<QPushButton>("exportPatientsNone").click();
        QVERIFY(!desk.part<QPushButton>("writeExport").isEnabled());
        desk.part<QPushButton>("exportPatientsAll").click();
        QVERIFY(desk.part<QPushButton>("writeExport").isEnabled());
        desk.part<QPushButton>("exportMeasuresNone").click();
        QVERIFY(!desk.part<QPushButton>("writeExport").isEnabled());
    }

    void aDayThatIsNoneIsSaidBesideIt()
    {
        const DialogDesk desk;
        QTest::keyClicks(&desk.part<QLineEdit>("exportUntil"), u"yesterday"_s);
        desk.write();
        QVERIFY(!QFile::exists(*desk.answers.file));
        QVERIFY(!desk.dialog->isHidden());
        QVERIFY(desk.part<QLabel>("exportUntilBelow").text().contains(u"2026-03-01"_s));
    }

    void aFaultIsToldAndTheDialogStays()
    {
        DialogDesk desk;
        desk.part<QCheckBox>("exportLetters").setChecked(true);
        QVERIFY(QDir(desk.folder.path()).mkdir(u"records-letters"_s));
        desk.write();
        QCOMPARE(desk.answers.told,
                 QStringList{u"The folder for the letters is there already; name one that is not."_s});
        QVERIFY(!desk.dialog->isHidden());
        QVERIFY(QDir(desk.folder.path()).rmdir(u"records-letters"_s));
        desk.write();
        QVERIFY(QFile::exists(desk.folder.filePath(u"records-letters/letters.csv"_s)));
    }

    void theBundleStandsBesideItAndReplacesNothingUnasked()
    {
        DialogDesk desk;
        const QString bundle = desk.folder.filePath(u"records.json"_s);
        QFile there(bundle);
        QVERIFY(there.open(QIODevice::WriteOnly) && there.write("other") == 5);
        there.close();
        desk.part<QCheckBox>("exportFhir").setChecked(true);
        desk.answers.isConfirmed = false;
        desk.write();
        QCOMPARE(desk.answers.risked, 1);
        QCOMPARE(QFileInfo(bundle).size(), 5);
        QVERIFY(!QFile::exists(*desk.answers.file) && !desk.dialog->isHidden());
        desk.answers.isConfirmed = true;
        desk.write();
        QVERIFY(QFile::exists(*desk.answers.file) && desk.dialog->isHidden());
        desk.answers.file = bundle;
        QCOMPARE(desk.written(), std::pair(size_t(2), size_t(4)));
    }

    void whatIsLeftToDoIsSaid()
    {
        widgets::LongWork work(u"Writing …"_s, nullptr);
        QVERIFY(work.went(1));
        QCOMPARE(work.labelText(), u"Writing …"_s); // too early to say
        QVERIFY(work.went(50));
        QCOMPARE(work.labelText(), u"Writing …\nabout 1 second left"_s);
    }
};

HOUSE_TEST(TestExportDialog)

} // namespace test_export_dialog

#include "test_export_dialog.moc"
