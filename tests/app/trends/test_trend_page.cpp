#include "app/trends/trend_page.h"

#include "app/charts/trend_chart.h"
#include "app/trends/chart_view.h"
#include "app/trends/overview_delegate.h"
#include "app/trends/overview_model.h"
#include "app/widgets/theme.h"
#include "core/records/visit.h"
#include "tests/support/answers.h"
#include "tests/support/paces.h"
#include "tests/support/story.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QAccessible>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>

using namespace Qt::StringLiterals;

namespace test_trend_page
{

using records::Side;
using trends::OverviewModel;

const QString peg = u"nine-hole-peg"_s;
const QString berg = u"berg-balance"_s;
const QString upAndGo = u"timed-up-and-go"_s;

struct Shown {
    Story story;
    Answers answers;
    trends::TrendPage page{story.session(), answers};

    Shown()
    {
        page.resize(1280, 760);
        page.show();
        page.setFocus();
    }

    template <class Widget>
    Widget& find(const QString& name)
    {
        return *page.findChild<Widget*>(name);
    }
    QTableView& table() { return find<QTableView>(u"overviewTable"_s); }
    OverviewModel& model() { return *qobject_cast<OverviewModel*>(table().model()); }
    trends::ChartView* chart(const QString& measure)
    {
        return page.findChild<trends::ChartView*>(u"chart:"_s + measure);
    }
    void stand(const QString& measure)
    {
        table().setCurrentIndex(model().index(model().placeOf(measure), 0));
    }
    QString standing() { return model().row(table().currentIndex().row()).measure; }
    QString spoken(const QString& measure)
    {
        return model().index(model().placeOf(measure), 0).data(Qt::AccessibleTextRole).toString();
    }
    int drawn() { return int(page.findChildren<trends::ChartView*>().size()); }
};

class TestTrendPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theModelKeepsItsWord();
    void itOpensWithTheOverview();
    void returnOpensTheChartAndEscapeComesBackToTheRow();
    void escapeComesBackFromWhereverTheKeyboardIs();
    void spaceTicksSeveralForOneStack();
    void theButtonsGoThereAndBack();
    void lettersFindATest();
    void groupsAndSectionAreReachedByKey();
    void anEmptySearchOffersNoChart();
    void theVisitInFocusIsTheLastThatCounts();
    void aRowIsSpokenWhole();
    void rowsAreCopiedWithTheirSides();
    void thePlumbLinesRunThroughTheCourses();
    void whatHappenedIsToldBelow();
    void anotherPatientBeginsWithTheOverview();
    void withoutTwoResultsItSaysWhatWillBeHere();
};

void TestTrendPage::theModelKeepsItsWord()
{
    Shown shown;
    const QAbstractItemModelTester tester(&shown.model(),
                                          QAbstractItemModelTester::FailureReportingMode::QtTest);
    shown.story.session().moveVisit(-1);
    QTest::keyClicks(&shown.table(), u"walk"_s);
    QTest::keyClick(&shown.table(), Qt::Key_Space);
}

void TestTrendPage::itOpensWithTheOverview()
{
    Shown shown;
    QVERIFY(shown.table().isVisible());
    QVERIFY(shown.model().rowCount() > 6);
    QCOMPARE(shown.page.focusWidget(), &shown.table());
    QCOMPARE(shown.table().currentIndex().row(), 0);
    for (int row = 0; row < shown.model().rowCount(); ++row)
        QVERIFY(shown.table().rowHeight(row) >= 48);
}

void TestTrendPage::returnOpensTheChartAndEscapeComesBackToTheRow()
{
    paces::each([](Pace& pace) {
        Shown shown;
        shown.stand(peg);
        pace.keyAt(&shown.page, Qt::Key_Return);
        QVERIFY(!shown.table().isVisible());
        QCOMPARE(shown.drawn(), 1);
        QVERIFY(shown.chart(peg) != nullptr);
        QCOMPARE(shown.page.focusWidget(), shown.chart(peg));
        pace.keyAt(&shown.page, Qt::Key_Escape);
        QVERIFY(shown.table().isVisible());
        QCOMPARE(shown.page.focusWidget(), &shown.table());
        QCOMPARE(shown.standing(), peg);
    });
}

void TestTrendPage::escapeComesBackFromWhereverTheKeyboardIs()
{
    Shown shown;
    for (const QString& place : {u"measureSearch"_s, u"measureList"_s, u"trendTable"_s, u"joinPoints"_s}) {
        QTest::keyClick(&shown.table(), Qt::Key_Return);
        auto& here = shown.find<QWidget>(place);
        here.setFocus();
        QTest::keyClick(&here, Qt::Key_Escape);
        QVERIFY2(shown.table().isVisible(), qPrintable(place));
    }
}

