#include "core/exchange/findings_csv.h"
#include "tests/support/findings_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_faults
{

using namespace findings_file;

exchange::FindingsFile taken(const QByteArray& bytes)
{
    auto file = exchange::findingsFrom(bytes, shipped(), today);
    return file ? std::move(*file) : exchange::FindingsFile();
}

std::vector<int> linesOf(const exchange::FindingsFile& file)
{
    std::vector<int> lines;
    for (const exchange::Fault& fault : file.faults.byLine())
        lines.push_back(fault.line);
    return lines;
}

const Cells wrongValue = {{u"value"_s, u"much"_s}};

/// Every line of a file that cannot be taken, at once.
class TestFaults : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFaultIsNamedWithItsLine()
    {
        const exchange::FindingsFile file = taken(findings_file::file(
            {walk(wrongValue), walk({{u"date"_s, u"2024-04-01"_s}}),
             walk({{u"date"_s, u"2024-05-01"_s}, {u"trial"_s, u"2"_s}}),
             walk({{u"date"_s, u"2024-05-01"_s}, {u"trial"_s, u"4"_s}}),
             walk({{u"date"_s, u"2024-05-01"_s}, {u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"56"_s}}),
             walk({{u"date"_s, u"2024-05-01"_s}, {u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"55"_s}}),
             walk({{u"patient"_s, u"T-2"_s}, {u"family"_s, u"A"_s}}),
             walk({{u"patient"_s, u"T-2"_s}, {u"family"_s, u"B"_s}})}));
        QCOMPARE(linesOf(file), (std::vector<int>{2, 5, 7, 9}));
        const exchange::Fault first = file.faults.byLine().front();
        QCOMPARE(first.patient, u"T-1"_s);
        QCOMPARE(first.day, QDate(2024, 3, 1));
        QVERIFY(first.error.what.english().startsWith(u"Line 2, column value: "_s));
    }

    void whatIsRightIsReadBesideWhatIsWrong()
    {
        const exchange::FindingsFile file = taken(findings_file::file(
            {walk(wrongValue), walk({{u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46"_s}}),
             walk({{u"date"_s, u"2024-04-01"_s}}), walk({{u"patient"_s, u"T-2"_s}})}));
        QCOMPARE(linesOf(file), std::vector<int>{2});
        QCOMPARE(file.patients.size(), size_t(2));
        QCOMPARE(file.patients.front().visits.size(), size_t(1)); // the visit of the wrong line is left out
        QCOMPARE(file.patients.front().visits.front().visit.day, QDate(2024, 4, 1));
    }

    void aLineWithoutADayLeavesItsPatientOut()
    {
        const exchange::FindingsFile file = taken(findings_file::file(
            {walk({{u"date"_s, u"1.3.2024"_s}}), walk(), walk({{u"patient"_s, u"T-2"_s}})}));
        QCOMPARE(linesOf(file), std::vector<int>{2});
        QVERIFY(!file.faults.byLine().front().day.isValid());
        QCOMPARE(file.patients.size(), size_t(1));
        QCOMPARE(file.patients.front().patient.recordNumber, u"T-2"_s);
    }

    /// What only the refused line says of a patient is not missed on another one.
    void whatARefusedLineSaysIsNotBlamedOnTheNext()
    {
        const exchange::FindingsFile file = taken(findings_file::file(
            {walk(wrongValue),
             walk({{u"date"_s, u"2024-04-01"_s}, {u"family"_s, {}}, {u"given"_s, {}}, {u"born"_s, {}}})}));
        QCOMPARE(linesOf(file), std::vector<int>{2});
    }

    void ofVeryManyTheFirstThousandAreKeptAndAllAreCounted()
    {
        const std::vector<Cells> rows(1500, walk(wrongValue));
        const exchange::FindingsFile file = taken(findings_file::file(rows));
        QCOMPARE(file.faults.count(), 1500);
        QCOMPARE(file.faults.byLine().size(), exchange::Faults::most);
        QCOMPARE(file.faults.byLine().back().line, 1001);
        const QString asOne = file.faults.asOne().what.english();
        QCOMPARE(asOne.count(u'\n'), 20);
        QVERIFY(asOne.endsWith(u"And 1480 more."_s));
    }

    void readingCanBeStopped()
    {
        const QByteArray bytes = findings_file::file(std::vector<Cells>(1200, walk()));
        std::vector<int> told;
        const auto file = exchange::findingsFrom(bytes, shipped(), today, [&](int percent) {
            told.push_back(percent);
            return told.size() < 2;
        });
        QVERIFY(!file);
        QCOMPARE(file.error().kind, base::ErrorKind::Refused);
        QCOMPARE(told, (std::vector<int>{41, 83}));
    }
};

HOUSE_TEST(TestFaults)

} // namespace test_faults

#include "test_faults.moc"
