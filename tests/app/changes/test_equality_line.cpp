#include "tests/support/change_table.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QTextBrowser>

using namespace Qt::StringLiterals;

namespace test_equality_line
{

using changes::ChangeModel;
using records::Conditions;

const QString walk = u"ten-metre-walk-time-comfortable"_s;
const QString peg = u"nine-hole-peg"_s;

Conditions known()
{
    return {{u"aid"_s, u"none"_s},          {u"orthosis"_s, u"none"_s}, {u"footwear"_s, u"own-shoes"_s},
            {u"assistance"_s, u"none"_s},   {u"start"_s, u"moving"_s},  {u"distance_m"_s, u"10"_s},
            {u"surface"_s, u"hard-floor"_s}};
}

Conditions without(const QString& condition)
{
    Conditions conditions = known();
    conditions.remove(condition);
    return conditions;
}

/// The change page on two walks, the first under the conditions given.
struct Shown {
    clinic_desk::Desk desk;
    changes::ChangePage page{*desk.session, desk.answers};

    explicit Shown(const Conditions& first)
    {
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Ida"_s, QDate(1951, 3, 4)).id);
        walked(QDate(2026, 2, 2), 14, first);
        walked(QDate(2026, 3, 2), 10, known());
        page.resize(1280, 760);
        page.show();
        change_table::showMore(page);
        change_table::unfold(page);
        choose(walk);
    }

    void walked(QDate day, double seconds, const Conditions& conditions)
    {
        records::Finding finding;
        finding.measure = walk;
        finding.value = values::Quantity{seconds, values::Unit::Second};
        records::Finding hand = finding;
        hand.measure = peg;
        hand.side = records::Side::Left;
        hand.value = values::Quantity{2 * seconds, values::Unit::Second};
        const auto visit = desk.session->startVisit(day);
        QVERIFY(visit && desk.session->saveConditions(visit->id, conditions, true));
        QVERIFY(desk.session->saveFindings(visit->id, {finding, hand}));
        QVERIFY(desk.session->signVisit(visit->id, *desk.answers.signer));
    }

    template <class Widget>
    Widget& find(const QString& name)
    {
        return *page.findChild<Widget*>(name);
    }
    ChangeModel& model() { return *qobject_cast<ChangeModel*>(find<QTableView>(u"changeTable"_s).model()); }
    void choose(const QString& measure, records::Side side = records::Side::None)
    {
        find<QTableView>(u"changeTable"_s).setCurrentIndex(model().index(model().placeOf(measure, side), 0));
    }
    QString verdict()
    {
        return model()
            .index(model().placeOf(walk, records::Side::None), ChangeModel::Verdict)
            .data()
            .toString();
    }
    QPushButton& declare() { return find<QPushButton>(u"declareEqual"_s); }
    QPushButton& takeBack() { return find<QPushButton>(u"takeBackEqual"_s); }
    QLabel& words() { return find<QLabel>(u"equalityWords"_s); }
};

class TestEqualityLine : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatWasNotRecordedIsDeclaredEqualByKeyboard();
    void theWordIsTakenBackByKeyboard();
    void theQuestionNamesDaysMeasureAndConditions();
    void aRecordedDifferenceCannotBeDeclaredAway();
    void whereNothingIsMissingNothingIsSaid();
    void withoutAReasonNothingIsDeclared();
    void aWordByWayOfAnotherVisitIsTold();
    void whatCanBePressedHasAName();
};

void TestEqualityLine::whatWasNotRecordedIsDeclaredEqualByKeyboard()
{
    Shown shown(without(u"aid"_s));
    QCOMPARE(shown.verdict(), u"not compared"_s);
    QVERIFY(shown.words().isVisible() && shown.declare().isVisible() && !shown.takeBack().isVisible());
    QCOMPARE(shown.words().text(), u"Not comparable only because something was not recorded."_s);

    shown.desk.answers.text = u"seen in the film"_s;
    QTest::keyClick(&shown.declare(), Qt::Key_Space);
    QVERIFY2(shown.verdict().startsWith(u"better, seen once"_s), qPrintable(shown.verdict()));
    QCOMPARE(shown.words().text(),
             u"Not recorded on 02-Feb-2026: walking aid. Declared the same on 02-Feb-2026 and 02-Mar-2026 by "
             "A. Tester, physiotherapist, P-1 on 12-Mar-2026: “seen in the film”."_s);
    QVERIFY(!shown.declare().isVisible() && shown.takeBack().isVisible());
    const QString detail = shown.find<QTextBrowser>(u"changeDetail"_s).toPlainText();
    QVERIFY2(detail.contains(u"not recorded: declared the same"_s), qPrintable(detail));
}

