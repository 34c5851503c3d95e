#include "app/visits/examination_page.h"
#include "app/widgets/tap_counter.h"

#include "tests/app/visits/examination_desk.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QLabel>
#include <QLineEdit>
#include <QToolButton>

using namespace Qt::StringLiterals;

namespace test_computed_fields
{

using catalogue::Kind;
using records::Side;
using values::Unit;

const QDate today(2026, 3, 4);

/// The shipped catalogue with a form of four measures of our own: a total of two items, one of them right and
/// left, and a count of taps.
catalogue::Catalogue bookWithParts()
{
    catalogue::Catalogue book = desk::book();
    const auto lower = catalogue::Direction::LowerIsBetter;
    const auto score = [&](const QString& id, const QString& title, double step) {
        auto made = examples::measure(id, title, Kind::Score, Unit::Score, lower, 0, 8, step);
        made.section = book.sections.front().id;
        return made;
    };
    auto total = score(u"whole"_s, u"Whole"_s, 0.5);
    total.computed = {catalogue::Computing::SumOfItems, {u"one"_s, u"both"_s}};
    auto one = score(u"one"_s, u"One"_s, 1);
    one.partOf = u"whole"_s;
    auto both = score(u"both"_s, u"Both"_s, 1);
    both.partOf = u"whole"_s;
    both.hasSides = true;
    auto taps = examples::measure(u"taps"_s, u"Taps in 10 s"_s, Kind::Count, Unit::Count,
                                  catalogue::Direction::HigherIsBetter, 0, 120, 1);
    taps.section = book.sections.front().id;
    taps.hasSides = true;
    taps.isTapped = true;
    for (const catalogue::Measure& measure : {total, one, both, taps})
        book.measures.push_back(measure);
    book.forms.insert(book.forms.begin(),
                      {u"parts"_s, u"Parts"_s, {{u"Parts"_s, {u"whole"_s, u"taps"_s}}}, {}, false});
    return book;
}

struct Open : desk::Desk {
    std::unique_ptr<visits::ExaminationPage> page;

    Open()
    {
        const auto patient = session->patientInFocus().id;
        session.reset();
        const auto clock = [] { return QDateTime(today, QTime(9, 30), Qt::UTC); };
        session = std::move(*session::Session::open(path(), bookWithParts(), {u"tester"_s, clock},
                                                    records::Opening::MustExist));
        session->choosePatient(patient);
        startVisit(today);
        page = std::make_unique<visits::ExaminationPage>(*session, answers);
        page->resize(1280, 860);
        page->show();
    }
    template <class Widget = QWidget>
    Widget* at(const char* name) const
    {
        auto* found = page->findChild<Widget*>(QString::fromLatin1(name));
        if (found == nullptr)
            qFatal("no widget is named %s", name);
        return found;
    }
    void type(const char* name, const QString& keys) const
    {
        at(name)->setFocus();
        QTest::keyClicks(at(name), keys);
        page->flush();
    }
    QString words(const char* name) const { return at<QLabel>(name)->text(); }
};

class TestComputedFields : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itemsStandFoldedUnderTheirTotal();
    void theTotalFollowsTheItemsAndNamesWhatIsMissing();
    void aTotalThatContradictsItsItemsIsNotSaved();
    void recordedItemsStandUnderTheirTotalOnly();
    void aTestThatIsAskedForIsUnfolded();
    void tapsAreStoredWithTheirCountAndUndone();
    void aTypedCountHasNoTaps();
    void rightAndLeftAreComparedWhereBothAreThere();
};

void TestComputedFields::itemsStandFoldedUnderTheirTotal()
{
    const Open open;
    QVERIFY(!open.at("one.field")->isVisibleTo(open.page.get()));
    QVERIFY(!open.at("both.left.field")->isVisibleTo(open.page.get()));
    open.at<QToolButton>("whole.items")->click();
    QVERIFY(open.at("one.field")->isVisibleTo(open.page.get()));
    QVERIFY(open.at("both.left.field")->isVisibleTo(open.page.get()));
    QCOMPARE(open.page->expected(), 2); // the total and the taps; items are a way to the total
}

