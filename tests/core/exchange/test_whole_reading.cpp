#include "core/catalogue/reader.h"
#include "core/exchange/findings_csv.h"
#include "core/exchange/whole_writing.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_whole_reading
{

const QDate day(2026, 3, 12);
const QString falk = u"6c6c856c-8c91-4845-851a-7e4ec2b74239"_s;
const QString first = u"a202fe9f-9cc8-4a32-840d-51a940cd03e8"_s;

const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

/// A file made of rows that name only the cells they fill.
QByteArray file(const std::vector<QMap<QString, QString>>& rows)
{
    const QStringList columns = exchange::wholeColumns(book());
    QByteArray bytes = base::csvLine(columns);
    for (const auto& row : rows) {
        QStringList cells;
        for (const QString& column : columns)
            cells += row.value(column);
        bytes += base::csvLine(cells);
    }
    return bytes;
}

const QMap<QString, QString> patient = {
    {u"row"_s, u"patient"_s}, {u"no"_s, u"1"_s},     {u"uid"_s, falk},      {u"patient"_s, u"F-1"_s},
    {u"family"_s, u"Falk"_s}, {u"sex"_s, u"male"_s}, {u"hand"_s, u"left"_s}};
const QMap<QString, QString> visit = {{u"row"_s, u"visit"_s},
                                      {u"no"_s, u"9"_s},
                                      {u"of"_s, u"1"_s},
                                      {u"uid"_s, first},
                                      {u"series"_s, first},
                                      {u"version"_s, u"1"_s},
                                      {u"date"_s, u"2026-03-02"_s},
                                      {u"state"_s, u"signed"_s},
                                      {u"who"_s, u"A. Tester"_s},
                                      {u"at"_s, u"2026-03-02T09:30:00.125Z"_s},
                                      {u"aid"_s, u"stick"_s},
                                      {u"not_recorded"_s, u"footwear pain"_s}};
const QMap<QString, QString> hold = {{u"row"_s, u"finding"_s},
                                     {u"of"_s, u"9"_s},
                                     {u"measure"_s, u"romberg-eyes-closed"_s},
                                     {u"state"_s, u"done"_s},
                                     {u"value"_s, u"12.25"_s},
                                     {u"unit"_s, u"s"_s},
                                     {u"trials"_s, u"- 12.25"_s},
                                     {u"note"_s, u"'=held the rail"_s}};

base::Result<exchange::FindingsFile> read(const std::vector<QMap<QString, QString>>& rows)
{
    return exchange::findingsFrom(file(rows), book(), day);
}

class TestWholeReading : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// In any order: what is described in DEVELOPERS.md and nothing that the writer knows besides.
    void aFileMadeByHandIsRead()
    {
        const auto file = read({hold, visit, patient});
        QVERIFY(file);
        QVERIFY2(file->faults.isNone(),
                 file->faults.isNone() ? "" : qPrintable(file->faults.asOne().what.english()));
        QCOMPARE(file->records.size(), size_t(1));
        const records::WholeRecord& record = file->records.front().record;
        QCOMPARE(record.patient.dominantHand, records::Hand::Left);
        const records::Visit& read = record.visits.at(0);
        QCOMPARE(read.signedAt, QDateTime(QDate(2026, 3, 2), QTime(9, 30, 0, 125), Qt::UTC));
        QCOMPARE(read.conditions,
                 (records::Conditions{
                     {u"aid"_s, u"stick"_s}, {u"footwear"_s, QString(u""_s)}, {u"pain"_s, QString(u""_s)}}));
        const records::Finding& finding = read.findings.at(0);
        QCOMPARE(finding.trials, std::vector<double>{12.25});
        QCOMPARE(finding.trialNumbers, std::vector<int>{2});
        QCOMPARE(finding.note, u"=held the rail"_s);
        QCOMPARE(finding.value, values::Value(values::Quantity{12.25, values::Unit::Second}));
    }

    void whatCannotBeIsAFault_data()
    {
        QTest::addColumn<QString>("row");
        QTest::addColumn<QString>("column");
        QTest::addColumn<QString>("cell");
        QTest::addColumn<QString>("said");
        const auto row = [](const char* name, const QString& row, const QString& column, const QString& cell,
                            const QString& said) { QTest::newRow(name) << row << column << cell << said; };
        row("a version without the one before", u"visit"_s, u"version"_s, u"2"_s,
            u"numbered from 1 without a gap"_s);
        row("a first version that is amended", u"visit"_s, u"state"_s, u"amended"_s,
            u"The first version is signed"_s);
        row("a draft that someone signed", u"visit"_s, u"state"_s, u"draft"_s,
            u"A draft is signed by nobody."_s);
        row("nobody signed", u"visit"_s, u"who"_s, {}, u"signed without an author"_s);
        row("a reason of a first version", u"visit"_s, u"reason"_s, u"x"_s, u"Every version but the first"_s);
        row("a day to come", u"visit"_s, u"date"_s, u"2031-01-01"_s, u"lies in the future"_s);
        row("a condition twice", u"visit"_s, u"not_recorded"_s, u"aid"_s, u"whose own cells are empty"_s);
        row("no uuid", u"patient"_s, u"uid"_s, u"1"_s, u"Allowed is a UUID"_s);
        row("another number", u"finding"_s, u"patient"_s, u"F-2"_s, u"It must be as in the row"_s);
        row("a value that does not follow", u"finding"_s, u"value"_s, u"13"_s,
            u"must follow from the trials"_s);
        row("a value beside a state", u"finding"_s, u"state"_s, u"unable"_s,
            u"Allowed beside this state is nothing"_s);
        row("words for a number", u"finding"_s, u"trials"_s, u"12 s"_s,
            u"Allowed are numbers divided by spaces."_s);
        row("no such form", u"visit"_s, u"made"_s, u"4"_s, u"Allowed is the “no” of a form's row"_s);
    }

    void whatCannotBeIsAFault()
    {
        QFETCH(const QString, row);
        QFETCH(const QString, column);
        QFETCH(const QString, cell);
        QFETCH(const QString, said);
        std::vector<QMap<QString, QString>> rows = {patient, visit, hold};
        for (auto& each : rows) {
            if (each[u"row"_s] == row)
                each[column] = cell;
        }
        const auto file = read(rows);
        QVERIFY(file);
        QVERIFY(!file->faults.isNone());
        const QString all = file->faults.asOne().what.english();
        QVERIFY2(all.contains(said), qPrintable(all));
        QVERIFY(all.contains(u"Line "_s));
    }

    void aTextBehindAnApostropheComesBackToTheLetter()
    {
        for (const QString& text :
             {u"=1"_s, u"'=1"_s, u"'"_s, u"''"_s, u"-5"_s, u"-x"_s, u"@"_s, u""_s, u"plain"_s})
            QCOMPARE(exchange::unguarded(exchange::guarded(text)), text);
        QCOMPARE(exchange::guarded(u"=1"_s), u"'=1"_s);
        QCOMPARE(exchange::guarded(u"-5"_s), u"-5"_s);
    }
};

HOUSE_TEST(TestWholeReading)

} // namespace test_whole_reading

#include "test_whole_reading.moc"
