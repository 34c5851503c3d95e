#include "app/writing/handover_dialog.h"

#include "tests/support/test_support.h"

#include <QtWidgets>

using namespace Qt::StringLiterals;

namespace test_handover_dialog
{

const QDate today(2026, 6, 12);

struct Opened {
    writing::HandoverDialog dialog{u"Dr. Oda Veld"_s, today, nullptr};
    QComboBox* way = dialog.findChild<QComboBox*>(u"handoverWay"_s);
    QLineEdit* to = dialog.findChild<QLineEdit*>(u"handoverTo"_s);
    QLineEdit* day = dialog.findChild<QLineEdit*>(u"handoverDay"_s);
    QPushButton* note = dialog.findChild<QPushButton*>(u"handoverNote"_s);

    Opened() { dialog.show(); }
};

class TestHandoverDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void nothingIsAssumed()
    {
        const Opened open;
        QCOMPARE(open.way->currentText(), QString());
        QVERIFY(!open.note->isEnabled());
        QCOMPARE(open.to->text(), u"Dr. Oda Veld"_s);
        QCOMPARE(open.dialog.handover().day, today);
    }

    void itIsNotedFromTheKeyboard()
    {
        Opened open;
        open.dialog.activateWindow();
        QTRY_VERIFY(open.way->hasFocus());
        QTest::keyClicks(open.way->lineEdit(), u"  by the  patient's daughter "_s);
        open.to->clear();
        QTest::keyClicks(open.to, u"Practice Veld"_s);
        open.day->clear();
        QTest::keyClicks(open.day, u"2026-06-10"_s);
        QTest::keyClick(open.day, Qt::Key_Return);
        QCOMPARE(open.dialog.result(), int(QDialog::Accepted));
        const records::Handover noted = open.dialog.handover();
        QCOMPARE(noted.way, u"by the patient's daughter"_s);
        QCOMPARE(noted.to, u"Practice Veld"_s);
        QCOMPARE(noted.day, QDate(2026, 6, 10));
    }

    void aDayThatIsNoneOrIsToComeIsNotNoted_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::addColumn<bool>("isNoted");
        QTest::newRow("today") << u"12-Jun-2026"_s << true;
        QTest::newRow("tomorrow") << u"2026-06-13"_s << false;
        QTest::newRow("no day") << u"soon"_s << false;
        QTest::newRow("nothing") << QString() << false;
    }

    void aDayThatIsNoneOrIsToComeIsNotNoted()
    {
        QFETCH(QString, typed);
        QFETCH(bool, isNoted);
        const Opened open;
        open.way->setCurrentText(u"by post"_s);
        open.day->setText(typed);
        QCOMPARE(open.note->isEnabled(), isNoted);
        QCOMPARE(open.dialog.findChild<QLabel*>(u"handoverWhyNot"_s)->text().isEmpty(), isNoted);
    }

    void everyFieldIsSpoken()
    {
        const Opened open;
        for (const QWidget* each : std::initializer_list<const QWidget*>{open.way, open.to, open.day})
            QVERIFY2(!each->accessibleName().isEmpty(), qPrintable(each->objectName()));
    }

    void escapeNotesNothing()
    {
        Opened open;
        open.way->setCurrentText(u"by post"_s);
        QTest::keyClick(&open.dialog, Qt::Key_Escape);
        QCOMPARE(open.dialog.result(), int(QDialog::Rejected));
    }
};

HOUSE_TEST(TestHandoverDialog)

} // namespace test_handover_dialog

#include "test_handover_dialog.moc"
