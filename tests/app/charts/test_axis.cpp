#include "app/charts/axis.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_axis
{

QStringList words(const charts::Axis& axis)
{
    QStringList found;
    for (const charts::Tick& tick : axis.ticks)
        found << tick.words;
    return found;
}

charts::TrendPoints numbers(const std::vector<double>& values)
{
    charts::TrendPoints points;
    points.finest = 0.1;
    charts::TrendLine line;
    for (const double value : values) {
        charts::TrendEntry entry;
        entry.number = value;
        line.entries.push_back(entry);
    }
    points.lines.push_back(line);
    return points;
}

charts::Axis dated(QDate from, QDate to, int most)
{
    return charts::withDates(charts::daysAxis(from, to), most, {});
}

class TestAxis : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void datesAreLabelledAtRoundStarts();
    void timeIsProportional();
    void aSingleDayStillHasAnAxis();
    void thereAreNeverMoreLabelsThanAskedFor();
    void valuesNeedNotBeginAtZero();
    void aSmallWobbleDoesNotFillTheAxis();
    void limitsAndShadingLieOnTheAxis();
    void theAxisEndsWithTheScale();
    void gradesStandOnTheirSteps();
};

void TestAxis::datesAreLabelledAtRoundStarts()
{
    QCOMPARE(words(dated(QDate(2024, 3, 4), QDate(2026, 9, 7), 8)),
             QStringList({u"Jul 2024"_s, u"Jan 2025"_s, u"Jul"_s, u"Jan 2026"_s, u"Jul"_s}));
    QCOMPARE(words(dated(QDate(2024, 1, 1), QDate(2024, 1, 31), 6)).first(), u"1 Jan 2024"_s);
    QCOMPARE(words(dated(QDate(1990, 6, 1), QDate(2025, 6, 1), 4)),
             QStringList({u"1990"_s, u"2000"_s, u"2010"_s, u"2020"_s}));
}

void TestAxis::timeIsProportional()
{
    const auto axis = dated(QDate(2024, 1, 1), QDate(2025, 1, 1), 8);
    const auto share = [&](QDate day) { return axis.share(double(day.toJulianDay())); };
    const double month = share(QDate(2024, 2, 1)) - share(QDate(2024, 1, 1));
    const double later = share(QDate(2024, 9, 1)) - share(QDate(2024, 8, 1)); // 31 days each
    QVERIFY(qAbs(month - later) < 1e-12);
}

void TestAxis::aSingleDayStillHasAnAxis()
{
    const auto axis = dated(QDate(2026, 5, 5), QDate(2026, 5, 5), 8);
    QVERIFY(axis.to > axis.from);
    QCOMPARE(axis.share(double(QDate(2026, 5, 5).toJulianDay())), 0.5);
}

void TestAxis::thereAreNeverMoreLabelsThanAskedFor()
{
    for (int days = 1; days < 20000; days = days * 3 / 2 + 1) {
        const auto axis = dated(QDate(1980, 2, 29), QDate(1980, 2, 29).addDays(days), 6);
        QVERIFY2(axis.ticks.size() <= 7, qPrintable(QString::number(days)));
        QVERIFY2(!axis.ticks.empty(), qPrintable(QString::number(days)));
    }
}

void TestAxis::valuesNeedNotBeginAtZero()
{
    const auto axis = charts::valueAxis(numbers({50, 80}));
    QVERIFY(axis.from > 20);
    QVERIFY(axis.from <= 50);
    QVERIFY(axis.to >= 80);
    QCOMPARE(words(axis).first(), u"50"_s);
}

void TestAxis::aSmallWobbleDoesNotFillTheAxis()
{
    const auto axis = charts::valueAxis(numbers({20.0, 20.2}));
    QVERIFY(axis.to - axis.from >= 4);
}

void TestAxis::limitsAndShadingLieOnTheAxis()
{
    charts::TrendPoints points = numbers({20, 21});
    points.lines[0].limits = charts::TrendLimits{QDate(2026, 1, 1), 20, 5, 40, {}, {}};
    points.lines[0].standardError = 12;
    const auto axis = charts::valueAxis(points);
    QVERIFY(axis.from <= 20 - 1.96 * 12);
    QVERIFY(axis.to >= 21 + 1.96 * 12);
}

void TestAxis::theAxisEndsWithTheScale()
{
    charts::TrendPoints points = numbers({54, 55});
    points.finest = 1;
    points.lowest = 0;
    points.highest = 56;
    points.lines[0].standardError = 3;
    const auto axis = charts::valueAxis(points);
    QVERIFY(axis.ticks.back().at <= 56);
    QVERIFY(axis.to < 58);
}

void TestAxis::gradesStandOnTheirSteps()
{
    charts::TrendPoints points = numbers({1});
    points.steps = {{0, u"0"_s}, {1, u"1"_s}, {2, u"2"_s}};
    const auto axis = charts::valueAxis(points);
    QCOMPARE(words(axis), QStringList({u"0"_s, u"1"_s, u"2"_s}));
    QCOMPARE(axis.share(1), 0.5);
}

HOUSE_TEST(TestAxis)

} // namespace test_axis

#include "test_axis.moc"
