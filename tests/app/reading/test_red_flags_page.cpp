#include "app/reading/red_flags_page.h"

#include "app/widgets/key_row.h"
#include "core/records/happening.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QLabel>
#include <QLineEdit>

using namespace Qt::StringLiterals;

namespace test_red_flags_page
{

using clinic_desk::Desk;
using clinic_desk::today;
using reading::momentTyped;
using reading::RedFlagsPage;

const QString first = u"sudden-unsteadiness"_s;
const QString second = u"sudden-focal-sign"_s;

/// A draft of today with its questions in a window.
struct Asking {
    Desk desk;
    records::VisitId draft;
    std::unique_ptr<RedFlagsPage> page;

    explicit Asking(QDate day = today)
    {
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        draft = desk.addVisit(day, false);
        page = std::make_unique<RedFlagsPage>(*desk.session, desk.answers, nullptr);
        page->resize(900, 430);
        page->show();
        page->activateWindow();
        (void)QTest::qWaitForWindowActive(page.get());
        page->setFocus();
    }

    const records::RedFlags& flags() const { return desk.session->visitInFocus()->redFlags; }
    bool hasKeyboard(const QString& flag) const
    {
        const QWidget* focus = page->focusWidget();
        return focus != nullptr && focus->objectName() == flag;
    }
    QString shown(const QString& label) const { return page->findChild<QLabel*>(label)->text(); }
    QLineEdit* line(const QString& flag, const QString& part) const
    {
        return page->findChild<QLineEdit*>(u"redFlag.%1.%2"_s.arg(flag, part));
    }
};

class TestRedFlagsPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theKeyboardAloneAnswersAll();
    void aYesAsksWhatWasDoneAndWhen();
    void whatCannotBeStoredIsHeldAndSaid();
    void undoShowsWhatIsStored();
    void aVisitOfAnEarlierDayAsksForTheTime();
    void aSignedVisitIsOnlyRead();
    void factsStandBesideWithoutAVerdict();
    void everyQuestionHasANameForAScreenReader();
    void momentsAreReadInOneWay_data();
    void momentsAreReadInOneWay();
};

void TestRedFlagsPage::theKeyboardAloneAnswersAll()
{
    paces::each([](Pace& pace) {
        const Asking asking;
        QVERIFY(asking.hasKeyboard(u"redFlag."_s + first));
        pace.typeAt(asking.page.get(), u"n"_s);
        QCOMPARE(asking.flags(), (records::RedFlags{{first, {false, {}}}}));
        QVERIFY(asking.hasKeyboard(u"redFlag."_s + second));
        pace.keyAt(asking.page.get(), Qt::Key_Up);
        QVERIFY(asking.hasKeyboard(u"redFlag."_s + first));
        pace.keyAt(asking.page.get(), Qt::Key_Backspace);
        QVERIFY(asking.flags().empty()); // not asked, which is no “no”
        pace.keyAt(asking.page.get(), Qt::Key_Down);
        pace.keyAt(asking.page.get(), Qt::Key_Down);
        QVERIFY(asking.hasKeyboard(u"redFlag.vertigo-with-another-sign"_s));
        QVERIFY(asking.shown(u"redFlagUrgency"_s).contains(u"NICE NG127"_s));
        pace.keyAt(asking.page.get(), Qt::Key_Up);
        pace.keyAt(asking.page.get(), Qt::Key_Up);
        pace.typeAt(asking.page.get(), u"n"_s.repeated(24));
        QCOMPARE(asking.flags().size(), size_t(24));
        QVERIFY(asking.shown(u"redFlagCount"_s).startsWith(u"24 "_s));
    });
}

void TestRedFlagsPage::aYesAsksWhatWasDoneAndWhen()
{
    paces::each([](Pace& pace) {
        const Asking asking;
        pace.typeAt(asking.page.get(), u"y"_s);
        QCOMPARE(asking.flags().at(first), (records::RedFlagAnswer{true, {}}));
        QVERIFY(asking.hasKeyboard(u"redFlag.%1.action"_s.arg(first)));
        pace.typeAt(asking.page.get(), u"stroke team called "_s);
        // 09:30 UTC by the clock of Kathmandu.
        QCOMPARE(asking.flags().at(first).acknowledged,
                 std::optional(records::Acknowledgement{u"stroke team called"_s, today, QTime(15, 15)}));
        pace.keyAt(asking.page.get(), Qt::Key_Tab);
        pace.keyAt(asking.page.get(), Qt::Key_A, Qt::ControlModifier);
        pace.typeAt(asking.page.get(), u"14:20"_s);
        QCOMPARE(asking.flags().at(first).acknowledged->time, QTime(14, 20));
        QCOMPARE(asking.page->unsaved(), QStringList());
        pace.keyAt(asking.page.get(), Qt::Key_Return);
        QVERIFY(asking.hasKeyboard(u"redFlag."_s + second));
    });
}

void TestRedFlagsPage::whatCannotBeStoredIsHeldAndSaid()
{
    paces::each([](Pace& pace) {
        const Asking asking;
        pace.typeAt(asking.page.get(), u"yrang"_s);
        pace.keyAt(asking.page.get(), Qt::Key_Tab);
        pace.keyAt(asking.page.get(), Qt::Key_A, Qt::ControlModifier);
        pace.typeAt(asking.page.get(), u"23:59"_s); // not yet
        QVERIFY(!asking.flags().at(first).acknowledged);
        QCOMPARE(asking.page->unsaved().size(), 1);
        QVERIFY(asking.page->unsaved().front().contains(u"Not recorded: when it was done"_s));
        QCOMPARE(asking.line(first, u"action"_s)->text(), u"rang"_s);
        QCOMPARE(asking.line(first, u"moment"_s)->text(), u"23:59"_s);
        pace.keyAt(asking.page.get(), Qt::Key_A, Qt::ControlModifier);
        pace.typeAt(asking.page.get(), u"9:05"_s);
        QCOMPARE(asking.flags().at(first).acknowledged,
                 std::optional(records::Acknowledgement{u"rang"_s, today, QTime(9, 5)}));
        QVERIFY(asking.page->unsaved().isEmpty());
    });
}

