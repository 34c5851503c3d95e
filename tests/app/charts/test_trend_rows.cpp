#include "app/charts/trend_rows.h"

#include "app/charts/trend_words.h"
#include "core/base/csv.h"
#include "core/records/visit.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_trend_rows
{

using examples::finding;
using examples::visit;
using records::Side;
using values::Quantity;

const QString peg = u"nine-hole-peg"_s;
const QString walk = u"ten-metre-walk-time-comfortable"_s;

charts::TrendPoints points(const QString& measure, const QString& aidThen = u"stick"_s)
{
    const auto at = [](const QString& id, QDate day, double seconds, const QString& aid) {
        return visit(id, day,
                     {finding(walk, Quantity{seconds, values::Unit::Second}),
                      finding(peg, Quantity{seconds, values::Unit::Second}, Side::Right),
                      finding(peg, examples::unable(u"tremor"_s), Side::Left),
                      finding(u"pronator-drift"_s, values::Choice{u"none"_s}, Side::Right),
                      finding(u"finger-nose"_s, values::Grade{2}, Side::Right)},
                     {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}});
    };
    const std::vector visits{at(u"a"_s, {2024, 3, 4}, 18.2, aidThen),
                             at(u"b"_s, {2025, 3, 3}, 13.0, u"none"_s),
                             at(u"c"_s, {2026, 3, 2}, 12.1, u"none"_s)};
    return charts::trendPoints({measure, {}, records::VisitId{u"c"_s}, {}}, visits,
                               examples::patient(u"stroke"_s), examples::catalogue(), {});
}

QString cell(const QList<QStringList>& rows, int row, const QString& column)
{
    return rows[row][rows[0].indexOf(column)];
}

class TestTrendRows : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aRowIsAVisitAndASide();
    void numbersStandWithoutTheirUnits();
    void whatIsNoNumberIsAKey();
    void theFileReadsBackWhole();
    void noTextBecomesAFormula();
    void theTableHasTheSameCells();
    void aVisitIsReadInOneLine();
};

void TestTrendRows::aRowIsAVisitAndASide()
{
    const auto rows = charts::trendRows(points(peg));
    QCOMPARE(rows.size(), 7);
    QCOMPARE(cell(rows, 1, u"day"_s), u"2024-03-04"_s);
    QCOMPARE(cell(rows, 1, u"side"_s), u"right"_s);
    QCOMPARE(cell(rows, 2, u"side"_s), u"left"_s);
    QCOMPARE(cell(rows, 2, u"state"_s), u"unable"_s);
    QCOMPARE(cell(rows, 2, u"value"_s), QString());
    QCOMPARE(cell(rows, 2, u"unit"_s), QString());
    for (const QStringList& row : rows)
        QCOMPARE(row.size(), rows[0].size());
}

void TestTrendRows::numbersStandWithoutTheirUnits()
{
    const auto rows = charts::trendRows(points(walk));
    QCOMPARE(cell(rows, 1, u"value"_s), u"18.20"_s);
    QCOMPARE(cell(rows, 1, u"unit"_s), u"s"_s);
    QCOMPARE(cell(rows, 1, u"comparable"_s), u"no"_s); // with a stick
    QCOMPARE(cell(rows, 1, u"conditions"_s), u"aid=stick; distance_m=10"_s);
    QCOMPARE(cell(rows, 1, u"difference"_s), QString());
    QCOMPARE(cell(rows, 2, u"comparable"_s), u"yes"_s);
    QCOMPARE(cell(rows, 3, u"difference"_s), u"-0.90"_s);
    QCOMPARE(cell(rows, 3, u"difference"_s).toDouble(), -0.9);
    QVERIFY(!cell(rows, 3, u"verdict"_s).isEmpty());
}

void TestTrendRows::whatIsNoNumberIsAKey()
{
    QCOMPARE(cell(charts::trendRows(points(u"pronator-drift"_s)), 1, u"value"_s), u"none"_s);
    const auto rows = charts::trendRows(points(u"finger-nose"_s));
    QCOMPARE(cell(rows, 1, u"value"_s), u"2"_s);
    QCOMPARE(cell(rows, 1, u"unit"_s), QString());
}

void TestTrendRows::theFileReadsBackWhole()
{
    const auto read = base::csvRows(charts::csvOf(points(peg)));
    QVERIFY(read);
    QList<QStringList> cells;
    for (const base::CsvRow& row : *read)
        cells << row.cells;
    QCOMPARE(cells, charts::trendRows(points(peg)));
}

void TestTrendRows::noTextBecomesAFormula()
{
    charts::TrendPoints made = points(walk);
    made.lines[0].entries[0].plain = u"=1+1"_s;
    made.lines[0].entries[1].plain = u"-3"_s;
    made.lines[0].entries[0].recorded = {{u"@aid"_s, u"stick"_s}};
    const auto rows = charts::trendRows(made);
    QCOMPARE(cell(rows, 1, u"value"_s), u"'=1+1"_s);
    QCOMPARE(cell(rows, 2, u"value"_s), u"-3"_s);
    QCOMPARE(cell(rows, 1, u"conditions"_s), u"'@aid=stick"_s);
}

void TestTrendRows::theTableHasTheSameCells()
{
    charts::TrendPoints made = points(walk, u"stick\tand\nframe"_s);
    const QStringList lines = charts::tabbed(made).split(u'\n', Qt::SkipEmptyParts);
    QCOMPARE(lines.size(), 4);
    for (const QString& line : lines)
        QCOMPARE(line.count(u'\t'), lines[0].count(u'\t'));
    QVERIFY(lines[1].contains(u"aid=stick and frame"_s));
}

void TestTrendRows::aVisitIsReadInOneLine()
{
    const charts::TrendPoints made = points(walk);
    QCOMPARE(charts::readingWords(made, records::VisitId{u"b"_s}, {}),
             u"03-Mar-2025. 13.00 s; baseline. Walking aid: none; Timed distance: 10 m."_s);
    const QString last = charts::readingWords(made, records::VisitId{u"c"_s}, {});
    QVERIFY2(last.startsWith(u"02-Mar-2026. 12.10 s; −0.90 s; "_s), qPrintable(last));
    QVERIFY(last.contains(made.lines[0].entries[2].verdictWords));
    const QString both = charts::readingWords(points(peg), records::VisitId{u"c"_s}, {});
    QVERIFY2(both.contains(u"right: 12.1 s; "_s), qPrintable(both));
    QVERIFY2(both.contains(u"left: unable: tremor"_s), qPrintable(both));
    QCOMPARE(charts::readingWords(made, records::VisitId{u"none"_s}, {}), QString());
}

HOUSE_TEST(TestTrendRows)

} // namespace test_trend_rows

#include "test_trend_rows.moc"
