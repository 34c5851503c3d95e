#include "app/shell/clinic_dialog.h"

#include "core/records/visit.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>

using namespace Qt::StringLiterals;

namespace test_clinic_dialog
{

using clinic_desk::Desk;

/// The dialog on a clinic with a name.
struct Asked {
    Desk desk;
    std::unique_ptr<shell::ClinicDialog> dialog;

    explicit Asked(const records::Judging& judging = {})
    {
        records::Clinic clinic = desk.session->clinic();
        clinic.name = u"Invented clinic"_s;
        clinic.judging = judging;
        const bool isSaved = bool(desk.session->saveClinic(clinic));
        dialog =
            isSaved ? std::make_unique<shell::ClinicDialog>(*desk.session, desk.answers, nullptr) : nullptr;
        dialog->show();
    }

    QLineEdit& visits() { return *dialog->findChild<QLineEdit*>(u"plannedVisits"_s); }
    QComboBox& weeks() { return *dialog->findChild<QComboBox*>(u"compositeWeeks"_s); }
    QLabel& below() { return *dialog->findChild<QLabel*>(u"plannedVisitsBelow"_s); }
    void save() { QTest::keyClick(dialog->findChild<QPushButton*>(u"saveClinic"_s), Qt::Key_Space); }
    records::Judging judging() const { return desk.session->clinic().judging; }
};

class TestClinicDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itShowsHowTheClinicJudges()
    {
        Asked asked;
        QCOMPARE(asked.visits().text(), u"8"_s);
        QCOMPARE(asked.weeks().currentText(), u"Off"_s);
        QVERIFY(asked.below().isVisible());
        QVERIFY2(asked.below().text().contains(u"plan"_s), qPrintable(asked.below().text()));
        QCOMPARE(asked.dialog->findChild<QComboBox*>(u"strictness"_s)->currentData().toString(),
                 u"balanced"_s);
        QCOMPARE(asked.weeks().accessibleName(), u"Composite confirmed worsening (multiple sclerosis)"_s);
        Asked other({12, 24});
        QCOMPARE(other.visits().text(), u"12"_s);
        QCOMPARE(other.weeks().currentText(), u"Kept for 24 weeks"_s);
    }

    void theLevelsOfUrgencyAreTheClinicsOwn()
    {
        Asked asked;
        auto* levels = asked.dialog->findChild<QPlainTextEdit*>(u"urgencyLevels"_s);
        QVERIFY(levels != nullptr);
        QCOMPARE(levels->toPlainText(), QString());
        levels->setPlainText(u" When there is time \n\nToday\nToday"_s);
        asked.save();
        QCOMPARE(asked.desk.session->clinic().urgencyLevels,
                 (QStringList{u"When there is time"_s, u"Today"_s}));
    }

    void tabGoesFromFieldToFieldAsTheyStand()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            asked.visits().setFocus(Qt::TabFocusReason);
            QStringList passed;
            for (int i = 0; i < 2; ++i) {
                pace.keyAt(asked.dialog.get(), Qt::Key_Tab);
                passed += asked.dialog->focusWidget()->objectName();
            }
            QCOMPARE(passed, (QStringList{u"strictness"_s, u"compositeWeeks"_s}));
        });
    }

    void whatIsChosenIsKept()
    {
        Asked asked;
        asked.visits().setText(u" 20 "_s);
        asked.weeks().setFocus();
        QTest::keyClick(&asked.weeks(), Qt::Key_Down);
        auto& strictness = *asked.dialog->findChild<QComboBox*>(u"strictness"_s);
        QTest::keyClick(&strictness, Qt::Key_Up);
        asked.save();
        const records::Judging chosen{20, 12, records::Strictness::Strict};
        QCOMPARE(asked.judging(), chosen);
        QCOMPARE(asked.dialog->result(), int(QDialog::Accepted));
        QCOMPARE(asked.desk.openAgain()->clinic().judging, chosen);
    }

    void whatIsTypedIsNotLeftUnasked()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            pace.key(asked.dialog.get(), Qt::Key_Escape);
            QVERIFY(!asked.dialog->isVisible());
            QVERIFY(asked.desk.answers.asked.isEmpty());
            asked.dialog->show();
            pace.type(&asked.visits(), u"1"_s);
            const QString typed = asked.visits().text();
            QVERIFY(typed.contains(u'1'));
            asked.desk.answers.isConfirmed = false;
            pace.key(asked.dialog.get(), Qt::Key_Escape);
            QVERIFY(asked.dialog->isVisible());
            QCOMPARE(asked.desk.answers.asked.size(), 1);
            QCOMPARE(asked.visits().text(), typed);
            asked.desk.answers.isConfirmed = true;
            pace.key(asked.dialog.get(), Qt::Key_Escape);
            QVERIFY(!asked.dialog->isVisible());
        });
    }

    void typedLevelsOfUrgencyAreNotLeftUnasked()
    {
        Asked asked;
        asked.dialog->findChild<QPlainTextEdit*>(u"urgencyLevels"_s)->setPlainText(u"Today"_s);
        asked.desk.answers.isConfirmed = false;
        QTest::keyClick(asked.dialog.get(), Qt::Key_Escape);
        QVERIFY(asked.dialog->isVisible());
        QCOMPARE(asked.desk.answers.asked.size(), 1);
    }

    void theCompositeIsSwitchedOff()
    {
        Asked asked({8, 24});
        asked.weeks().setCurrentIndex(0);
        asked.save();
        QCOMPARE(asked.judging(), records::Judging());
    }

    void anotherNumberOfVisitsIsRefusedInOneSentence_data()
    {
        QTest::addColumn<QString>("typed");
        for (const char* typed : {"", "2", "101", "8.5", "eight", "-8"})
            QTest::newRow(typed) << QString::fromLatin1(typed);
    }

    void anotherNumberOfVisitsIsRefusedInOneSentence()
    {
        QFETCH(QString, typed);
        Asked asked;
        asked.visits().setText(typed);
        asked.save();
        QCOMPARE(asked.below().text(), u"A whole number of visits from 3 to 100."_s);
        QCOMPARE(asked.judging(), records::Judging());
        QVERIFY(asked.dialog->isVisible());
        QCOMPARE(asked.visits().text(), typed);
    }
};

HOUSE_TEST(TestClinicDialog)

} // namespace test_clinic_dialog

#include "test_clinic_dialog.moc"