void TestRedFlagsPage::undoShowsWhatIsStored()
{
    paces::each([](Pace& pace) {
        const Asking asking;
        pace.typeAt(asking.page.get(), u"yrang"_s);
        QVERIFY(asking.desk.session->undo()); // the words
        QCOMPARE(asking.line(first, u"action"_s)->text(), QString());
        QVERIFY(asking.desk.session->undo()); // the yes
        QVERIFY(asking.flags().empty());
        QVERIFY(asking.line(first, u"action"_s)->isHidden() || !asking.line(first, u"action"_s)->isVisible());
        QVERIFY(asking.desk.session->redo());
        QVERIFY(asking.desk.session->redo());
        QCOMPARE(asking.line(first, u"action"_s)->text(), u"rang"_s);
    });
}

void TestRedFlagsPage::aVisitOfAnEarlierDayAsksForTheTime()
{
    paces::each([](Pace& pace) {
        const Asking asking(today.addDays(-2));
        pace.typeAt(asking.page.get(), u"yseen on the ward"_s);
        QVERIFY(!asking.flags().at(first).acknowledged);
        QVERIFY(asking.page->unsaved().front().contains(u"when it was done"_s));
        pace.keyAt(asking.page.get(), Qt::Key_Tab);
        pace.typeAt(asking.page.get(), u"2026-03-11 08:00"_s);
        QCOMPARE(
            asking.flags().at(first).acknowledged,
            std::optional(records::Acknowledgement{u"seen on the ward"_s, QDate(2026, 3, 11), QTime(8, 0)}));
    });
}

void TestRedFlagsPage::aSignedVisitIsOnlyRead()
{
    paces::each([](Pace& pace) {
        const Asking asking;
        pace.typeAt(asking.page.get(), u"n"_s);
        QVERIFY(asking.desk.session->signVisit(asking.draft, *asking.desk.answers.signer));
        const records::RedFlags before = asking.flags();
        asking.page->setFocus();
        pace.typeAt(asking.page.get(), u"y"_s);
        pace.keyAt(asking.page.get(), Qt::Key_Backspace);
        QCOMPARE(asking.flags(), before);
        QCOMPARE(asking.desk.answers.told, QStringList());
    });
}

void TestRedFlagsPage::factsStandBesideWithoutAVerdict()
{
    const Asking asking;
    QVERIFY(asking.shown(u"redFlagFacts"_s).startsWith(u"No new vertical nystagmus"_s));
    records::Happening fall;
    fall.kind = records::HappeningKind::Fall;
    fall.from = today;
    fall.injury = records::Injury::Yes;
    fall.words = u"bruised hip"_s;
    QVERIFY(asking.desk.session->saveHappening(fall));
    QCOMPARE(asking.shown(u"redFlagFacts"_s), u"• Fall with injury, 12-Mar-2026: bruised hip"_s);
    records::Finding nystagmus;
    nystagmus.measure = u"nystagmus"_s;
    nystagmus.value = values::Choice{u"upbeat-or-downbeat"_s};
    QVERIFY(asking.desk.session->saveFinding(asking.draft, nystagmus));
    QVERIFY(asking.shown(u"redFlagFacts"_s)
                .startsWith(u"• Nystagmus: Upbeat or downbeat; not recorded at an earlier visit\n"_s));
    QVERIFY(asking.flags().empty()); // nothing is answered by it
}

void TestRedFlagsPage::everyQuestionHasANameForAScreenReader()
{
    const Asking asking;
    for (const catalogue::RedFlag& flag : clinic_desk::book().redFlags) {
        auto* keys = asking.page->findChild<widgets::KeyRow*>(u"redFlag."_s + flag.id);
        QVERIFY2(keys != nullptr, qPrintable(flag.id));
        QCOMPARE(keys->accessibleName(), flag.question);
        QCOMPARE(keys->accessibleDescription(), u"blank"_s);
        QVERIFY(asking.line(flag.id, u"action"_s)->accessibleName().endsWith(flag.question));
    }
}

void TestRedFlagsPage::momentsAreReadInOneWay_data()
{
    QTest::addColumn<QString>("typed");
    QTest::addColumn<QString>("read");
    QTest::newRow("time") << u"14:20"_s << u"2026-03-12 14:20"_s;
    QTest::newRow("short") << u" 9:05 "_s << u"2026-03-12 09:05"_s;
    QTest::newRow("point") << u"9.05"_s << u"2026-03-12 09:05"_s;
    QTest::newRow("day") << u"2026-03-13 00:10"_s << u"2026-03-13 00:10"_s;
    QTest::newRow("day with a month") << u"13-Mar-2026 00:10"_s << u"2026-03-13 00:10"_s;
    for (const char* wrong :
         {"", "14", "25:00", "14:60", "yesterday", "03/04/2026 14:20", "2026-02-30 10:00"})
        QTest::addRow("“%s”", wrong) << QString::fromLatin1(wrong) << QString();
}

void TestRedFlagsPage::momentsAreReadInOneWay()
{
    QFETCH(QString, typed);
    const auto moment = momentTyped(typed, today);
    QTEST(moment ? moment->first.toString(Qt::ISODate) + moment->second.toString(u" HH:mm"_s) : QString(),
          "read");
}

HOUSE_TEST(TestRedFlagsPage)

} // namespace test_red_flags_page

#include "test_red_flags_page.moc"
