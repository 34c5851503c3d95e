#include "core/records/since_onset.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;
using records::SinceOnset;

namespace test_since_onset
{

class TestSinceOnset : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theStagesAfterAStroke_data();
    void theStagesAfterAStroke();
};

/// Bernhardt 2017, Int J Stroke 12:444 (from memory): acute 1 to 7 days, early subacute to 3 months, late
/// subacute to 6 months, chronic from then on. 1 January 2025 is the onset.
void TestSinceOnset::theStagesAfterAStroke_data()
{
    QTest::addColumn<QDate>("day");
    QTest::addColumn<QString>("code");
    QTest::newRow("the day before") << QDate(2024, 12, 31) << QString();
    QTest::newRow("the day itself") << QDate(2025, 1, 1) << u"week"_s;
    QTest::newRow("7 days") << QDate(2025, 1, 8) << u"week"_s;
    QTest::newRow("8 days") << QDate(2025, 1, 9) << u"quarter"_s;
    QTest::newRow("91 days") << QDate(2025, 4, 2) << u"quarter"_s;
    QTest::newRow("92 days") << QDate(2025, 4, 3) << u"half-year"_s;
    QTest::newRow("183 days") << QDate(2025, 7, 3) << u"half-year"_s;
    QTest::newRow("184 days") << QDate(2025, 7, 4) << u"longer"_s;
    QTest::newRow("years") << QDate(2040, 1, 1) << u"longer"_s;
}

void TestSinceOnset::theStagesAfterAStroke()
{
    QFETCH(const QDate, day);
    QFETCH(const QString, code);
    const auto since = records::sinceOnset(QDate(2025, 1, 1), day);
    QCOMPARE(since ? records::code(*since) : QString(), code);
}

HOUSE_TEST(TestSinceOnset)

} // namespace test_since_onset

#include "test_since_onset.moc"
