#include "app/changes/screen_limit.h"
#include "app/changes/tally.h"

#include "tests/support/test_support.h"

#include <QCoreApplication>
#include <QSettings>
#include <QTemporaryDir>

using namespace Qt::StringLiterals;

namespace test_screen_limit
{

using changes::Row;
using judging::Verdict;

Row rowWith(double p)
{
    judging::Comparison held;
    held.verdict = p < 0.05 ? Verdict::Worse : Verdict::WithinError;
    held.z = 1;
    held.probabilityBeyondZero = 1 - p / 2;
    Row row;
    row.comparison = held;
    return row;
}

/// The fifteen p values of Benjamini & Hochberg 1995, J R Stat Soc B 57:289, section 4.2, in another order.
std::vector<Row> published()
{
    std::vector<Row> rows;
    for (const double p : {0.0344, 0.0019, 0.4262, 0.0001, 0.0459, 0.0278, 1.0, 0.0095, 0.6528, 0.0004,
                           0.0298, 0.0201, 0.3240, 0.7590, 0.5719})
        rows.push_back(rowWith(p));
    return rows;
}

class TestScreenLimit : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void thePublishedExampleKeepsFour();
    void flagsWithoutAStandardErrorAreLeftAlone();
    void nothingIsHeldBackThatWasNoFlag();
    void theChoiceIsRemembered();
};

void TestScreenLimit::thePublishedExampleKeepsFour()
{
    auto rows = published();
    changes::holdFalseFlags(rows);
    std::vector<size_t> staying;
    for (size_t i = 0; i < rows.size(); ++i) {
        if (changes::isFlag(rows[i]) && !rows[i].isHeldBack)
            staying.push_back(i);
    }
    QCOMPARE(staying, (std::vector<size_t>{1, 3, 7, 9})); // 0.0019, 0.0001, 0.0095 and 0.0004
    QCOMPARE(changes::stayingWords(rows), u"beyond the screen's bound: 4 of 9"_s);
    QVERIFY(changes::tally(rows, true).endsWith(u"beyond the screen's bound: 4 of 9"_s));
    QVERIFY(!changes::tally(rows, false).contains(u"bound"_s));
    // 5 % of fifteen results at 95 % confidence.
    QVERIFY(changes::expectedByChance(rows, {}, {}).contains(u"about 0.75 of the 15 results"_s));
}

void TestScreenLimit::flagsWithoutAStandardErrorAreLeftAlone()
{
    auto rows = published();
    rows[0].comparison->z.reset(); // p 0.0344, which would not stay
    rows[0].comparison->probabilityBeyondZero.reset();
    changes::holdFalseFlags(rows);
    QVERIFY(!rows[0].isHeldBack);
    QCOMPARE(changes::stayingWords(rows), u"beyond the screen's bound: 4 of 8"_s);
}

void TestScreenLimit::nothingIsHeldBackThatWasNoFlag()
{
    auto rows = published();
    changes::holdFalseFlags(rows);
    for (const Row& row : rows)
        QVERIFY(changes::isFlag(row) || !row.isHeldBack);
    std::vector<Row> none;
    changes::holdFalseFlags(none);
    QCOMPARE(changes::stayingWords(none), QString());
}

void TestScreenLimit::theChoiceIsRemembered()
{
    const QTemporaryDir folder;
    QCoreApplication::setOrganizationName(u"tests"_s);
    QCoreApplication::setApplicationName(u"screen-limit"_s);
    QSettings::setDefaultFormat(QSettings::IniFormat);
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path());
    QVERIFY(!changes::isLimitHeld());
    changes::rememberLimitHeld(true);
    QVERIFY(changes::isLimitHeld());
}

HOUSE_TEST(TestScreenLimit)

} // namespace test_screen_limit

#include "test_screen_limit.moc"
