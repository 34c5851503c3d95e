#include "app/happenings/happenings_dialog.h"

#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableWidget>

using namespace Qt::StringLiterals;

namespace test_happenings_dialog
{

using clinic_desk::Desk;
using happenings::HappeningsDialog;
using records::Happening;
using records::HappeningKind;
using records::Injury;

/// The dialog of a patient, as the ribbon or a button opens it.
struct Asked {
    Desk desk;
    std::unique_ptr<HappeningsDialog> dialog;

    Asked()
    {
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        open();
    }

    void open()
    {
        dialog = std::make_unique<HappeningsDialog>(*desk.session, desk.answers, nullptr);
        dialog->show();
        dialog->activateWindow();
    }

    Happening add(HappeningKind kind, QDate day)
    {
        Happening happening;
        happening.kind = kind;
        happening.from = day;
        happening.words = kind == HappeningKind::Other ? u"moved house"_s : QString();
        const auto saved = desk.session->saveHappening(happening);
        return saved ? *saved : Happening();
    }

    template <class Widget>
    Widget* widget(const QString& name) const
    {
        return dialog->findChild<Widget*>(name);
    }
    QString notice() const { return widget<QLabel>(u"noticeWords"_s)->text(); }
    std::vector<Happening> stored() const { return desk.session->happenings(); }
};

class TestHappeningsDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatTheRibbonKnowsIsStoredByOneKey()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            asked.dialog->begin(HappeningKind::Fall, QDate(2026, 3, 2));
            pace.keyAt(asked.dialog.get(), Qt::Key_Return);
            QCOMPARE(asked.stored().size(), 1U);
            QCOMPARE(asked.stored().front().kind, HappeningKind::Fall);
            QCOMPARE(asked.stored().front().from, QDate(2026, 3, 2));
            QVERIFY(!asked.dialog->isVisible());
        });
    }

    void anEventIsEnteredWithoutAMouse()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            QWidget* window = asked.dialog.get();
            pace.typeAt(window, u"f"_s);
            for (const QString& text : {u"2026-02-01"_s, u"03-feb-2026"_s, u"y"_s, u"on the stairs"_s}) {
                pace.keyAt(window, Qt::Key_Tab);
                pace.typeAt(window, text);
            }
            pace.keyAt(window, Qt::Key_Return, Qt::ShiftModifier);
            pace.typeAt(window, u"at dusk"_s);
            pace.keyAt(window, Qt::Key_Return);
            QCOMPARE(asked.stored().size(), 1U);
            const Happening fall = asked.stored().front();
            QCOMPARE(fall.from, QDate(2026, 2, 1));
            QCOMPARE(fall.until, std::optional(QDate(2026, 2, 3)));
            QCOMPARE(fall.injury, Injury::Yes);
            QCOMPARE(fall.words, u"on the stairs\nat dusk"_s);
        });
    }

    void whatCannotBeStoredIsToldAndStays_data()
    {
        QTest::addColumn<QString>("kind");
        QTest::addColumn<QString>("from");
        QTest::addColumn<QString>("until");
        QTest::addColumn<QString>("sentence");
        QTest::addColumn<QString>("keyboard");
        QTest::newRow("nothing chosen")
            << u""_s << u"2026-03-02"_s << u""_s << u"Choose what happened."_s << u"happeningKinds"_s;
        QTest::newRow("no day") << u"r"_s << u""_s << u""_s << u"Type the day"_s << u"happeningFrom"_s;
        QTest::newRow("a day of no calendar")
            << u"r"_s << u"2026-02-30"_s << u""_s << u"“2026-02-30” is not a day of the calendar"_s
            << u"happeningFrom"_s;
        QTest::newRow("a last day that is none")
            << u"r"_s << u"2026-02-20"_s << u"soon"_s << u"“soon” is not a day"_s << u"happeningUntil"_s;
        QTest::newRow("a last day before the first")
            << u"r"_s << u"2026-02-20"_s << u"2026-02-01"_s << u"not before the first"_s << u""_s;
        QTest::newRow("a day to come")
            << u"r"_s << u"2026-04-20"_s << u""_s << u"First day of the event"_s << u""_s;
        QTest::newRow("another event without words")
            << u"o"_s << u"2026-02-20"_s << u""_s << u"needs words"_s << u""_s;
    }

    void whatCannotBeStoredIsToldAndStays()
    {
        QFETCH(const QString, kind);
        QFETCH(const QString, from);
        QFETCH(const QString, until);
        QFETCH(const QString, sentence);
        QFETCH(const QString, keyboard);
        Asked asked;
        QTest::keyClicks(asked.widget<QWidget>(u"happeningKinds"_s), kind);
        asked.widget<QLineEdit>(u"happeningFrom"_s)->setText(from);
        asked.widget<QLineEdit>(u"happeningUntil"_s)->setText(until);
        QTest::keyClick(asked.widget<QPushButton>(u"storeHappening"_s), Qt::Key_Space);
        QVERIFY2(asked.notice().contains(sentence), qPrintable(asked.notice()));
        QVERIFY(asked.stored().empty());
        QVERIFY(asked.dialog->isVisible());
        QCOMPARE(asked.widget<QLineEdit>(u"happeningFrom"_s)->text(), from);
        QCOMPARE(asked.widget<QLineEdit>(u"happeningUntil"_s)->text(), until);
        if (!keyboard.isEmpty())
            QCOMPARE(asked.dialog->focusWidget()->objectName(), keyboard);
    }

    void injuryIsAskedOfAFallAlone()
    {
        Asked asked;
        auto* kinds = asked.widget<QWidget>(u"happeningKinds"_s);
        auto* injury = asked.widget<QWidget>(u"happeningInjury"_s);
        QTest::keyClicks(kinds, u"r"_s);
        QVERIFY(!injury->isVisible());
        QTest::keyClicks(kinds, u"f"_s);
        QVERIFY(injury->isVisible());
        QTest::keyClicks(injury, u"y"_s);
        QTest::keyClicks(kinds, u"i"_s); // it was an infection after all
        asked.widget<QLineEdit>(u"happeningFrom"_s)->setText(u"2026-02-20"_s);
        QTest::keyClick(kinds, Qt::Key_Return);
        QCOMPARE(asked.stored().size(), 1U);
        QCOMPARE(asked.stored().front().injury, Injury::NotStated);
    }

    void severalAreEnteredOneAfterAnother()
    {
        Asked asked;
        asked.dialog->begin(HappeningKind::Fall, QDate(2026, 3, 2));
        QTest::keyClick(asked.widget<QPushButton>(u"storeAndNext"_s), Qt::Key_Space);
        QVERIFY(asked.dialog->isVisible());
        QCOMPARE(asked.widget<QLineEdit>(u"happeningFrom"_s)->text(), QString());
        QVERIFY2(asked.notice().contains(u"Stored: Fall, 02-Mar-2026."_s), qPrintable(asked.notice()));
        asked.dialog->begin(HappeningKind::Relapse, QDate(2026, 3, 4));
        QTest::keyClick(asked.widget<QPushButton>(u"storeHappening"_s), Qt::Key_Space);
        QCOMPARE(asked.dialog->storedCount(), 2);
        QCOMPARE(asked.stored().size(), 2U);
    }

    void theListIsNewestFirstAndReturnEdits()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            QVERIFY(asked.add(HappeningKind::Surgery, QDate(2025, 5, 5)).version > 0);
            QVERIFY(asked.add(HappeningKind::Fall, QDate(2026, 1, 5)).version > 0);
            auto* table = asked.widget<QTableWidget>(u"happeningTable"_s);
            QCOMPARE(table->item(0, 0)->text(), u"Fall"_s);
            QCOMPARE(table->item(1, 1)->text(), u"05-May-2025"_s);
            table->setFocus();
            pace.key(table, Qt::Key_Down);
            pace.key(table, Qt::Key_Up);
            pace.key(table, Qt::Key_Return);
            QCOMPARE(asked.widget<QLineEdit>(u"happeningFrom"_s)->text(), u"2026-01-05"_s);
            pace.typeAt(asked.dialog.get(), u"2026-01-15"_s); // the day is selected
            pace.keyAt(asked.dialog.get(), Qt::Key_Return);
            QCOMPARE(asked.stored().back().from, QDate(2026, 1, 15));
            QCOMPARE(asked.stored().back().version, 2);
            QCOMPARE(asked.stored().size(), 2U);
        });
    }

    void takingBackNeedsAReason()
    {
        Asked asked;
        QVERIFY(asked.add(HappeningKind::Fall, QDate(2026, 1, 5)).version > 0);
        auto* table = asked.widget<QTableWidget>(u"happeningTable"_s);
        asked.desk.answers.text = std::nullopt;
        QTest::keyClick(table, Qt::Key_Delete);
        QCOMPARE(asked.stored().size(), 1U);
        asked.desk.answers.text = u"of somebody else"_s;
        QTest::keyClick(table, Qt::Key_Delete);
        QVERIFY2(asked.desk.answers.asked.last().contains(u"Fall, 05-Jan-2026"_s),
                 qPrintable(asked.desk.answers.asked.last()));
        QVERIFY(asked.stored().empty());
        QCOMPARE(asked.desk.session->happeningVersions().back().takenBackFor, u"of somebody else"_s);
        QCOMPARE(table->rowCount(), 0);
        QVERIFY(!asked.widget<QPushButton>(u"editHappening"_s)->isEnabled());
    }

    void whatWasTypedIsThrownAwayOnlyWhenAsked()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            asked.dialog->begin(HappeningKind::Fall, QDate(2026, 3, 2));
            asked.desk.answers.isConfirmed = false;
            pace.typeAt(asked.dialog.get(), u"2026-03-01"_s);
            pace.keyAt(asked.dialog.get(), Qt::Key_Escape);
            QVERIFY(asked.dialog->isVisible());
            QCOMPARE(asked.desk.answers.risked, 1);
            QVERIFY2(asked.desk.answers.asked.last().contains(u"2026-03-01"_s),
                     qPrintable(asked.desk.answers.asked.last()));
            asked.desk.answers.isConfirmed = true;
            pace.keyAt(asked.dialog.get(), Qt::Key_Escape);
            QVERIFY(!asked.dialog->isVisible());
            QVERIFY(asked.stored().empty());
        });
    }

    void leavingWhatTheRibbonFilledInAsksNothing()
    {
        Asked asked;
        asked.dialog->begin(HappeningKind::Fall, QDate(2026, 3, 2));
        QTest::keyClick(asked.dialog.get(), Qt::Key_Escape);
        QVERIFY(!asked.dialog->isVisible());
        QVERIFY(asked.desk.answers.asked.isEmpty());
    }

    void everyKindHasALetterOfItsOwn()
    {
        for (const HappeningKind kind : happenings::kinds())
            QCOMPARE(happenings::kindTyped(happenings::letterOf(kind)), std::optional(kind));
        QCOMPARE(happenings::kinds().back(), HappeningKind::Other);
        QVERIFY(!happenings::kindTyped(u"z"_s));
        QVERIFY(!happenings::kindTyped(QString()));
    }
};

HOUSE_TEST(TestHappeningsDialog)

} // namespace test_happenings_dialog

#include "test_happenings_dialog.moc"
