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

/// Findings files that are dropped on the window.
class TestImportDrop : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsNoSingleFindingsFileIsRefusedInOneSentence()
    {
        clinic_desk::Desk desk;
        shell::MainWindow window(*desk.session, desk.answers);
        window.show();
        drop(window, {desk.folder.filePath(u"letter.pdf"_s)});
        drop(window, {desk.folder.filePath(u"a.csv"_s), desk.folder.filePath(u"b.csv"_s)});
        QCOMPARE(desk.answers.told.size(), 2);
        QVERIFY(desk.answers.told[0].startsWith(
            u"Findings come from a .csv file, or from a FHIR bundle in a .json file; "_s));
        QVERIFY(desk.answers.told[1].startsWith(u"Findings are imported one file at a time; "_s));
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
