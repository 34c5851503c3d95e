#include "core/base/csv.h"
#include "core/exchange/service_csv.h"
#include "tests/app/console/program.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_report
{

using findings_file::Cells;
using findings_file::walk;
using program::Outcome;
using program::Place;

/// Invented patients with Parkinson disease or without a population, each timed twice in the spring of 2024.
struct Clinic : Place {
    std::vector<Cells> rows;

    void add(const QString& population, const QString& first, const QString& latest)
    {
        const QString number = u"R-%1"_s.arg(rows.size());
        for (const auto& [day, seconds] :
             {std::pair(u"2024-03-04"_s, first), std::pair(u"2024-05-06"_s, latest)})
            rows.push_back(walk({{u"patient"_s, number},
                                 {u"family"_s, u"Quillfeather"_s},
                                 {u"population"_s, population},
                                 {u"date"_s, day},
                                 {u"value"_s, seconds == u"unable"_s ? QString() : seconds},
                                 {u"state"_s, seconds == u"unable"_s ? seconds : QString()},
                                 {u"aid"_s, u"none"_s},
                                 {u"medication"_s, u"on"_s},
                                 {u"footwear"_s, u"own-shoes"_s},
                                 {u"orthosis"_s, u"none"_s},
                                 {u"assistance"_s, u"none"_s}}));
    }

    Outcome report(const QString& from, const QString& until, const QString& to) const
    {
        return program::run(
            {u"report"_s, records, u"--from"_s, from, u"--until"_s, until, u"--to"_s, path(to)});
    }
    QByteArray bytes(const QString& name) const
    {
        QFile file(path(name));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
    /// The cells of these columns, a row each.
    std::vector<QStringList> table(const QStringList& columns) const
    {
        std::vector<QStringList> told;
        const auto rows = base::csvRows(bytes(u"report.csv"_s));
        for (size_t row = 1; rows && row < rows->size(); ++row) {
            QStringList cells;
            for (const QString& column : columns)
                cells += (*rows)[row].cells.at(exchange::serviceColumns().indexOf(column));
            told.push_back(cells);
        }
        return told;
    }
};

class TestReport : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatBecameOfThePatientsIsCounted();
    void nobodyCanBeFoundInIt();
    void aPeriodBeforeTheRecordsIsEmpty();
    void wrongUseIsTwo_data();
    void wrongUseIsTwo();
    void theRecordsStayAsTheyAre();
};

/// Huang et al. 2011, Phys Ther 91:114: 3.5 s beyond error. Python: statistics.quantiles([10, 10, 10, 10, 10,
/// 11, 12, 13, 14, 15, 16], n=4, method='inclusive') of the first.
void TestReport::whatBecameOfThePatientsIsCounted()
{
    Clinic clinic;
    for (int each = 0; each < 5; ++each)
        clinic.add(u"parkinson"_s, u"10"_s, u"14"_s);
    for (int each = 11; each <= 16; ++each)
        clinic.add(u"parkinson"_s, QString::number(each), QString::number(each));
    for (int each = 0; each < 5; ++each)
        clinic.add(u"parkinson"_s, u"unable"_s, u"20"_s);
    clinic.add(u"parkinson"_s, u"unable"_s, u"unable"_s);
    for (int each = 0; each < 5; ++each)
        clinic.add({}, u"12"_s, u"12"_s);
    clinic.add(u"stroke-chronic"_s, u"12"_s, u"12"_s);
    QCOMPARE(clinic.import(clinic.rows).code, 0);
    const Outcome made = clinic.report(u"2024-03-01"_s, u"2024-05-31"_s, u"report.csv"_s);
    QCOMPARE(made.err, QString());
    QCOMPARE(made.code, 0);
    const std::vector<QStringList> expected = {
        {u"stroke-chronic"_s, {}, {}, {}, {}, {}, {}, {}, {}, u"patients"_s},
        {u"parkinson"_s,
         u"17"_s,
         u"10.0"_s,
         u"11.0"_s,
         u"13.5"_s,
         u"11"_s,
         u"5"_s,
         {},
         u"5"_s,
         u"better became_unable"_s},
        {{},
         u"5"_s,
         u"12.0"_s,
         u"12.0"_s,
         u"12.0"_s,
         {},
         {},
         {},
         {},
         u"judged better worse became_unable became_able"_s}};
    QCOMPARE(clinic.table({u"population"_s, u"patients"_s, u"first_lower_quartile"_s, u"first_median"_s,
                           u"first_upper_quartile"_s, u"judged"_s, u"worse"_s, u"better"_s, u"became_able"_s,
                           u"fewer_than_5"_s}),
             expected);
}

void TestReport::nobodyCanBeFoundInIt()
{
    Clinic clinic;
    for (int each = 0; each < 6; ++each)
        clinic.add(u"parkinson"_s, u"10"_s, u"14"_s);
    QCOMPARE(clinic.import(clinic.rows).code, 0);
    QCOMPARE(clinic.report(u"2024-03-01"_s, u"2024-05-31"_s, u"report.csv"_s).code, 0);
    QCOMPARE(clinic.report(u"2024-03-01"_s, u"2024-05-31"_s, u"report.pdf"_s).code, 0);
    const QString pages = PdfFile(clinic.bytes(u"report.pdf"_s)).pages().join(u' ').simplified();
    QVERIFY2(pages.contains(u"6 of 6 (100 %)"_s), qPrintable(pages));
    for (const QString& text : {pages, QString::fromUtf8(clinic.bytes(u"report.csv"_s))}) {
        for (const QString& person : {u"Quillfeather"_s, u"Borre"_s, u"R-0"_s, u"1951"_s, u"2024-03-04"_s})
            QVERIFY2(!text.contains(person), qPrintable(person));
    }
    // A single day with nobody but four of them.
    clinic.rows.resize(8);
    const Clinic few;
    QCOMPARE(few.import(clinic.rows).code, 0);
    QCOMPARE(few.report(u"2024-03-04"_s, u"2024-03-04"_s, u"report.pdf"_s).code, 0);
    QVERIFY(PdfFile(few.bytes(u"report.pdf"_s)).pages().join(u' ').contains(u"Fewer than 5 patients were"_s));
}

void TestReport::aPeriodBeforeTheRecordsIsEmpty()
{
    Clinic clinic;
    clinic.add(u"parkinson"_s, u"10"_s, u"14"_s);
    QCOMPARE(clinic.import(clinic.rows).code, 0);
    QCOMPARE(clinic.report(u"1990-01-01"_s, u"1990-12-31"_s, u"report.pdf"_s).code, 0);
    QVERIFY(PdfFile(clinic.bytes(u"report.pdf"_s)).pages().first().contains(u"No visit that counts"_s));
    QCOMPARE(clinic.report(u"1990-01-01"_s, u"1990-12-31"_s, u"report.csv"_s).code, 0);
    QCOMPARE(clinic.bytes(u"report.csv"_s), base::csvLine(exchange::serviceColumns()));
}

void TestReport::wrongUseIsTwo_data()
{
    QTest::addColumn<QString>("from");
    QTest::addColumn<QString>("until");
    QTest::addColumn<QString>("to");
    QTest::addColumn<QString>("said");
    const auto add = [](const char* name, const QString& from, const QString& until, const QString& to,
                        const QString& said) { QTest::newRow(name) << from << until << to << said; };
    const QString day = u"2024-03-01"_s;
    add("another way to write a day", u"1.3.2024"_s, day, u"r.pdf"_s, u"The day of --from must"_s);
    add("no such day", day, u"2024-02-30"_s, u"r.pdf"_s, u"The day of --until must"_s);
    add("a short year", day, u"24-03-01"_s, u"r.pdf"_s, u"The day of --until must"_s);
    add("the wrong way round", day, u"2024-02-29"_s, u"r.pdf"_s, u"must not be after"_s);
    add("no day", day, {}, u"r.pdf"_s, u"needs --until"_s);
    add("another ending", day, day, u"r.odt"_s, u"must end in .pdf or .csv"_s);
}

void TestReport::wrongUseIsTwo()
{
    QFETCH(QString, from);
    QFETCH(QString, until);
    QFETCH(QString, to);
    QFETCH(QString, said);
    const Clinic clinic;
    const Outcome wrong = clinic.report(from, until, to);
    QCOMPARE(wrong.code, 2);
    QVERIFY2(wrong.err.contains(said), qPrintable(wrong.err));
    QCOMPARE(wrong.err.count(u'\n'), 1);
    QVERIFY(!QFile::exists(clinic.path(to)));
}

void TestReport::theRecordsStayAsTheyAre()
{
    Clinic clinic;
    clinic.add(u"parkinson"_s, u"10"_s, u"14"_s);
    QCOMPARE(clinic.import(clinic.rows).code, 0);
    const QByteArray before = clinic.bytes(u"clinic.aplomb"_s);
    QCOMPARE(clinic.report(u"2024-03-01"_s, u"2024-05-31"_s, u"report.csv"_s).code, 0);
    QCOMPARE(clinic.bytes(u"clinic.aplomb"_s), before);
    QCOMPARE(program::run({u"report"_s, clinic.records, u"--from"_s, u"2024-03-01"_s, u"--until"_s,
                           u"2024-05-31"_s, u"--to"_s, clinic.path(u"nowhere/r.csv"_s)})
                 .code,
             1);
}

HOUSE_TEST(TestReport)

} // namespace test_report

#include "test_report.moc"