void TestComputedFields::theTotalFollowsTheItemsAndNamesWhatIsMissing()
{
    const Open open;
    open.at<QToolButton>("whole.items")->click();
    open.type("one", u"3"_s);
    open.type("both.right", u"2"_s);
    QTRY_COMPARE(open.words("whole.message"), u"No value yet: Both, left, is missing"_s);
    QCOMPARE(open.page->done(), 0);
    open.type("both.left", u"1"_s);
    QTRY_COMPARE(open.words("whole.message"), u"4.5 points, computed: One 3 + Both (2 + 1)/2"_s);
    QCOMPARE(open.page->done(), 1);
    QVERIFY(open.found(u"whole"_s) == nullptr);
    QVERIFY(open.found(u"both"_s, Side::Left) != nullptr);
}

void TestComputedFields::aTotalThatContradictsItsItemsIsNotSaved()
{
    const Open open;
    open.at<QToolButton>("whole.items")->click();
    open.type("one", u"3"_s);
    open.type("both.right", u"2"_s);
    open.type("both.left", u"1"_s);
    open.type("whole", u"5"_s);
    QVERIFY2(open.words("whole.message").contains(u"the parts recorded make 4.5, not 5.0"_s),
             qPrintable(open.words("whole.message")));
    QVERIFY(open.found(u"whole"_s) == nullptr);
}

void TestComputedFields::recordedItemsStandUnderTheirTotalOnly()
{
    Open open;
    open.at<QToolButton>("whole.items")->click();
    open.type("one", u"3"_s);
    open.page = std::make_unique<visits::ExaminationPage>(*open.session, open.answers);
    QCOMPARE(open.page->findChildren<QWidget*>(u"one.field"_s).size(), 1);
    QVERIFY(open.page->findChild<QWidget*>(u"section.other-findings"_s) == nullptr);
}

void TestComputedFields::aTestThatIsAskedForIsUnfolded()
{
    const Open open;
    open.page->showMeasure(u"both"_s);
    QVERIFY(open.at("both.right.field")->isVisibleTo(open.page.get()));
    QVERIFY(open.at<QToolButton>("whole.items")->isChecked());
}

void TestComputedFields::tapsAreStoredWithTheirCountAndUndone()
{
    const Open open;
    open.type("taps.right", u" "_s);
    auto* counter = open.at<widgets::TapCounter>("strip.taps");
    QVERIFY(counter->isVisibleTo(open.page.get()));
    QVERIFY(!counter->isRunning()); // the first tap starts it
    Q_EMIT counter->started();
    Q_EMIT counter->counted({0, 0.25, 0.5, 0.75});
    const records::Finding* stored = open.found(u"taps"_s, Side::Right);
    QVERIFY(stored != nullptr);
    QCOMPARE(values::number(stored->value), 4.0);
    QCOMPARE(stored->taps, (std::vector<double>{0, 0.25, 0.5, 0.75}));
    QCOMPARE(open.words("strip.derived"),
             u"4.0 taps/s · mean interval 0.250 s · longest 0.25 s · variation 0 %"_s);
    QVERIFY(bool(open.session->undo()));
    QVERIFY(open.found(u"taps"_s, Side::Right) == nullptr);
}

void TestComputedFields::aTypedCountHasNoTaps()
{
    const Open open;
    open.type("taps.right", u" "_s);
    auto* counter = open.at<widgets::TapCounter>("strip.taps");
    Q_EMIT counter->started();
    Q_EMIT counter->counted({0, 0.25, 0.5});
    open.at("taps.right")->setFocus();
    open.at<QLineEdit>("taps.right")->selectAll();
    open.type("taps.right", u"41"_s);
    QCOMPARE(values::number(open.found(u"taps"_s, Side::Right)->value), 41.0);
    QVERIFY(open.found(u"taps"_s, Side::Right)->taps.empty());
}

void TestComputedFields::rightAndLeftAreComparedWhereBothAreThere()
{
    const Open open;
    open.type("taps.right", u"50"_s);
    QVERIFY(open.words("strip.derived").isEmpty());
    open.type("taps.left", u"40"_s);
    QCOMPARE(open.words("strip.derived"), u"right above left by 22 % of their mean"_s); // 10 of 45
}

HOUSE_TEST(TestComputedFields)

} // namespace test_computed_fields

#include "test_computed_fields.moc"