void TestTrendPage::spaceTicksSeveralForOneStack()
{
    paces::each([](Pace& pace) {
        Shown shown;
        auto& open = shown.find<QPushButton>(u"openCharts"_s);
        QCOMPARE(open.text(), u"S&how 1 chart"_s);
        for (const QString& measure : {peg, berg}) {
            shown.stand(measure);
            pace.keyAt(&shown.page, Qt::Key_Space);
        }
        QCOMPARE(open.text(), u"S&how 2 charts"_s);
        pace.keyAt(&shown.page, Qt::Key_Return);
        QCOMPARE(shown.drawn(), 2);
        QVERIFY(shown.chart(berg)->isVisible());
        pace.keyAt(&shown.page, Qt::Key_Escape);
        pace.keyAt(&shown.page, Qt::Key_Space); // no longer
        QCOMPARE(open.text(), u"S&how 1 chart"_s);
    });
}

void TestTrendPage::theButtonsGoThereAndBack()
{
    Shown shown;
    shown.stand(berg);
    QTest::mouseClick(&shown.find<QPushButton>(u"openCharts"_s), Qt::LeftButton);
    QVERIFY(shown.chart(berg)->isVisible());
    auto& back = shown.find<QPushButton>(u"overview"_s);
    QVERIFY(back.isVisible());
    QTest::keyClick(&back, Qt::Key_Space);
    QVERIFY(shown.table().isVisible());
    const QModelIndex second = shown.model().index(1, OverviewModel::Now);
    shown.table().scrollTo(second);
    const QPoint at = shown.table().visualRect(second).center();
    QTest::mouseClick(shown.table().viewport(), Qt::LeftButton, {}, at);
    QTest::mouseDClick(shown.table().viewport(), Qt::LeftButton, {}, at);
    QVERIFY(shown.chart(shown.model().row(1).measure) != nullptr);
    QVERIFY(!shown.table().isVisible());
}

void TestTrendPage::lettersFindATest()
{
    paces::each([](Pace& pace) {
        Shown shown;
        const int all = shown.model().rowCount();
        pace.keyAt(&shown.page, Qt::Key_N);
        pace.typeAt(&shown.page, u"ine peg"_s);
        QCOMPARE(shown.model().rowCount(), 1);
        QCOMPARE(shown.find<QPushButton>(u"overviewAll"_s).text(), u"&All 1"_s);
        pace.keyAt(&shown.page, Qt::Key_Down);
        QCOMPARE(shown.page.focusWidget(), &shown.table());
        QCOMPARE(shown.standing(), peg);
        shown.find<QLineEdit>(u"overviewFind"_s).setFocus();
        pace.keyAt(&shown.page, Qt::Key_Escape);
        QCOMPARE(shown.model().rowCount(), all);
        QCOMPARE(shown.standing(), peg);
    });
}

void TestTrendPage::groupsAndSectionAreReachedByKey()
{
    paces::each([](Pace& pace) {
        Shown shown;
        const auto count = [](const QPushButton& button) { return button.text().section(u' ', 1).toInt(); };
        for (const QString& name : {u"overviewChanged"_s, u"overviewConfirmed"_s}) {
            auto& button = shown.find<QPushButton>(name);
            button.setFocus();
            pace.keyAt(&shown.page, Qt::Key_Space);
            QVERIFY(button.isChecked());
            QCOMPARE(shown.model().rowCount(), count(button));
            QVERIFY(shown.model().rowCount() > 0);
        }
        auto& all = shown.find<QPushButton>(u"overviewAll"_s);
        all.setFocus();
        pace.keyAt(&shown.page, Qt::Key_Space);
        const int before = shown.model().rowCount();
        auto& section = shown.find<QComboBox>(u"overviewSection"_s);
        section.setFocus();
        pace.keyAt(&shown.page, Qt::Key_Down);
        QVERIFY(shown.model().rowCount() < before);
        QCOMPARE(shown.model().rowCount(), count(all));
        for (int row = 0; row < shown.model().rowCount(); ++row)
            QCOMPARE(shown.model().row(row).section, section.currentText());
    });
}

void TestTrendPage::anEmptySearchOffersNoChart()
{
    Shown shown;
    QTest::keyClicks(&shown.find<QLineEdit>(u"overviewFind"_s), u"xyz"_s);
    QCOMPARE(shown.model().rowCount(), 0);
    QVERIFY(!shown.find<QPushButton>(u"openCharts"_s).isEnabled());
    QTest::keyClick(&shown.table(), Qt::Key_Return);
    QVERIFY(shown.table().isVisible());
}

void TestTrendPage::theVisitInFocusIsTheLastThatCounts()
{
    Shown shown;
    shown.stand(berg);
    shown.story.session().chooseVisit(shown.story.visit(3));
    QCOMPARE(shown.standing(), berg);
    QCOMPARE(shown.model().index(shown.model().placeOf(berg), OverviewModel::Now).data().toString(),
             u"49 points"_s);
    QCOMPARE(shown.model().time().visitDay, QDate(2025, 3, 10));
    shown.story.session().chooseReference(shown.story.visit(1));
    QCOMPARE(shown.model().time().referenceDay, QDate(2024, 5, 20));
}

