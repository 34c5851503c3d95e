#include "app/trends/chart_page.h"

#include "app/trends/chart_view.h"
#include "app/trends/measure_list.h"
#include "app/trends/trend_table.h"
#include "app/widgets/theme.h"
#include "core/records/visit.h"
#include "tests/support/paces.h"
#include "tests/support/story.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QLineSeries>
#include <QListView>
#include <QMimeData>
#include <QPointingDevice>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QSvgRenderer>
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
    std::optional<QString> folderToWrite(const QString&, const QString&) override { return {}; }
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
        page.resize(1280, 2000); // every chart is seen
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

    /// Chooses from the menu of the chart.
    void choose(const QString& way) { page.findChild<QAction*>(way)->trigger(); }
    QByteArray written(const QString& name)
    {
        QFile file(folder.filePath(name));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
    const charts::TrendChart& trend(const QString& measure)
    {
        return *static_cast<charts::TrendChart*>(chart(measure)->chart());
    }
    double spanOf(const QString& measure) { return trend(measure).time().to - trend(measure).time().from; }
    /// The chart at the top, on the screen as fingers need it.
    ChartView& withinReach()
    {
        page.resize(780, 780);
        QApplication::processEvents();
        const auto views = page.findChildren<ChartView*>();
        return **std::ranges::min_element(views, {}, [](const ChartView* view) { return view->y(); });
    }
    void hover(ChartView& view, QDate day)
    {
        QTest::mouseMove(view.viewport(), placeOf(view, day) + QPoint(1, 1));
        QTest::mouseMove(view.viewport(), placeOf(view, day));
    }

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
    void aChartIsSavedInEachForm();
    void aChartIsCopied();
    void theChartInFocusIsCopied();
    void theTableIsCopiedForReckoning();
    void aFileThatCannotBeWrittenIsTold();
    void nothingIsWrittenWhenThePersonTurnsBack();
    void theMouseReadsAVisit();
    void theKeyboardReadsFromVisitToVisit();
    void theCursorIsDrawnInEveryChart();
    void keysZoomAllChartsTogether();
    void theButtonShowsAllAndLeavesTheKeyboardInTheChart();
    void theWheelZoomsWithCtrlAndScrollsWithout();
    void draggingMovesTheTimeAndPicksNothing();
    void twoFingersZoom();
    void twoFingersMoveTheTime();
    void whatIsNotShownIsNotDrawn();
    void anotherVisitInFocusKeepsTheTimeShown();
    void noTwoUnitsShareAnAxis();
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
    QVERIFY2(lines[6].startsWith(u"2026-09-07\tunable: needed help to rise\t"_s), qPrintable(lines[6]));
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

void TestChartPage::aChartIsSavedInEachForm()
{
    Shown shown;
    auto& list = shown.find<QListView>(u"measureList"_s);
    list.setCurrentIndex(shown.list().index(int(shown.listed().indexOf(u"Timed up and go"_s)), 0));
    shown.answers.file = shown.folder.filePath(u"chart"_s);
    for (const QString& form : {u"png"_s, u"svg"_s, u"pdf"_s, u"csv"_s}) {
        shown.choose(form);
        QCOMPARE(shown.answers.suggested, u"timed-up-and-go."_s + form); // nothing of the person
    }
    QCOMPARE(QImage(shown.folder.filePath(u"chart.png"_s)).width(), 2000);
    const QByteArray drawing = shown.written(u"chart.svg"_s);
    QVERIFY(drawing.contains("Record No. T-0101"));
    QVERIFY(!drawing.contains("Fennimore"));
    QVERIFY(shown.written(u"chart.pdf"_s).startsWith("%PDF-"));
    QVERIFY(shown.written(u"chart.csv"_s).contains("\ntimed-up-and-go,2024-03-04,none,31.2,s,done,"));
    QVERIFY(shown.answers.told.empty());
}

void TestChartPage::aChartIsCopied()
{
    Shown shown;
    shown.choose(u"copyPicture"_s);
    QCOMPARE(QApplication::clipboard()->image().width(), 2000);
    const QByteArray vectors = QApplication::clipboard()->mimeData()->data(u"image/svg+xml"_s);
    QVERIFY(QSvgRenderer(vectors).isValid());
    shown.choose(u"copyTable"_s);
    QVERIFY2(QApplication::clipboard()->text().startsWith(u"measure\tday\tside\tvalue\tunit\t"_s),
             qPrintable(QApplication::clipboard()->text()));
}

/// In the chart itself, by key and on its menu.
void TestChartPage::theChartInFocusIsCopied()
{
    Shown shown;
    ChartView& view = shown.withinReach();
    QCOMPARE(view.contextMenuPolicy(), Qt::ActionsContextMenu);
    view.setFocus();
    QApplication::clipboard()->clear();
    QTest::keyClick(&view, Qt::Key_C, Qt::ControlModifier);
    const QMimeData& taken = *QApplication::clipboard()->mimeData();
    QVERIFY(taken.hasImage());
    const QByteArray vectors = taken.data(u"image/svg+xml"_s);
    QVERIFY2(vectors.contains(view.points().title.toHtmlEscaped().toUtf8()), vectors.left(600).constData());
}

/// Numbers of one unit stand bare under a title that names it, on days that every spreadsheet knows.
void TestChartPage::theTableIsCopiedForReckoning()
{
    Shown shown;
    auto& table = shown.find<QTableView>(u"trendTable"_s);
    table.selectAll();
    QTest::keyClick(&table, Qt::Key_C, Qt::ControlModifier);
    const QStringList lines = QApplication::clipboard()->text().split(u'\n', Qt::SkipEmptyParts);
    QVERIFY2(lines[0].startsWith(u"Date\t"_s) && lines[0].contains(u" (s)\t"_s), qPrintable(lines[0]));
    for (const QString& line : lines.mid(1)) {
        const QStringList cells = line.split(u'\t');
        QVERIFY2(QDate::fromString(cells[0], Qt::ISODate).isValid(), qPrintable(line));
        bool isNumber = false;
        cells[1].toDouble(&isNumber);
        QVERIFY2(isNumber || cells[1].isEmpty() || cells[1].startsWith(u"unable"_s), qPrintable(line));
    }
}

void TestChartPage::aFileThatCannotBeWrittenIsTold()
{
    Shown shown;
    shown.answers.file = shown.folder.filePath(u"not here/chart"_s);
    for (const QString& form : {u"png"_s, u"svg"_s, u"pdf"_s, u"csv"_s}) {
        shown.answers.told.clear();
        shown.choose(form);
        QCOMPARE(shown.answers.told.size(), 1U);
        QCOMPARE(shown.answers.told[0].kind, base::ErrorKind::Unwritable);
    }
    QVERIFY(QDir(shown.folder.path()).isEmpty());
}

void TestChartPage::nothingIsWrittenWhenThePersonTurnsBack()
{
    Shown shown;
    shown.choose(u"png"_s);
    QVERIFY(QDir(shown.folder.path()).isEmpty());
    QVERIFY(shown.answers.told.empty());
}

void TestChartPage::theMouseReadsAVisit()
{
    Shown shown;
    ChartView& view = *shown.chart(u"berg-balance"_s);
    shown.hover(view, {2025, 9, 15});
    const QString words = shown.find<QLabel>(u"reading"_s).text();
    QVERIFY2(words.startsWith(u"15-Sep-2025. 51 points; +10 points; "_s), qPrintable(words));
    QCOMPARE(view.accessibleDescription(), words);
    QVERIFY(view.accessibleDescription() != shown.chart(u"timed-up-and-go"_s)->accessibleDescription());
    QCOMPARE(shown.story.session().focus().visit, shown.story.visit(5)); // reading moves nothing
}

void TestChartPage::theKeyboardReadsFromVisitToVisit()
{
    paces::each([](Pace& pace) {
        Shown shown;
        shown.chart(u"berg-balance"_s)->setFocus();
        const auto& reading = shown.find<QLabel>(u"reading"_s);
        const auto press = [&](int key) { pace.keyAt(&shown.page, key, Qt::ControlModifier); };
        press(Qt::Key_Left);
        QVERIFY2(reading.text().startsWith(u"07-Sep-2026. 50 points"_s), qPrintable(reading.text()));
        press(Qt::Key_Left);
        QVERIFY(reading.text().startsWith(u"15-Sep-2025. 51 points"_s));
        for (int again = 0; again < 9; ++again)
            press(Qt::Key_Left);
        QVERIFY(reading.text().startsWith(u"04-Mar-2024. 41 points; baseline"_s));
        press(Qt::Key_Right);
        QVERIFY(reading.text().startsWith(u"20-May-2024. 44 points"_s));
        QCOMPARE(shown.chart(u"berg-balance"_s)->accessibleDescription(), reading.text());
        QCOMPARE(shown.story.session().focus().visit, shown.story.visit(5));
    });
}

void TestChartPage::theCursorIsDrawnInEveryChart()
{
    Shown shown;
    ChartView& view = *shown.chart(u"timed-up-and-go"_s);
    QApplication::processEvents(); // the layout settles
    const QImage before = view.grab().toImage();
    shown.hover(*shown.chart(u"berg-balance"_s), {2025, 3, 10});
    const QImage after = view.grab().toImage();
    const int at = shown.placeOf(view, {2025, 3, 10}).x();
    for (int x = 0; x < after.width(); ++x) {
        bool isSame = true;
        for (int y = 0; y < after.height(); ++y)
            isSame = isSame && before.pixel(x, y) == after.pixel(x, y);
        QVERIFY2(isSame || std::abs(x - at) <= 2, qPrintable(QString::number(x)));
        QVERIFY2(!isSame || std::abs(x - at) > 0, qPrintable(QString::number(x)));
    }
}

void TestChartPage::keysZoomAllChartsTogether()
{
    paces::each([](Pace& pace) {
        Shown shown;
        const double whole = shown.spanOf(u"berg-balance"_s);
        const auto values = shown.trend(u"berg-balance"_s).values();
        shown.chart(u"berg-balance"_s)->setFocus();
        QVERIFY(!shown.find<QLabel>(u"timeShown"_s).isVisible());
        pace.keyAt(&shown.page, Qt::Key_Plus);
        QCOMPARE(shown.spanOf(u"berg-balance"_s), whole / 1.5);
        QCOMPARE(shown.spanOf(u"timed-up-and-go"_s), whole / 1.5);
        QCOMPARE(shown.trend(u"berg-balance"_s).values().from, values.from);
        QCOMPARE(shown.trend(u"berg-balance"_s).values().to, values.to);
        QVERIFY(shown.find<QLabel>(u"timeShown"_s).isVisible());
        const double from = shown.trend(u"timed-up-and-go"_s).time().from;
        pace.keyAt(&shown.page, Qt::Key_Left, Qt::AltModifier);
        QVERIFY(shown.trend(u"timed-up-and-go"_s).time().from < from);
        pace.keyAt(&shown.page, Qt::Key_Plus);
        pace.keyAt(&shown.page, Qt::Key_Minus);
        QCOMPARE(shown.spanOf(u"berg-balance"_s), whole / 1.5);
        pace.keyAt(&shown.page, Qt::Key_0);
        QCOMPARE(shown.spanOf(u"berg-balance"_s), whole);
        QVERIFY(!shown.find<QLabel>(u"timeShown"_s).isVisible());
        QCOMPARE(shown.story.session().focus().visit, shown.story.visit(5));
    });
}

void TestChartPage::theButtonShowsAllAndLeavesTheKeyboardInTheChart()
{
    Shown shown;
    QVERIFY(QTest::qWaitForWindowActive(&shown.page));
    auto& view = *shown.chart(u"berg-balance"_s);
    view.setFocus();
    QTest::keyClick(&view, Qt::Key_Plus);
    auto& whole = shown.find<QPushButton>(u"wholeTime"_s);
    whole.setFocus();
    QTest::keyClick(&whole, Qt::Key_Space);
    QVERIFY(!whole.isVisible());
    QCOMPARE(shown.page.focusWidget(), &view);
}

void TestChartPage::theWheelZoomsWithCtrlAndScrollsWithout()
{
    Shown shown;
    ChartView& view = *shown.chart(u"berg-balance"_s);
    const double whole = shown.spanOf(u"berg-balance"_s);
    const QPoint at = shown.placeOf(view, {2025, 3, 10});
    const auto turn = [&](Qt::KeyboardModifiers keys) {
        QWheelEvent event(at, view.viewport()->mapToGlobal(at), {}, {0, 120}, {}, keys, Qt::NoScrollPhase,
                          false);
        event.setAccepted(true);
        QApplication::sendEvent(view.viewport(), &event);
        return event.isAccepted();
    };
    (void)turn({});
    QCOMPARE(shown.spanOf(u"berg-balance"_s), whole);
    QVERIFY(turn(Qt::ControlModifier));
    QCOMPARE(shown.spanOf(u"berg-balance"_s), whole / 1.2);
    QVERIFY(std::abs(shown.placeOf(view, {2025, 3, 10}).x() - at.x()) <= 1); // what is under the mouse stays
}

void TestChartPage::draggingMovesTheTimeAndPicksNothing()
{
    Shown shown;
    ChartView& view = *shown.chart(u"berg-balance"_s);
    view.setFocus();
    QTest::keyClick(&view, Qt::Key_Plus);
    const QPoint at = shown.placeOf(view, {2025, 3, 10});
    QTest::mousePress(view.viewport(), Qt::LeftButton, {}, at);
    QTest::mouseMove(view.viewport(), at + QPoint(20, 0));
    QTest::mouseMove(view.viewport(), at + QPoint(40, 0));
    QTest::mouseRelease(view.viewport(), Qt::LeftButton, {}, at + QPoint(40, 0));
    QVERIFY(std::abs(shown.placeOf(view, {2025, 3, 10}).x() - at.x() - 40) <= 1);
    QCOMPARE(shown.story.session().focus().visit, shown.story.visit(5));
}

/// Two fingers on the glass, at first and then at each of these places.
void touch(ChartView& view, const std::vector<std::pair<QPoint, QPoint>>& places)
{
    const std::unique_ptr<QPointingDevice> glass(QTest::createTouchDevice());
    QWidget* on = view.viewport();
    QTest::touchEvent(on, glass.get()).press(0, places.front().first, on).press(1, places.front().second, on);
    for (const auto& [one, other] : places)
        QTest::touchEvent(on, glass.get()).move(0, one, on).move(1, other, on);
    QTest::touchEvent(on, glass.get())
        .release(0, places.back().first, on)
        .release(1, places.back().second, on);
}

void TestChartPage::twoFingersZoom()
{
    Shown shown;
    ChartView& view = shown.withinReach();
    const QString measure = view.points().measure;
    const double whole = shown.spanOf(measure);
    const QPoint middle = view.viewport()->rect().center();
    std::vector<std::pair<QPoint, QPoint>> apart;
    for (int pixels = 40; pixels <= 160; pixels += 10)
        apart.emplace_back(middle - QPoint(pixels, 0), middle + QPoint(pixels, 0));
    touch(view, apart);
    QVERIFY2(shown.spanOf(measure) < whole / 2, qPrintable(QString::number(shown.spanOf(measure))));
    for (const ChartView* each : shown.page.findChildren<ChartView*>())
        QCOMPARE(shown.spanOf(each->points().measure), shown.spanOf(measure));
    QCOMPARE(shown.story.session().focus().visit, shown.story.visit(5));
}

void TestChartPage::twoFingersMoveTheTime()
{
    Shown shown;
    ChartView& view = shown.withinReach();
    const QString measure = view.points().measure;
    view.setFocus();
    QTest::keyClick(&view, Qt::Key_Plus);
    QTest::keyClick(&view, Qt::Key_Right, Qt::AltModifier);
    const double from = shown.trend(measure).time().from;
    const double span = shown.spanOf(measure);
    const QPoint at = view.viewport()->rect().center();
    std::vector<std::pair<QPoint, QPoint>> along;
    for (int pixels = 0; pixels <= 100; pixels += 10)
        along.emplace_back(at + QPoint(pixels, 0), at + QPoint(pixels + 60, 0));
    touch(view, along);
    QVERIFY(shown.trend(measure).time().from < from);
    QVERIFY(std::abs(shown.spanOf(measure) - span) < span / 20);
}

/// What lies outside the time that is shown leaves no mark on the chart's margins.
void TestChartPage::whatIsNotShownIsNotDrawn()
{
    Shown shown;
    ChartView& view = *shown.chart(u"timed-up-and-go"_s); // unable at the last visit, in the lane
    view.setFocus();
    const auto margin = [&] {
        const QRectF plot = shown.trend(u"timed-up-and-go"_s).frame().plot;
        const QRectF lane = shown.trend(u"timed-up-and-go"_s).frame().lane;
        return view
            .grab(QRect(int(plot.left()), int(lane.top()) + 2, int(plot.width()), int(lane.height()) - 4))
            .toImage();
    };
    const QColor text = widgets::coloursFor(view.palette()).text;
    const auto inks = [&](const QImage& image) {
        int found = 0;
        for (int y = 0; y < image.height(); ++y) {
            for (int x = 0; x < image.width(); ++x)
                found += image.pixelColor(x, y) == text ? 1 : 0;
        }
        return found;
    };
    QVERIFY(inks(margin()) > 5);
    for (int again = 0; again < 3; ++again)
        QTest::keyClick(&view, Qt::Key_Plus);
    for (int again = 0; again < 9; ++again)
        QTest::keyClick(&view, Qt::Key_Left, Qt::AltModifier);
    QVERIFY(!shown.trend(u"timed-up-and-go"_s).isShown({2026, 9, 7}));
    QCOMPARE(inks(margin()), 0);
}

void TestChartPage::anotherVisitInFocusKeepsTheTimeShown()
{
    Shown shown;
    ChartView& view = *shown.chart(u"berg-balance"_s);
    view.setFocus();
    QTest::keyClick(&view, Qt::Key_Plus);
    const double span = shown.spanOf(u"berg-balance"_s);
    QTest::keyClick(&view, Qt::Key_Left);
    QCOMPARE(shown.story.session().focus().visit, shown.story.visit(4));
    QCOMPARE(shown.spanOf(u"berg-balance"_s), span);
    QVERIFY(shown.story.session().startVisit(QDate(2026, 9, 6)));
    QVERIFY(shown.find<QLabel>(u"timeShown"_s).isVisible());
}

/// One measure, one unit, one axis.
void TestChartPage::noTwoUnitsShareAnAxis()
{
    Shown shown;
    auto& measures = *shown.page.findChild<trends::MeasureList*>();
    measures.tick(measures.all());
    const auto views = shown.page.findChildren<ChartView*>();
    QCOMPARE(QStringList(measures.all()).size(), views.size());
    for (const ChartView* view : views) {
        const catalogue::Measure& measure =
            *shown.story.session().catalogue().measure(view->points().measure);
        QCOMPARE(view->objectName(), u"chart:"_s + measure.id);
        QCOMPARE(view->points().unit, measure.unit);
        QCOMPARE(view->chart()->axes(Qt::Vertical).size(), 1);
    }
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
