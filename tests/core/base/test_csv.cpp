#include "core/base/csv.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_csv
{

std::vector<QStringList> cellsOf(const QByteArray& bytes)
{
    std::vector<QStringList> cells;
    const auto rows = base::csvRows(bytes);
    for (size_t index = 0; rows && index < rows->size(); ++index)
        cells.push_back((*rows)[index].cells);
    return cells;
}

std::vector<int> linesOf(const QByteArray& bytes)
{
    std::vector<int> lines;
    const auto rows = base::csvRows(bytes);
    for (size_t index = 0; rows && index < rows->size(); ++index)
        lines.push_back((*rows)[index].line);
    return lines;
}

class CsvTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void readsTheExamplesOfTheStandard_data();
    void readsTheExamplesOfTheStandard();
    void keepsSpacesInCells();
    void passesOverTheByteOrderMarkAndBlankLines();
    void knowsTheLineARowBeginsOn_data();
    void knowsTheLineARowBeginsOn();
    void refusesWhatIsNoCsv_data();
    void refusesWhatIsNoCsv();
    void readsNothingFromNothing();
    void writesWhatItReads_data();
    void writesWhatItReads();
    void quotesOnlyWhereItMust();
    void aTextIsNoFormula();
};

/// RFC 4180, section 2, points 1 to 7.
void CsvTest::readsTheExamplesOfTheStandard_data()
{
    QTest::addColumn<QByteArray>("bytes");
    QTest::addColumn<std::vector<QStringList>>("cells");
    const std::vector<QStringList> plain = {{u"aaa"_s, u"bbb"_s, u"ccc"_s}, {u"zzz"_s, u"yyy"_s, u"xxx"_s}};
    QTest::newRow("1 lines end with CRLF") << QByteArray("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") << plain;
    QTest::newRow("2 the last line may have no end") << QByteArray("aaa,bbb,ccc\r\nzzz,yyy,xxx") << plain;
    QTest::newRow("3 a header is a row")
        << QByteArray("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")
        << std::vector<QStringList>{{u"field_name"_s, u"field_name"_s, u"field_name"_s}, plain[0], plain[1]};
    QTest::newRow("5 cells may be quoted") << QByteArray("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") << plain;
    QTest::newRow("6 quoted cells may hold line ends")
        << QByteArray("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx")
        << std::vector<QStringList>{{u"aaa"_s, u"b\r\nbb"_s, u"ccc"_s}, plain[1]};
    QTest::newRow("7 a quote is doubled") << QByteArray("\"aaa\",\"b\"\"bb\",\"ccc\"")
                                          << std::vector<QStringList>{{u"aaa"_s, u"b\"bb"_s, u"ccc"_s}};
    QTest::newRow("lines may end with LF") << QByteArray("aaa,bbb,ccc\nzzz,yyy,xxx\n") << plain;
    QTest::newRow("empty cells are cells") << QByteArray(",,\r\n") << std::vector<QStringList>{{{}, {}, {}}};
}

void CsvTest::readsTheExamplesOfTheStandard()
{
    QFETCH(QByteArray, bytes);
    QFETCH(std::vector<QStringList>, cells);
    QCOMPARE(cellsOf(bytes), cells);
}

/// RFC 4180, section 2, point 4: spaces are considered part of a field.
void CsvTest::keepsSpacesInCells()
{
    QCOMPARE(cellsOf(" aaa ,\t,\" ccc\"\n"), (std::vector<QStringList>{{u" aaa "_s, u"\t"_s, u" ccc"_s}}));
}

void CsvTest::passesOverTheByteOrderMarkAndBlankLines()
{
    QCOMPARE(cellsOf("\xEF\xBB\xBFÄhre,b\n\n  \r\n\nc,d\n"),
             (std::vector<QStringList>{{u"Ähre"_s, u"b"_s}, {u"c"_s, u"d"_s}}));
}

