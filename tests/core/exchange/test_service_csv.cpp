#include "core/exchange/service_csv.h"

#include "core/base/csv.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_service_csv
{

using judging::ServiceReport;
using judging::ServiceRow;

catalogue::Catalogue bookWith(const QString& title)
{
    catalogue::Catalogue book = examples::catalogue();
    auto reach = examples::measure(u"own-reach"_s, title, catalogue::Kind::Distance, values::Unit::Centimetre,
                                   catalogue::Direction::HigherIsBetter, 0, 100, 0.5);
    reach.isOwn = true;
    book.measures.push_back(reach);
    return book;
}

ServiceReport reportOf(const ServiceRow& row)
{
    return {{QDate(2026, 3, 1), QDate(2026, 5, 31)}, false, {}, {row}};
}

ServiceRow told()
{
    return {u"parkinson"_s,
            u"own-reach"_s,
            records::Side::None,
            40,
            statistics::Quartiles{20, 22.25, 25},
            statistics::Quartiles{21, 23, 26},
            38,
            6,
            {},
            5,
            {}};
}

/// The only row by the names of its columns.
QMap<QString, QString> rowOf(const ServiceReport& report, const catalogue::Catalogue& book)
{
    const auto rows = base::csvRows(exchange::serviceCsv(report, book, {}));
    QMap<QString, QString> cells;
    if (!rows || rows->size() != 2 || rows->back().cells.size() != exchange::serviceColumns().size())
        return cells;
    for (qsizetype place = 0; place < rows->front().cells.size(); ++place)
        cells[rows->front().cells.at(place)] = rows->back().cells.at(place);
    return cells;
}

class TestServiceCsv : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void numbersStandAloneBesideTheirUnit()
    {
        const auto cells = rowOf(reportOf(told()), bookWith(u"Reach"_s));
        const QMap<QString, QString> expected = {{u"from"_s, u"2026-03-01"_s},
                                                 {u"until"_s, u"2026-05-31"_s},
                                                 {u"population"_s, u"parkinson"_s},
                                                 {u"population_title"_s, u"Parkinson disease"_s},
                                                 {u"measure"_s, u"own-reach"_s},
                                                 {u"measure_title"_s, u"Reach (the clinic's own)"_s},
                                                 {u"side"_s, u"none"_s},
                                                 {u"unit"_s, u"cm"_s},
                                                 {u"patients"_s, u"40"_s},
                                                 {u"first_lower_quartile"_s, u"20.0"_s},
                                                 {u"first_median"_s, u"22.3"_s},
                                                 {u"first_upper_quartile"_s, u"25.0"_s},
                                                 {u"latest_lower_quartile"_s, u"21.0"_s},
                                                 {u"latest_median"_s, u"23.0"_s},
                                                 {u"latest_upper_quartile"_s, u"26.0"_s},
                                                 {u"judged"_s, u"38"_s},
                                                 {u"better"_s, u"6"_s},
                                                 {u"better_percent"_s, u"15.8"_s},
                                                 {u"worse"_s, {}},
                                                 {u"worse_percent"_s, {}},
                                                 {u"expected_false"_s, u"1.90"_s},
                                                 {u"became_unable"_s, u"5"_s},
                                                 {u"became_able"_s, {}},
                                                 {u"due"_s, {}},
                                                 {u"fewer_than_5"_s, u"worse became_able"_s}};
        QCOMPARE(cells, expected);
    }

    void whoIsDueStandsInARowWithoutAMeasure()
    {
        ServiceReport report = reportOf(told());
        report.rows.clear();
        report.counts = judging::ServiceCounts();
        QVERIFY(rowOf(report, bookWith({})).isEmpty()); // nobody, or a few
        report.counts->withInterval = 40;
        report.counts->due = 12;
        auto cells = rowOf(report, bookWith({}));
        QCOMPARE(cells[u"until"_s], u"2026-05-31"_s);
        QCOMPARE(cells[u"measure"_s], QString());
        QCOMPARE(cells[u"measure_title"_s], u"due or overdue on the last day"_s);
        QCOMPARE(cells[u"patients"_s], u"40"_s);
        QCOMPARE(cells[u"due"_s], u"12"_s);
        QCOMPARE(cells[u"fewer_than_5"_s], QString());
        report.counts->due = {};
        cells = rowOf(report, bookWith({}));
        QCOMPARE(cells[u"due"_s], QString());
        QCOMPARE(cells[u"fewer_than_5"_s], u"due"_s);
    }

    void aRowOfFewHoldsNoNumber()
    {
        ServiceRow row;
        row.measure = u"own-reach"_s;
        const auto cells = rowOf(reportOf(row), bookWith(u"Reach"_s));
        QCOMPARE(cells[u"population_title"_s], u"not stated"_s);
        QCOMPARE(cells[u"fewer_than_5"_s], u"patients"_s);
        const QStringList& columns = exchange::serviceColumns();
        for (const QString& name : columns.mid(columns.indexOf(u"patients"_s), 15))
            QCOMPARE(cells[name], QString());
    }

    void separatorsInATitleStayInTheirCell()
    {
        for (const QString& title : {u"Reach, \"far\"; in\nlines"_s, u"Reach\r\n1,2,3"_s})
            QCOMPARE(rowOf(reportOf(told()), bookWith(title))[u"measure_title"_s],
                     title + u" (the clinic's own)"_s);
    }

    void aTitleIsNoFormula()
    {
        for (const QString& title : {u"=1+1"_s, u"+1"_s, u"-1"_s, u"@SUM(A1)"_s})
            QCOMPARE(rowOf(reportOf(told()), bookWith(title))[u"measure_title"_s],
                     u'\'' + title + u" (the clinic's own)"_s);
    }

    void anEmptyReportIsItsHeader()
    {
        const ServiceReport empty{{QDate(2026, 3, 1), QDate(2026, 5, 31)}, true, {}, {}};
        QCOMPARE(exchange::serviceCsv(empty, examples::catalogue(), {}),
                 base::csvLine(exchange::serviceColumns()));
    }
};

HOUSE_TEST(TestServiceCsv)

} // namespace test_service_csv

#include "test_service_csv.moc"