void TestTrendPage::aRowIsSpokenWhole()
{
    Shown shown;
    const QString spoken = shown.spoken(peg);
    QVERIFY2(spoken.startsWith(u"Nine-hole peg test. right first 24.1 s (04-Mar-2024), now 22.6 s, "_s),
             qPrintable(spoken));
    QVERIFY2(spoken.contains(u"; left first "_s), qPrintable(spoken));
    for (const trends::OverviewLine& line : shown.model().row(shown.model().placeOf(peg)).lines)
        QVERIFY(spoken.contains(line.meaning.words));
    const QAccessibleInterface* heard = QAccessible::queryAccessibleInterface(&shown.table());
    QCOMPARE(heard->text(QAccessible::Name), u"Overview of all tests with two results or more"_s);
}

void TestTrendPage::rowsAreCopiedWithTheirSides()
{
    Shown shown;
    shown.stand(peg);
    QTest::keyClick(&shown.table(), Qt::Key_C, Qt::ControlModifier);
    const QStringList lines = QApplication::clipboard()->text().split(u'\n', Qt::SkipEmptyParts);
    QCOMPARE(lines.size(), 2);
    QCOMPARE(lines[0], u"Test\tCourse\tFirst\tNow\tAgainst error"_s);
    QVERIFY2(lines[1].startsWith(u"Nine-hole peg test\tright 6 results; left 6 results\t"_s),
             qPrintable(lines[1]));
}

/// The colour of the line stands in every row at the day of the visit.
void TestTrendPage::thePlumbLinesRunThroughTheCourses()
{
    Shown shown;
    shown.story.session().chooseVisit(shown.story.visit(4));
    shown.story.session().chooseReference(shown.story.visit(2));
    const QImage picture = shown.table().viewport()->grab().toImage();
    const QColor accent = widgets::coloursFor(shown.page.palette()).accent;
    const auto isLine = [&](const QRect& row, QDate day) {
        const double at = charts::courseX(shown.model().time().axis, trends::courseArea(row), day);
        int found = 0;
        for (int y = row.top(); y <= row.bottom(); ++y) {
            for (int x = int(at) - 1; x <= int(at) + 1; ++x)
                found += picture.pixelColor(x, y) == accent ? 1 : 0;
        }
        return found;
    };
    for (int row = 0; row < 4; ++row) {
        const QRect box = shown.table().visualRect(shown.model().index(row, OverviewModel::Course));
        QVERIFY(isLine(box, {2025, 9, 15}) > box.height() / 2);
        QVERIFY(isLine(box, {2024, 9, 2}) > box.height() / 6);
        QVERIFY(isLine(box, {2026, 5, 1}) < box.height() / 6);
    }
}

void TestTrendPage::whatHappenedIsToldBelow()
{
    Shown shown;
    auto& told = shown.find<QLabel>(u"overviewHappenings"_s);
    QVERIFY(!told.isVisible());
    records::Happening fall;
    fall.kind = records::HappeningKind::Fall;
    fall.from = QDate(2025, 1, 8);
    fall.patient = *shown.story.session().focus().patient;
    QVERIFY(shown.story.session().saveHappening(fall));
    QVERIFY(told.isVisible());
    QCOMPARE(told.text(), u"Between visits: a: fall (08-Jan-2025)."_s);
}

void TestTrendPage::anotherPatientBeginsWithTheOverview()
{
    Shown shown;
    const auto patient = shown.story.session().focus().patient;
    shown.stand(peg);
    QTest::keyClick(&shown.table(), Qt::Key_Space);
    QTest::keyClick(&shown.table(), Qt::Key_Return);
    shown.story.session().leavePatient();
    shown.story.session().choosePatient(*patient);
    QVERIFY(shown.table().isVisible());
    QCOMPARE(shown.table().currentIndex().row(), 0);
    QVERIFY(shown.model().ticked().isEmpty());
}

void TestTrendPage::withoutTwoResultsItSaysWhatWillBeHere()
{
    Shown shown;
    shown.story.session().chooseVisit(shown.story.visit(0));
    QVERIFY(!shown.table().isVisible());
    const auto labels = shown.page.findChildren<QLabel*>();
    QVERIFY(std::ranges::any_of(labels, [](const QLabel* label) {
        return label->isVisible() && label->text() == u"No test has two results yet"_s;
    }));
    const auto buttons = shown.page.findChildren<QPushButton*>();
    const auto step = std::ranges::find_if(
        buttons, [](const QPushButton* button) { return button->text() == u"Show c&harts"_s; });
    QVERIFY(step != buttons.end() && (*step)->isVisible());
    (*step)->click();
    QVERIFY(shown.drawn() > 0); // what moved most
    shown.story.session().leavePatient();
    QVERIFY(!shown.table().isVisible());
}

HOUSE_TEST(TestTrendPage)

} // namespace test_trend_page

#include "test_trend_page.moc"
