#include "app/trends/chart_page.h"

#include "app/trends/chart_view.h"
#include "app/trends/measure_list.h"
#include "app/trends/trend_table.h"
#include "core/records/visit.h"
#include "tests/support/story.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QLineSeries>
#include <QListView>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QTableView>

using namespace Qt::StringLiterals;

namespace test_chart_page
{

using records::Side;
using trends::ChartView;

class Answers : public session::Prompts
{
public:
    std::optional<QString> file;
    QString suggested;
    std::vector<base::Error> told;

    bool confirmed(const QString&, const QString&, const QString&) override { return false; }
    bool mayLose(const QString&, const QString&, const QString&) override { return false; }
    std::optional<qsizetype> chosen(const QString&, const QString&, const QStringList&) override
    {
        return {};
    }
    std::optional<QString> line(const QString&, const QString&, const QString&) override { return {}; }
    std::optional<records::Author> author(const QString&, const records::Author&) override { return {}; }
    std::optional<records::Author> person(const records::Author&) override { return {}; }
    std::optional<QString> fileToWrite(const QString&, const QString& name, const QString&) override
    {
        suggested = name;
        return file;
    }
    std::optional<QString> fileToRead(const QString&, const QString&) override { return {}; }
    void say(const QString&, const QString&) override {}
    void tell(const base::Error& error) override { told.push_back(error); }
};

struct Shown {
    Story story;
    Answers answers;
    trends::ChartPage page{story.session(), answers};
    QTemporaryDir folder;

    Shown()
    {
        page.resize(1280, 760);
        page.show();
    }

    template <class Widget>
    Widget& find(const QString& name)
    {
        return *page.findChild<Widget*>(name);
    }
    ChartView* chart(const QString& measure) { return page.findChild<ChartView*>(u"chart:"_s + measure); }
    QAbstractItemModel& list() { return *find<QListView>(u"measureList"_s).model(); }
    QStringList listed()
    {
        QStringList titles;
        for (int row = 0; row < list().rowCount(); ++row)
            titles << list().index(row, 0).data().toString();
        return titles;
    }
    QAbstractItemModel& figures() { return *find<QTableView>(u"trendTable"_s).model(); }

    /// Where a day stands in a chart, in the viewport.
    QPoint placeOf(ChartView& view, QDate day)
    {
        const auto& trend = *static_cast<charts::TrendChart*>(view.chart());
        const QRectF plot = trend.frame().plot;
        return {int(plot.left() + trend.time().share(double(day.toJulianDay())) * plot.width()),
                int(plot.center().y())};
    }
};

/// A trend is dashed in a pattern of its own.
bool isJoin(const QLineSeries* line)
{
    return line != nullptr && line->pen().style() != Qt::CustomDashLine;
}

class TestChartPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theModelsKeepTheirWord();
    void whatMovedMostIsDrawnFirst();
    void aTestIsFoundAsItIsTyped();
    void returnInTheSearchDrawsTheTestFound();
    void aTickAddsAChartAndTakesItAway();
    void aClickMovesThisVisitAndWithShiftTheReference();
    void arrowKeysStepBothLines();
    void aChartSaysItsLatestValues();
    void theTableHoldsWhatTheChartShows();
    void rowsAreCopiedWithTabs();
    void joinsAreSwitchedOff();
    void aChartIsSavedAsPngAndSvg();
    void aFileThatCannotBeWrittenIsTold();
    void nothingIsWrittenWhenThePersonTurnsBack();
    void anotherValueIsDrawnAtOnce();
    void withoutFindingsThePageSaysWhatWillBeHere();
};

void TestChartPage::theModelsKeepTheirWord()
{
    Shown shown;
    const QAbstractItemModelTester list(&shown.list(),
                                        QAbstractItemModelTester::FailureReportingMode::QtTest);
    const QAbstractItemModelTester table(&shown.figures(),
                                         QAbstractItemModelTester::FailureReportingMode::QtTest);
    shown.story.session().moveVisit(-1);
    QTest::keyClicks(&shown.find<QLineEdit>(u"measureSearch"_s), u"walk"_s);
    QCOMPARE(shown.list().rowCount(), 1);
}

void TestChartPage::whatMovedMostIsDrawnFirst()
{
    Shown shown;
    QVERIFY(shown.chart(u"timed-up-and-go"_s) != nullptr); // became unable
    QVERIFY(shown.chart(u"berg-balance"_s) != nullptr);
    QVERIFY(shown.chart(u"pronator-drift"_s) == nullptr);
}

