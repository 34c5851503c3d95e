#include "app/importing/import_acts.h"
#include "app/importing/import_dialog.h"
#include "app/importing/preview_rows.h"
#include "app/session/taking_back.h"
#include "core/records/summary.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/findings_file.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QTableView>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_import_dialog
{

using findings_file::Cells;
using findings_file::walk;

const Cells later = {{u"date"_s, u"2024-04-01"_s}};
const Cells wrongValue = {{u"date"_s, u"2024-05-01"_s}, {u"value"_s, u"much"_s}};

struct ImportDesk : clinic_desk::Desk {
    exchange::FindingsFile file;
    exchange::Preview preview;
    std::unique_ptr<importing::ImportDialog> dialog;

    /// A findings file of these rows, or what is given instead.
    explicit ImportDesk(const std::vector<Cells>& rows, const QByteArray& bytes = {})
    {
        session->setPerson(*answers.atKeyboard);
        file = *session::findingsFile(*session, bytes.isEmpty() ? findings_file::file(rows) : bytes);
        preview = session::plannedImport(*session, file)->preview;
        dialog = std::make_unique<importing::ImportDialog>(*session, answers, u"march.csv"_s, file, preview,
                                                           nullptr);
        dialog->show();
        QApplication::setActiveWindow(dialog.get());
    }

    template <class Widget>
    Widget& part(const char* name) const
    {
        return *dialog->findChild<Widget*>(QString::fromLatin1(name));
    }
    QAbstractItemModel& table() const { return *part<QTableView>("importTable").model(); }
    size_t patients() const { return session->patients()->size(); }

    QString wrote(const std::vector<Cells>& rows, const QString& name) const
    {
        QFile written(folder.filePath(name));
        const QByteArray bytes = findings_file::file(rows);
        return written.open(QIODevice::WriteOnly) && written.write(bytes) == bytes.size() ? written.fileName()
                                                                                          : QString();
    }
};

/// An invented patient with a walk that took these seconds, one that is not final, and two heights.
QByteArray bundle(double seconds)
{
    const QByteArray shared = R"("subject":{"reference":"Patient/p"},"effectiveDateTime":"2024-03-01")";
    const QByteArray walked = R"({"resource":{"resourceType":"Observation","status":"%1","code":{"coding":[)"
                              R"({"system":"http://loinc.org","code":"89423-8"}]},)" +
                              shared +
                              R"(,"valueQuantity":{"value":%2,"system":"http://unitsofmeasure.org",)"
                              R"("code":"s"}}})";
    const QByteArray height = R"({"resource":{"resourceType":"Observation","status":"final","code":)"
                              R"({"coding":[{"system":"http://loinc.org","code":"8302-2"}]},)" +
                              shared + "}}";
    const auto walk = [&](const char* status, double value) {
        return QString::fromLatin1(walked).arg(QLatin1String(status)).arg(value).toLatin1();
    };
    return R"({"resourceType":"Bundle","type":"searchset","entry":[{"resource":{"resourceType":"Patient",)"
           R"("id":"p","identifier":[{"value":"N-7"}],"name":[{"family":"Varnhem"}],)"
           R"("birthDate":"1950-02-03"}},)" +
           QByteArrayList{walk("final", seconds), height, height, walk("preliminary", 14)}.join(',') + "]}";
}

/// Presses Tab until this widget has the keyboard; whether it came there.
bool tabTo(Pace& pace, QWidget& window, const QWidget& wished)
{
    constexpr int most = 12;
    for (int i = 0; i < most && !wished.hasFocus(); ++i)
        pace.keyAt(&window, Qt::Key_Tab);
    return wished.hasFocus();
}

class TestImportDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void oneSentenceSaysWhatBecomesOfTheFile_data()
    {
        QTest::addColumn<QList<int>>("counts"); // new patients, new visits, changed visits, refused lines
        QTest::addColumn<QString>("words");
        using Counts = QList<int>;
        QTest::newRow("all") << Counts{3, 12, 2, 4}
                             << u"3 patients and 12 visits are new, 2 visits change, 4 lines are refused."_s;
        QTest::newRow("one") << Counts{1, 1, 1, 1}
                             << u"1 patient and 1 visit are new, 1 visit changes, 1 line is refused."_s;
        QTest::newRow("visits") << Counts{0, 2, 0, 0} << u"2 visits are new."_s;
        QTest::newRow("refused") << Counts{0, 0, 0, 2} << u"2 lines are refused."_s;
        QTest::newRow("nothing") << Counts{0, 0, 0, 0}
                                 << u"Nothing is new; the records hold all of it already."_s;
    }

    void oneSentenceSaysWhatBecomesOfTheFile()
    {
        QFETCH(QList<int>, counts);
        exchange::Preview preview;
        preview.newPatients = counts[0];
        preview.newVisits = counts[1];
        preview.changedVisits = counts[2];
        for (int i = 0; i < counts[3]; ++i)
            preview.faults.add(i, base::Error());
        QTEST(importing::headline(preview), "words");
    }

    void everyLineIsToldInTheOrderOfTheFile()
    {
        const ImportDesk desk({walk(), walk(wrongValue), walk(later)});
        QCOMPARE(desk.table().rowCount(), 3);
        const QString lines[] = {u"2"_s, u"3"_s, u"4"_s};
        for (int row = 0; row < 3; ++row) {
            QCOMPARE(desk.table().index(row, 0).data().toString(), lines[row]);
            QCOMPARE(desk.table().index(row, 1).data().toString(), u"T-1"_s);
        }
        QCOMPARE(desk.table().index(0, 3).data().toString(), u"New patient; New visit with 1 finding"_s);
        QVERIFY(desk.table().index(1, 4).data().toString().startsWith(u"Line 3, column value: "_s));
        QCOMPARE(desk.table().index(2, 2).data().toString(), u"01-Apr-2024"_s);
    }

    void theFilterShowsOneKind()
    {
        const ImportDesk desk({walk(), walk(wrongValue), walk(later)});
        auto& filter = desk.part<QComboBox>("importFilter");
        QCOMPARE(filter.itemText(1), u"New (2)"_s);
        const int rows[] = {3, 2, 0, 1, 0};
        for (int choice = 0; choice < filter.count(); ++choice) {
            filter.setCurrentIndex(choice);
            QCOMPARE(desk.table().rowCount(), rows[choice]);
        }
        filter.setCurrentIndex(3);
        QVERIFY(desk.part<QLabel>("importDetail").text().startsWith(u"Line 3, column value: "_s));
    }

    /// A Bundle of another program: what is understood stands in the table, the rest below it.
    void whatIsLeftOutOfABundleIsNamed()
    {
        const ImportDesk desk({}, bundle(12.5));
        QCOMPARE(desk.part<QLabel>("importHeadline").text(),
                 u"1 patient and 1 visit are new, 3 resources are left out."_s);
        QCOMPARE(desk.table().headerData(0, Qt::Horizontal).toString(), u"Entry"_s);
        QCOMPARE(desk.table().rowCount(), 3);
        QCOMPARE(desk.table().index(0, 0).data().toString(), u"2"_s);
        QCOMPARE(desk.table().index(0, 3).data().toString(), u"New patient; New visit with 1 finding"_s);
        QCOMPARE(desk.table().index(1, 0).data().toString(), QString());
        QCOMPARE(desk.table().index(1, 3).data().toString(), u"Left out: Observation 8302-2 (2)"_s);
        QCOMPARE(desk.table().index(2, 3).data().toString(),
                 u"Left out: Observation 89423-8 (1); It is not final."_s);
        auto& filter = desk.part<QComboBox>("importFilter");
        QCOMPARE(filter.itemText(filter.count() - 1), u"Left out (2)"_s);
        filter.setCurrentIndex(filter.count() - 1);
        QCOMPARE(desk.table().rowCount(), 2);
        desk.part<QPushButton>("takeAll").click();
        QCOMPARE(desk.patients(), size_t(1));
    }

    void aFaultOfABundleNamesItsEntry()
    {
        const ImportDesk desk({}, bundle(-3));
        QVERIFY(!desk.part<QPushButton>("takeAll").isEnabled());
        QCOMPARE(desk.part<QLabel>("importHeadline").text(),
                 u"1 fault refuses the bundle, 3 resources are left out."_s);
        QVERIFY(desk.table().index(0, 4).data().toString().startsWith(u"Entry 2, value: "_s));
    }

    void theKeyboardTakesAll()
    {
        paces::each([](Pace& pace) {
            const ImportDesk desk({walk(), walk(later)});
            auto& take = desk.part<QPushButton>("takeAll");
            QVERIFY(desk.part<QTableView>("importTable").hasFocus());
            QVERIFY(tabTo(pace, *desk.dialog, take));
            pace.keyAt(desk.dialog.get(), Qt::Key_Space);
            QCOMPARE(desk.dialog->result(), int(QDialog::Accepted));
            QCOMPARE(desk.patients(), size_t(1));
            const auto last = *session::lastImport(*desk.session);
            QVERIFY(last);
            QCOMPARE(last->file, u"march.csv"_s);
        });
    }

    void theKeyboardChoosesAndTurnsBack()
    {
        paces::each([](Pace& pace) {
            const ImportDesk desk({walk(), walk(wrongValue)});
            auto& filter = desk.part<QComboBox>("importFilter");
            QVERIFY(tabTo(pace, *desk.dialog, filter));
            for (int i = 0; i < 3; ++i)
                pace.keyAt(desk.dialog.get(), Qt::Key_Down);
            QCOMPARE(desk.table().rowCount(), 1);
            QVERIFY(tabTo(pace, *desk.dialog, desk.part<QPushButton>("copyFaults")));
            pace.keyAt(desk.dialog.get(), Qt::Key_Space);
            QVERIFY(QApplication::clipboard()->text().startsWith(u"Line 3, column value: "_s));
            pace.keyAt(desk.dialog.get(), Qt::Key_Escape);
            QVERIFY(desk.dialog->isHidden());
            QCOMPARE(desk.patients(), size_t(0));
        });
    }

    void withARefusedLineNothingCanBeTaken()
    {
        paces::each([](Pace& pace) {
            const ImportDesk desk({walk(), walk(wrongValue)});
            const auto& take = desk.part<QPushButton>("takeAll");
            QVERIFY(!take.isEnabled());
            QVERIFY(take.accessibleDescription().startsWith(u"A file is taken whole or not at all"_s));
            pace.keyAt(desk.dialog.get(), Qt::Key_Return);
            QVERIFY(desk.dialog->isVisible());
            QCOMPARE(desk.patients(), size_t(0));
        });
    }

    void whatIsThereAlreadyCannotBeTakenAgain()
    {
        ImportDesk desk({walk()});
        desk.part<QPushButton>("takeAll").click();
        const exchange::Preview preview = session::plannedImport(*desk.session, desk.file)->preview;
        const importing::ImportDialog again(*desk.session, desk.answers, u"march.csv"_s, desk.file, preview,
                                            nullptr);
        QVERIFY(!again.findChild<QPushButton*>(u"takeAll"_s)->isEnabled());
        QCOMPARE(again.findChild<QLabel*>(u"importHeadline"_s)->text(),
                 u"Nothing is new; the records hold all of it already."_s);
    }

    void escapeStopsWhatIsUnderWay_data()
    {
        QTest::addColumn<int>("key");
        QTest::newRow("Stop") << int(Qt::Key_Space);
        QTest::newRow("Escape") << int(Qt::Key_Escape);
    }

    void escapeStopsWhatIsUnderWay()
    {
        QFETCH(int, key);
        std::vector<Cells> rows;
        for (int i = 0; i < 40; ++i)
            rows.push_back(walk({{u"patient"_s, u"S-%1"_s.arg(i)}}));
        const ImportDesk desk(rows);
        bool isSeen = false;
        QTimer::singleShot(0, desk.dialog.get(), [&] {
            isSeen = desk.part<QProgressBar>("importProgress").isVisible() &&
                     desk.part<QPushButton>("stopImport").hasFocus() &&
                     !desk.part<QPushButton>("cancelImport").isEnabled();
            QTest::keyClick(QApplication::focusWidget(), Qt::Key(key));
        });
        desk.part<QPushButton>("takeAll").click();
        QVERIFY(isSeen);
        QVERIFY(desk.dialog->isVisible());
        QCOMPARE(desk.patients(), size_t(0));
        QVERIFY(desk.part<QPushButton>("takeAll").hasFocus());
        bool isRestTold = false;
        auto& progress = desk.part<QProgressBar>("importProgress");
        QObject::connect(&progress, &QProgressBar::valueChanged,
                         [&] { isRestTold = isRestTold || progress.text().endsWith(u" left"_s); });
        desk.part<QPushButton>("takeAll").click();
        QVERIFY(isRestTold);
        QCOMPARE(desk.patients(), size_t(40));
    }

    /// A screen of 1366 × 768 at 200 %, less a title and a border.
    void nothingIsCutAtTwoHundredPercent()
    {
        const ImportDesk desk({walk(), walk(wrongValue)});
        const QSize room(683 - 8, 384 - 38);
        QVERIFY2(desk.dialog->minimumSizeHint().width() <= room.width() &&
                     desk.dialog->minimumSizeHint().height() <= room.height(),
                 qPrintable(u"%1 × %2"_s.arg(desk.dialog->minimumSizeHint().width())
                                .arg(desk.dialog->minimumSizeHint().height())));
        desk.dialog->resize(room);
        QApplication::processEvents();
        for (const char* name : {"copyFaults", "cancelImport", "takeAll"}) {
            const auto& button = desk.part<QPushButton>(name);
            QVERIFY2(button.width() >= button.sizeHint().width(), name);
            QVERIFY2(
                desk.dialog->rect().contains(QRect(button.mapTo(desk.dialog.get(), QPoint()), button.size())),
                name);
        }
    }

    void everythingReachableHasAName()
    {
        const ImportDesk desk({walk(), walk(wrongValue)});
        QVERIFY(!desk.part<QTableView>("importTable").accessibleName().isEmpty());
        QVERIFY(!desk.part<QComboBox>("importFilter").accessibleName().isEmpty());
        QVERIFY(!desk.part<QProgressBar>("importProgress").accessibleName().isEmpty());
    }

    void whatIsNoFindingsFileIsRefusedInOneSentence_data()
    {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QString>("begins");
        QTest::newRow("another kind") << u"march.xlsx"_s << u"Findings come from a .csv file, or"_s;
        QTest::newRow("a folder") << u"march"_s << u"Findings come from a .csv file, or"_s;
        QTest::newRow("not there") << u"gone.csv"_s << u"The file cannot be read."_s;
        QTest::newRow("another table") << u"other.csv"_s << u"Line 1, column 1: "_s;
        QTest::newRow("no bundle") << u"other.json"_s << u"The file is JSON, but no Bundle of FHIR; "_s;
    }

    void whatIsNoFindingsFileIsRefusedInOneSentence()
    {
        QFETCH(QString, name);
        QFETCH(QString, begins);
        ImportDesk desk({});
        QFile other(desk.folder.filePath(u"other.csv"_s));
        QVERIFY(other.open(QIODevice::WriteOnly) && other.write("a,b\n1,2\n") > 0);
        other.close();
        QFile json(desk.folder.filePath(u"other.json"_s));
        QVERIFY(json.open(QIODevice::WriteOnly) && json.write("{\"a\":1}") > 0);
        json.close();
        importing::importFindings(desk.folder.filePath(name), *desk.session, desk.answers, nullptr);
        QCOMPARE(desk.answers.told.size(), 1);
        QVERIFY2(desk.answers.told.front().startsWith(begins), qPrintable(desk.answers.told.front()));
        QCOMPARE(desk.answers.told.front().count(u'\n'), 0);
        QVERIFY(desk.answers.said.isEmpty());
    }

    void aFileIsTakenAndTakenBack()
    {
        ImportDesk desk({});
        desk.answers.file = desk.wrote({walk(), walk(later)}, u"march.csv"_s);
        QTimer whenShown; // reading the file shows another dialog first
        connect(&whenShown, &QTimer::timeout, &whenShown, [&whenShown] {
            auto* dialog = qobject_cast<importing::ImportDialog*>(QApplication::activeModalWidget());
            if (dialog == nullptr)
                return;
            whenShown.stop();
            dialog->findChild<QPushButton*>(u"takeAll"_s)->click();
        });
        whenShown.start();
        importing::importFindings(*desk.session, desk.answers, nullptr);
        QCOMPARE(desk.answers.said, QStringList{u"The findings are in the records."_s});
        QCOMPARE(desk.patients(), size_t(1));

        desk.answers.isConfirmed = false;
        importing::takeBackImport(*desk.session, desk.answers, nullptr);
        QVERIFY(*session::lastImport(*desk.session));
        desk.answers.isConfirmed = true;
        importing::takeBackImport(*desk.session, desk.answers, nullptr);
        QCOMPARE(desk.answers.risked, 2);
        QVERIFY(desk.answers.asked.back().contains(u"march.csv"_s));
        QCOMPARE(desk.answers.said.back(), u"The import is taken back."_s);
        QVERIFY(desk.answers.told.isEmpty());
        importing::takeBackImport(*desk.session, desk.answers, nullptr);
        QCOMPARE(desk.answers.told, QStringList{u"There is no import that could be taken back."_s});
    }
};

HOUSE_TEST(TestImportDialog)

} // namespace test_import_dialog

#include "test_import_dialog.moc"
