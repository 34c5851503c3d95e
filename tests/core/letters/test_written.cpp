#include "core/letters/written.h"

#include "tests/support/test_support.h"

#include <random>

using namespace Qt::StringLiterals;

namespace test_written
{

using namespace letters;
using Kind = WrittenLine::Kind;

class TestWritten : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// What clinicians wrote before there were marks.
    void plainTextReadsAsItDid_data()
    {
        QTest::addColumn<QString>("plain");
        for (const char* text : {"",
                                 "Walks faster.",
                                 "2*3*4 m",
                                 "*p* < 0.05",
                                 "grade 2* of 4",
                                 "a_b_c and __d__",
                                 "# not a heading",
                                 "## 2",
                                 "** see below **",
                                 "a ** b ** c",
                                 "****",
                                 "3. third of a list elsewhere",
                                 "10. Downing Street",
                                 "1.5 mg",
                                 "-5 kg",
                                 "–",
                                 "\\\\server\\share",
                                 "a \\ b",
                                 "> 3 falls",
                                 "[link](x)",
                                 "`code`",
                                 "***",
                                 "first\n\n  second",
                                 "| a | b |",
                                 "+ plus",
                                 "~~ no ~~",
                                 "&amp; <b>"})
            QTest::newRow(text) << QString::fromUtf8(text);
    }

    void plainTextReadsAsItDid()
    {
        QFETCH(QString, plain);
        for (const WrittenLine& line : writtenLines(plain)) {
            QCOMPARE(line.kind, Kind::Paragraph);
            for (const WrittenRun& run : line.runs)
                QVERIFY(!run.isBold);
        }
        QCOMPARE(wordsOf(plain), plain);
        QCOMPARE(writtenLines(stored(writtenLines(plain))), writtenLines(plain));
    }

    void marksMakeListsAndBoldWords()
    {
        const auto lines = writtenLines(
            u"Take **two** a day\n- at eight\n- at **noon**\n1. stand\n2. turn\n3. sit\n5. no item"_s);
        QCOMPARE(lines[0], (WrittenLine{Kind::Paragraph, {{u"Take "_s}, {u"two"_s, true}, {u" a day"_s}}}));
        QCOMPARE(lines[1], (WrittenLine{Kind::Bullet, {{u"at eight"_s}}}));
        QCOMPARE(lines[2].runs.back(), (WrittenRun{u"noon"_s, true}));
        QCOMPARE(lines[4].kind, Kind::Numbered);
        QCOMPARE(lines[5], (WrittenLine{Kind::Numbered, {{u"sit"_s}}}));
        QCOMPARE(lines[6], (WrittenLine{Kind::Paragraph, {{u"5. no item"_s}}}));
    }

    /// Whatever is typed with whatever form comes back: 20,000 lines of the signs that could be taken for
    /// marks.
    void whateverIsWrittenComesBack()
    {
        std::mt19937 dice(20261201);
        const auto below = [&](size_t end) { return size_t(dice() % end); };
        const QString signs = u"**\\- 1.2. ab*_#"_s;
        for (int made = 0; made < 5000; ++made) {
            std::vector<WrittenLine> lines;
            for (size_t count = 1 + below(5); count > 0; --count) {
                WrittenLine line{Kind(below(3)), {}};
                for (size_t runs = below(4); runs > 0; --runs) {
                    const bool isBold = line.runs.empty() ? below(2) == 0 : !line.runs.back().isBold;
                    QString words;
                    for (size_t letters = 1 + below(6); letters > 0; --letters)
                        words += signs[qsizetype(below(size_t(signs.size())))];
                    if (isBold) // its marks touch words
                        words = words.trimmed().isEmpty() ? u"b"_s : words.trimmed();
                    line.runs.push_back({words, isBold});
                }
                lines.push_back(line);
            }
            const QString kept = stored(lines);
            QVERIFY2(writtenLines(kept) == lines, qPrintable(kept));
        }
    }

    void aPageGetsItsElements()
    {
        QString page = u"<h3>x</h3>"_s;
        for (const QString& line : marked(u"Now:\n- a **b**\n- c\n1. d\n2. e\nend"_s))
            page += u"<p class=\"said\">%1</p>\n"_s.arg(line);
        page += u"<p>Sooner if %1 %2</p>"_s.arg(marked(u"- f\n- g"_s).at(0), marked(u"1. h"_s).at(0));
        QCOMPARE(
            withMarks(page).remove(u'\n'),
            u"<h3>x</h3><p class=\"said\">Now:</p><ul style=\"margin: 0;\"><li>a <b>b</b></li><li>c</li></ul>"
            "<ol style=\"margin: 0;\"><li>d</li><li>e</li></ol><p class=\"said\">end</p>"
            "<p>Sooner if • f 1. h</p>"_s);
    }

    void numbersBeginAnewAndEmptyLinesAroundAreDropped()
    {
        QCOMPARE(marked(u"\n \n1. a\n2. b\nbetween\n1. c\n\n"_s),
                 (QStringList{QChar(0xE003) + u"1. a"_s, QChar(0xE003) + u"2. b"_s, u"between"_s,
                              QChar(0xE003) + u"1. c"_s}));
        QCOMPARE(marked(u" \n\n"_s), QStringList());
        const QString list = u"<p>"_s + QChar(0xE002) + u"a</p>"_s;
        QCOMPARE(withMarks(u"<p>before</p>"_s + list + u"<p>between</p>"_s + list + u"<p>after</p>"_s),
                 u"<p>before</p><ul style=\"margin: 0;\"><li>a</li></ul><p>between</p><ul style=\"margin: "
                 "0;\"><li>a</li></ul><p>after</p>"_s);
    }

    /// The form in which it is kept, sign by sign: only what would be taken for a mark gets a backslash.
    void whatIsStoredIsEscapedNoMoreThanItMust()
    {
        const auto kept = [](const QString& words) { return stored({{Kind::Paragraph, {{words}}}}); };
        QCOMPARE(kept(u"2*3"_s), u"2*3"_s);
        QCOMPARE(kept(u"a**b"_s), u"a\\*\\*b"_s);
        QCOMPARE(kept(u"a\\*b"_s), u"a\\\\\\*b"_s);
        QCOMPARE(kept(u"a\\b"_s), u"a\\b"_s);
        QCOMPARE(stored({{Kind::Paragraph, {{u"*"_s}, {u"b"_s, true}, {u"c*"_s}}}}), u"\\***b**c*"_s);
    }

    void boldWordsTouchTheirMarks()
    {
        const auto bolds = [](const QString& text) {
            const std::vector<WrittenLine> lines = writtenLines(text);
            return std::ranges::count_if(lines.front().runs, &WrittenRun::isBold);
        };
        QCOMPARE(bolds(u"**a**"_s), 1);
        QCOMPARE(bolds(u"**a **b"_s), 0);
        QCOMPARE(bolds(u"** a**"_s), 0);
        QCOMPARE(bolds(u"**a"_s), 0);
        QCOMPARE(bolds(u"**a*"_s), 0);
        QCOMPARE(bolds(u"x **a** y **b**"_s), 2);
    }

    void whatWasTypedIsNoElement()
    {
        const QString typed = QStringLiteral("a") + QChar(0xE000) + u'b' + QChar(0xE002);
        QCOMPARE(marked(typed), QStringList{u"ab"_s});
    }
};

HOUSE_TEST(TestWritten)

} // namespace test_written

#include "test_written.moc"
