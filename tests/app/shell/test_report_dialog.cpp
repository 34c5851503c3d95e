#include "app/shell/report_dialog.h"

#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace test_report_dialog
{

/// The dialog on an empty clinic.
struct Asked {
    clinic_desk::Desk desk;
    shell::ReportDialog dialog{*desk.session, desk.answers, nullptr};

    Asked() { dialog.show(); }

    QLineEdit& day(const QString& name) { return *dialog.findChild<QLineEdit*>(name); }
    QString below(const QString& name) { return dialog.findChild<QLabel*>(name + u"Below"_s)->text(); }
    void write(const QString& from, const QString& until)
    {
        day(u"reportFrom"_s).setText(from);
        day(u"reportUntil"_s).setText(until);
        QTest::keyClick(dialog.findChild<QPushButton*>(u"writeReport"_s), Qt::Key_Space);
    }
    QByteArray written(const QString& name)
    {
        QFile file(desk.folder.filePath(name));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
};

class TestReportDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theLastThreeMonthsAreOffered()
    {
        Asked asked;
        QCOMPARE(asked.day(u"reportFrom"_s).text(), u"2025-12-12"_s);
        QCOMPARE(asked.day(u"reportUntil"_s).text(), u"2026-03-12"_s);
    }

    void theFileIsWrittenAsItEnds()
    {
        for (const auto& [name, beginning] :
             {std::pair(u"r.pdf"_s, QByteArray("%PDF")), std::pair(u"r.CSV"_s, QByteArray("from,until,"))}) {
            Asked asked;
            asked.desk.answers.file = asked.desk.folder.filePath(name);
            asked.write(u"2026-01-01"_s, u"12-Mar-2026"_s);
            QCOMPARE(asked.desk.answers.suggested,
                     (QStringList{u"service-report-2026-01-01-to-2026-03-12.pdf"_s}));
            QVERIFY(asked.written(name).startsWith(beginning));
            QCOMPARE(asked.dialog.result(), int(QDialog::Accepted));
        }
    }

    void wrongDaysAreSaidAndNoFileIsAsked()
    {
        Asked asked;
        asked.write(u"1/2/26"_s, u"2026-02-30"_s);
        QVERIFY(asked.below(u"reportFrom"_s).startsWith(u"Type a day"_s));
        QVERIFY(asked.below(u"reportUntil"_s).startsWith(u"Type a day"_s));
        asked.write(u"2026-03-02"_s, u"2026-03-01"_s);
        QCOMPARE(asked.below(u"reportFrom"_s), QString());
        QVERIFY(asked.below(u"reportUntil"_s).contains(u"before the first"_s));
        QVERIFY(asked.desk.answers.suggested.isEmpty());
        QVERIFY(asked.dialog.isVisible());
    }

    void whatCannotBeWrittenIsSaid()
    {
        Asked asked;
        asked.desk.answers.file = asked.desk.folder.filePath(u"nowhere/r.pdf"_s);
        asked.write(u"2026-01-01"_s, u"2026-03-12"_s);
        QCOMPARE(asked.desk.answers.told.size(), 1);
        QVERIFY(asked.dialog.isVisible());
        asked.desk.answers.file.reset(); // turned back
        asked.write(u"2026-01-01"_s, u"2026-03-12"_s);
        QCOMPARE(asked.desk.answers.told.size(), 1);
        QVERIFY(asked.dialog.isVisible());
    }
};

HOUSE_TEST(TestReportDialog)

} // namespace test_report_dialog

#include "test_report_dialog.moc"