void TestEqualityLine::theWordIsTakenBackByKeyboard()
{
    Shown shown(without(u"aid"_s));
    QTest::keyClick(&shown.declare(), Qt::Key_Space);
    shown.desk.answers.asked.clear();
    shown.desk.answers.text = u"another person's film"_s;
    QTest::keyClick(&shown.takeBack(), Qt::Key_Space);
    QCOMPARE(shown.desk.answers.asked,
             QStringList{u"No longer count the conditions on 02-Feb-2026 and 02-Mar-2026 as the same for "
                         "10-metre walk time: comfortable pace?"_s});
    QCOMPARE(shown.verdict(), u"not compared"_s);
    QVERIFY(shown.declare().isVisible() && !shown.takeBack().isVisible());
    QCOMPARE(shown.desk.session->patientInFocus().declared.back().reason, u"another person's film"_s);
}

void TestEqualityLine::theQuestionNamesDaysMeasureAndConditions()
{
    Conditions first = without(u"aid"_s);
    first.remove(u"footwear"_s);
    Shown shown(first);
    shown.desk.answers.text.reset();
    shown.declare().click();
    QCOMPARE(shown.desk.answers.asked.size(), 1);
    const QStringList lines = shown.desk.answers.asked.front().split(u'\n');
    QCOMPARE(lines.front(), u"Were the conditions the same on 02-Feb-2026 and 02-Mar-2026 for 10-metre walk "
                            "time: comfortable pace?"_s);
    QCOMPARE(lines.at(1), u"Not recorded on 02-Feb-2026: walking aid, footwear."_s);
    QVERIFY(lines.at(2).startsWith(u"Different conditions can hide a change or feign one."_s));
    QCOMPARE(lines.size(), 3);
    QVERIFY(shown.desk.answers.told.isEmpty());
    QVERIFY(shown.desk.session->patientInFocus().declared.empty());
}

void TestEqualityLine::aRecordedDifferenceCannotBeDeclaredAway()
{
    Conditions first = without(u"footwear"_s);
    first[u"aid"_s] = u"stick"_s;
    Shown shown(first);
    QCOMPARE(shown.verdict(), u"not compared"_s);
    QVERIFY(!shown.declare().isVisible() && !shown.words().isVisible());
}

void TestEqualityLine::whereNothingIsMissingNothingIsSaid()
{
    Shown shown(known());
    QVERIFY(!shown.words().isVisible());
    Shown other(without(u"aid"_s));
    QVERIFY(other.words().isVisible());
    other.choose(peg, records::Side::Left); // asks for no walking aid
    QVERIFY(!other.words().isVisible());
    other.desk.session->leavePatient();
    QVERIFY(!other.words().isVisible());
}

void TestEqualityLine::withoutAReasonNothingIsDeclared()
{
    Shown shown(without(u"aid"_s));
    shown.desk.answers.text = u" "_s;
    shown.declare().click();
    QCOMPARE(shown.desk.answers.told, QStringList{u"A declaration needs a reason."_s});
    QCOMPARE(shown.verdict(), u"not compared"_s);
}

void TestEqualityLine::aWordByWayOfAnotherVisitIsTold()
{
    Shown shown(without(u"aid"_s));
    shown.declare().click();
    shown.walked(QDate(2026, 3, 9), 11, known());
    shown.desk.session->chooseReference(shown.desk.session->visits().front().id);
    shown.choose(walk);
    QVERIFY2(
        shown.words().text().startsWith(u"Not recorded on 02-Feb-2026: walking aid. Declared the same on "
                                        "02-Feb-2026 and 02-Mar-2026 by"_s),
        qPrintable(shown.words().text()));
    shown.takeBack().click();
    QCOMPARE(shown.verdict(), u"not comparable"_s);
}

void TestEqualityLine::whatCanBePressedHasAName()
{
    Shown shown(without(u"aid"_s));
    for (const QPushButton* button : {&shown.declare(), &shown.takeBack()}) {
        QVERIFY(button->focusPolicy() & Qt::TabFocus);
        QVERIFY(button->text().contains(u'&'));
        QVERIFY(!button->accessibleDescription().isEmpty());
    }
}

HOUSE_TEST(TestEqualityLine)

} // namespace test_equality_line

#include "test_equality_line.moc"