void CsvTest::knowsTheLineARowBeginsOn_data()
{
    QTest::addColumn<QByteArray>("bytes");
    QTest::addColumn<std::vector<int>>("lines");
    QTest::newRow("plain") << QByteArray("a\nb\nc") << std::vector<int>{1, 2, 3};
    QTest::newRow("after blank lines") << QByteArray("a\n\n\nb\n") << std::vector<int>{1, 4};
    QTest::newRow("after a later cell of two lines")
        << QByteArray("a,\"b\nb\"\nc,d\n") << std::vector<int>{1, 3};
    QTest::newRow("first cell of three lines")
        << QByteArray("a,a\n\"b\nb\nb\",b\nc,c\n") << std::vector<int>{1, 2, 5};
    QTest::newRow("cell that begins with a line end")
        << QByteArray("\"\r\n\r\nb\",b\r\nc,c\r\n") << std::vector<int>{1, 4};
    QTest::newRow("lines that end in a carriage return alone")
        << QByteArray("a,b\rc,\"d\rd\"\r\re,f\r") << std::vector<int>{1, 2, 5};
}

void CsvTest::knowsTheLineARowBeginsOn()
{
    QFETCH(QByteArray, bytes);
    QFETCH(std::vector<int>, lines);
    QCOMPARE(linesOf(bytes), lines);
}

void CsvTest::refusesWhatIsNoCsv_data()
{
    QTest::addColumn<QByteArray>("bytes");
    QTest::addColumn<QString>("fault");
    const auto row = [](const char* name, const QByteArray& bytes, const QString& fault) {
        QTest::newRow(name) << bytes << fault;
    };
    row("quotation never closed", "a,b\n\"c\nd,e\n",
        u"Line 2, column 1: a quotation is opened and never closed."_s);
    const QString quotation =
        u"Line 2, column %1: quotation marks may stand around a whole cell only, and doubled within it."_s;
    row("quote inside a plain cell", "a,b\nc\"c,d\n", quotation.arg(1));
    row("text after a quotation", "a,b\nd,\"c\"c\n", quotation.arg(2));
    row("Latin-1", "a,b\nM\xFCller,b\n", u"Line 2: The file is not text in UTF-8."_s);
    row("cut within a letter", "M\xC3", u"Line 1: The file is not text in UTF-8."_s);
    row("zero byte", QByteArray("a,\0b\n", 5),
        u"Line 1: The file holds a zero byte, so it is not a text file."_s);
}

void CsvTest::refusesWhatIsNoCsv()
{
    QFETCH(QByteArray, bytes);
    QFETCH(QString, fault);
    const auto rows = base::csvRows(bytes);
    QVERIFY(!rows);
    QCOMPARE(rows.error().kind, base::ErrorKind::Unreadable);
    QCOMPARE(rows.error().what.english(), fault);
}

void CsvTest::readsNothingFromNothing()
{
    const auto rows = base::csvRows({});
    QVERIFY(rows);
    QVERIFY(rows->empty());
}

void CsvTest::writesWhatItReads_data()
{
    QTest::addColumn<QStringList>("cells");
    QTest::newRow("plain") << QStringList{u"a"_s, u"b"_s};
    QTest::newRow("comma and quote") << QStringList{u"a,b"_s, u"say \"ah\""_s};
    QTest::newRow("line ends") << QStringList{u"a\nb"_s, u"c\rd"_s, u"e\r\nf"_s};
    QTest::newRow("spaces") << QStringList{u" a "_s, u"\tb"_s};
    QTest::newRow("empty ends") << QStringList{{}, u"a"_s, {}};
    QTest::newRow("far letters") << QStringList{u"Łódź"_s, u"𠮷野"_s};
}

void CsvTest::writesWhatItReads()
{
    QFETCH(QStringList, cells);
    QCOMPARE(cellsOf(base::csvLine(cells)), std::vector<QStringList>{cells});
}

void CsvTest::quotesOnlyWhereItMust()
{
    QCOMPARE(base::csvLine({u"a b"_s, u"c,d"_s, {}, u"\""_s}), QByteArray("a b,\"c,d\",,\"\"\"\"\n"));
}

void CsvTest::aTextIsNoFormula()
{
    QCOMPARE(base::harmless(u"=1+1"_s), u"'=1+1"_s);
    QCOMPARE(base::harmless(u"@sum"_s), u"'@sum"_s);
    QCOMPARE(base::harmless(u"-x"_s), u"'-x"_s);
    QCOMPARE(base::harmless(u"a=b"_s), u"a=b"_s);
    QCOMPARE(base::harmless({}), QString());
}

HOUSE_TEST(CsvTest)

} // namespace test_csv

#include "test_csv.moc"