void TestChartPage::aTestIsFoundAsItIsTyped()
{
    Shown shown;
    auto& search = shown.find<QLineEdit>(u"measureSearch"_s);
    QTest::keyClicks(&search, u"TUG"_s); // its abbreviation
    QCOMPARE(shown.listed(), QStringList{u"Timed up and go"_s});
    search.clear();
    QVERIFY(shown.listed().size() > 5);
}

void TestChartPage::returnInTheSearchDrawsTheTestFound()
{
    Shown shown;
    auto& search = shown.find<QLineEdit>(u"measureSearch"_s);
    QTest::keyClicks(&search, u"finger to nose"_s);
    QTest::keyClick(&search, Qt::Key_Return);
    QVERIFY(shown.chart(u"finger-nose"_s) != nullptr);
    QCOMPARE(shown.find<QLabel>(u"tableTitle"_s).text(), u"Finger to nose"_s);
    QTest::keyClick(&search, Qt::Key_Return);
    QVERIFY(shown.chart(u"finger-nose"_s) == nullptr);
}

void TestChartPage::aTickAddsAChartAndTakesItAway()
{
    Shown shown;
    auto& list = shown.find<QListView>(u"measureList"_s);
    list.setCurrentIndex(shown.list().index(int(shown.listed().indexOf(u"Pronator drift"_s)), 0));
    QTest::keyClick(&list, Qt::Key_Space);
    QVERIFY(shown.chart(u"pronator-drift"_s) != nullptr);
    QTest::keyClick(&list, Qt::Key_Space);
    QVERIFY(shown.chart(u"pronator-drift"_s) == nullptr);
}

void TestChartPage::aClickMovesThisVisitAndWithShiftTheReference()
{
    Shown shown;
    const auto click = [&](QDate day, Qt::KeyboardModifiers keys) {
        ChartView& view = *shown.chart(u"berg-balance"_s);
        QTest::mouseClick(view.viewport(), Qt::LeftButton, keys, shown.placeOf(view, day));
    };
    click({2025, 9, 15}, {});
    QCOMPARE(shown.story.session().focus().visit, shown.story.visit(4));
    click({2024, 9, 2}, Qt::ShiftModifier);
    QCOMPARE(shown.story.session().focus().reference, shown.story.visit(2));
    QCOMPARE(shown.chart(u"berg-balance"_s)->points().referenceDay, QDate(2024, 9, 2));
}

void TestChartPage::arrowKeysStepBothLines()
{
    Shown shown;
    QTest::keyClick(shown.chart(u"berg-balance"_s), Qt::Key_Left);
    QCOMPARE(shown.story.session().focus().visit, shown.story.visit(4));
    QTest::keyClick(shown.chart(u"berg-balance"_s), Qt::Key_Left, Qt::ShiftModifier);
    QCOMPARE(shown.story.session().focus().reference, shown.story.visit(3));
    QTest::keyClick(shown.chart(u"berg-balance"_s), Qt::Key_Right);
    QCOMPARE(shown.story.session().focus().visit, shown.story.visit(5));
}

void TestChartPage::aChartSaysItsLatestValues()
{
    Shown shown;
    const ChartView& view = *shown.chart(u"berg-balance"_s);
    QCOMPARE(view.accessibleName(), u"Trend of Berg balance scale: total"_s);
    QVERIFY2(view.accessibleDescription().startsWith(
                 u"50 points on 07-Sep-2026; previous 51 points on 15-Sep-2025"_s),
             qPrintable(view.accessibleDescription()));
}

void TestChartPage::theTableHoldsWhatTheChartShows()
{
    Shown shown;
    auto& list = shown.find<QListView>(u"measureList"_s);
    list.setCurrentIndex(shown.list().index(int(shown.listed().indexOf(u"Nine-hole peg test"_s)), 0));
    QCOMPARE(shown.figures().rowCount(), 6);
    QStringList titles;
    for (int column = 0; column < shown.figures().columnCount(); ++column)
        titles << shown.figures().headerData(column, Qt::Horizontal).toString();
    QCOMPARE(titles,
             QStringList({u"Date"_s, u"Right"_s, u"Left"_s, u"Right against the baseline"_s,
                          u"Left against the baseline"_s, u"Events"_s, u"Conditions changed"_s, u"State"_s}));
    QCOMPARE(shown.figures().index(0, 2).data().toString(), u"unable: no grip"_s);
    QCOMPARE(shown.figures().index(5, 1).data().toString(), u"22.6 s"_s);
    QCOMPARE(shown.figures().index(1, 5).data().toString(), u"left became able"_s);
    QCOMPARE(shown.figures().index(5, 7).data().toString(), u"draft"_s);

    list.setCurrentIndex(
        shown.list().index(int(shown.listed().indexOf(u"10-metre walk time: comfortable pace"_s)), 0));
    QCOMPARE(shown.figures().index(3, 3).data().toString(), u"Walking aid: Stick → None"_s);
    QCOMPARE(shown.figures().index(3, 2).data().toString(), u"baseline"_s);
    shown.story.session().chooseReference(shown.story.visit(3));
    QCOMPARE(shown.figures().index(3, 2).data().toString(), u"reference visit"_s);
}

