#include "app/importing/import_dialog.h"
#include "app/shell/main_window.h"
#include "core/records/summary.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/findings_file.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QDropEvent>
#include <QLabel>
#include <QMimeData>
#include <QSignalSpy>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_import_drop
{

/// Lets files go over the window, and waits until it has done with them.
void drop(QWidget& window, const QStringList& paths)
{
    QMimeData data;
    QList<QUrl> urls;
    for (const QString& path : paths)
        urls += QUrl::fromLocalFile(path);
    data.setUrls(urls);
    QDragEnterEvent enters(QPoint(300, 300), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&window, &enters);
    QVERIFY(enters.isAccepted());
    QDropEvent falls(QPointF(300, 300), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&window, &falls);
    QApplication::processEvents();
}

QString made(const clinic_desk::Desk& desk, const QString& name)
{
    QFile file(desk.folder.filePath(name));
    return file.open(QIODevice::WriteOnly) ? file.fileName() : QString();
}

/// Files that are dropped on the window.
class TestImportDrop : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsNoSingleFileOfOursIsRefusedInOneSentence()
    {
        clinic_desk::Desk desk;
        shell::MainWindow window(*desk.session, desk.answers);
        QSignalSpy records(&window, &shell::MainWindow::recordsAsked);
        window.show();
        drop(window, {made(desk, u"letter.pdf"_s)});
        drop(window, {desk.folder.path()});
        drop(window, {desk.folder.filePath(u"not there.csv"_s)});
        drop(window, {made(desk, u"a.csv"_s), made(desk, u"b.aplomb"_s)});
        QCOMPARE(desk.answers.told.size(), 4);
        for (int each = 0; each < 3; ++each)
            QVERIFY(desk.answers.told[each].startsWith(u"A file of findings (.csv), a FHIR bundle "_s));
        QVERIFY(desk.answers.told[3].startsWith(u"One file at a time "_s));
        QCOMPARE(records.count(), 0);
        QVERIFY(desk.session->patients()->empty());
    }

    void recordsAreOpenedInAWindowOfTheirOwn()
    {
        clinic_desk::Desk desk;
        shell::MainWindow window(*desk.session, desk.answers);
        QSignalSpy records(&window, &shell::MainWindow::recordsAsked);
        window.show();
        const QString others = made(desk, u"Others.APLOMB"_s);
        drop(window, {others});
        QCOMPARE(records.count(), 1);
        QCOMPARE(records.first().first().toString(), others);
        QVERIFY(desk.answers.told.isEmpty());

        drop(window, {desk.path()}); // those that are open
        QCOMPARE(records.count(), 1);
        QCOMPARE(desk.answers.told, QStringList(u"These records are open in this window."_s));
    }

    void aFindingsFileIsShownBeforeItIsTaken()
    {
        clinic_desk::Desk desk;
        QFile file(desk.folder.filePath(u"march.csv"_s));
        const QByteArray bytes = findings_file::file({findings_file::walk()});
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size());
        file.close();
        shell::MainWindow window(*desk.session, desk.answers);
        window.show();
        QString headline;
        QTimer whenShown; // reading the file shows another dialog first
        connect(&whenShown, &QTimer::timeout, &whenShown, [&] {
            auto* dialog = qobject_cast<importing::ImportDialog*>(QApplication::activeModalWidget());
            if (dialog == nullptr)
                return;
            whenShown.stop();
            headline = dialog->findChild<QLabel*>(u"importHeadline"_s)->text();
            dialog->reject();
        });
        whenShown.start();
        drop(window, {file.fileName()});
        QCOMPARE(headline, u"1 patient and 1 visit are new."_s);
        QVERIFY(desk.session->patients()->empty());
        QVERIFY(desk.answers.told.isEmpty());
    }
};

HOUSE_TEST(TestImportDrop)

} // namespace test_import_drop

#include "test_import_drop.moc"