void TestChartPage::rowsAreCopiedWithTabs()
{
    Shown shown;
    auto& list = shown.find<QListView>(u"measureList"_s);
    list.setCurrentIndex(shown.list().index(int(shown.listed().indexOf(u"Timed up and go"_s)), 0));
    auto& table = shown.find<QTableView>(u"trendTable"_s);
    table.selectAll();
    QTest::keyClick(&table, Qt::Key_C, Qt::ControlModifier);
    const QStringList lines = QApplication::clipboard()->text().split(u'\n', Qt::SkipEmptyParts);
    QCOMPARE(lines.size(), 7);
    QVERIFY2(lines[6].startsWith(u"07-Sep-2026\tunable: needed help to rise\t"_s), qPrintable(lines[6]));
}

void TestChartPage::joinsAreSwitchedOff()
{
    Shown shown;
    const auto joins = [&] {
        int count = 0;
        for (const QAbstractSeries* series : shown.chart(u"nine-hole-peg"_s)->chart()->series())
            count += isJoin(qobject_cast<const QLineSeries*>(series)) ? 1 : 0;
        return count;
    };
    QCOMPARE(joins(), 2);
    QTest::keyClick(&shown.find<QCheckBox>(u"joinPoints"_s), Qt::Key_Space);
    QCOMPARE(joins(), 0);
}

void TestChartPage::aChartIsSavedAsPngAndSvg()
{
    Shown shown;
    auto& list = shown.find<QListView>(u"measureList"_s);
    list.setCurrentIndex(shown.list().index(int(shown.listed().indexOf(u"Timed up and go"_s)), 0));
    shown.answers.file = shown.folder.filePath(u"chart"_s);
    QTest::keyClick(&shown.find<QPushButton>(u"savePng"_s), Qt::Key_Space);
    QCOMPARE(shown.answers.suggested, u"timed-up-and-go.png"_s); // nothing of the person
    QCOMPARE(QImage(shown.folder.filePath(u"chart.png"_s)).width(), 2000);
    QTest::keyClick(&shown.find<QPushButton>(u"saveSvg"_s), Qt::Key_Space);
    QFile svg(shown.folder.filePath(u"chart.svg"_s));
    QVERIFY(svg.open(QIODevice::ReadOnly));
    const QByteArray drawing = svg.readAll();
    QVERIFY(drawing.contains("Record No. T-0101"));
    QVERIFY(!drawing.contains("Fennimore"));
    QVERIFY(shown.answers.told.empty());
}

void TestChartPage::aFileThatCannotBeWrittenIsTold()
{
    Shown shown;
    shown.answers.file = shown.folder.filePath(u"not here/chart.png"_s);
    QTest::keyClick(&shown.find<QPushButton>(u"savePng"_s), Qt::Key_Space);
    QCOMPARE(shown.answers.told.size(), 1U);
    QCOMPARE(shown.answers.told[0].kind, base::ErrorKind::Unwritable);
}

void TestChartPage::nothingIsWrittenWhenThePersonTurnsBack()
{
    Shown shown;
    QTest::keyClick(&shown.find<QPushButton>(u"savePng"_s), Qt::Key_Space);
    QVERIFY(QDir(shown.folder.path()).isEmpty());
    QVERIFY(shown.answers.told.empty());
}

void TestChartPage::anotherValueIsDrawnAtOnce()
{
    Shown shown;
    session::Session& session = shown.story.session();
    records::Finding berg = *session.visitInFocus()->finding(u"berg-balance"_s, Side::None);
    berg.value = values::Quantity{33, values::Unit::Score};
    QVERIFY(session.saveFinding(shown.story.visit(5), berg));
    QVERIFY(shown.chart(u"berg-balance"_s)->accessibleDescription().startsWith(u"33 points"_s));
}

void TestChartPage::withoutFindingsThePageSaysWhatWillBeHere()
{
    Shown shown;
    shown.story.session().leavePatient();
    QVERIFY(!shown.find<QListView>(u"measureList"_s).isVisible());
}

HOUSE_TEST(TestChartPage)

} // namespace test_chart_page

#include "test_chart_page.moc"
