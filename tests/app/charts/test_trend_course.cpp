#include "app/charts/trend_chart.h"
#include "app/charts/trend_words.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QLineSeries>

#include <cmath>

using namespace Qt::StringLiterals;

namespace test_trend_course
{

using charts::TrendPoints;
using examples::finding;
using examples::visit;
using judging::Event;
using records::Side;
using records::Visit;
using values::Quantity;
using values::Unit;

const QString walk = u"ten-metre-walk-time-comfortable"_s;
const QString peg = u"nine-hole-peg"_s;

Visit walked(QDate day, double seconds, const QString& aid = u"none"_s)
{
    return visit(day.toString(Qt::ISODate), day, {finding(walk, Quantity{seconds, Unit::Second})},
                 {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}});
}

Visit pegs(QDate day, std::optional<double> right, double left)
{
    return visit(day.toString(Qt::ISODate), day,
                 {finding(peg, right ? values::Value(Quantity{*right, Unit::Second}) : examples::unable(),
                          Side::Right),
                  finding(peg, Quantity{left, Unit::Second}, Side::Left)});
}

TrendPoints pointsAt(const QString& measure, const std::vector<Visit>& visits, size_t now,
                     std::optional<Side> side = {})
{
    records::Patient patient = examples::patient(u"multiple-sclerosis"_s);
    patient.dominantHand = records::Hand::Right;
    return charts::trendPoints({measure, side, visits.at(now).id, {}}, visits, patient, examples::catalogue(),
                               {});
}

const std::vector<Visit> five{walked({2025, 1, 6}, 20), walked({2025, 3, 3}, 21.5), walked({2025, 6, 2}, 19),
                              walked({2025, 9, 1}, 17.5), walked({2026, 1, 5}, 18)};
const std::vector<Visit> six{five[0], five[1], five[2], five[3], five[4], walked({2026, 4, 6}, 17)};

/// Five visits of the peg test, for which an error is published: of the logarithm.
const std::vector<Visit> pegged{pegs({2025, 1, 6}, 20, 21), pegs({2025, 3, 3}, 21, 21),
                                pegs({2025, 6, 2}, 23, 21), pegs({2025, 9, 1}, 24, 21),
                                pegs({2026, 1, 5}, 27, 21)};

/// The thin lines of a chart, by the width of their pen.
QList<QLineSeries*> slopesOf(const charts::TrendChart& chart)
{
    QList<QLineSeries*> slopes;
    for (QAbstractSeries* series : chart.series()) {
        auto* line = qobject_cast<QLineSeries*>(series);
        if (line != nullptr && line->pen().style() == Qt::CustomDashLine)
            slopes << line;
    }
    return slopes;
}

class TestTrendCourse : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theRobustLineIsThatOfSciPy();
    void theLineThatJudgesIsDrawnFirst();
    void theLineEndsAtThisVisit();
    void anUnboundedSlopeIsNotDrawn();
    void onlyTheRunOfThisVisitIsDrawnThrough();
    void gradesHaveNoLine();
    void theLineIsDrawnThinAndBetweenItsDays();
    void turnsAndSidesAreEvents();
    void oneSideAskedAloneHasItsOwnEvents();
    void withoutEventsThereIsNoRowForThem();
};

/// scipy.stats.theilslopes(y, x, method='joint') of SciPy 1.10.1, x in years of 365.25 days.
void TestTrendCourse::theRobustLineIsThatOfSciPy()
{
    const auto points = pointsAt(walk, six, 5);
    const auto& slopes = points.lines.at(0).slopes;
    QCOMPARE(slopes.size(), size_t(1)); // no error is published for it here, so nothing judges
    QVERIFY(!slopes[0].judges);
    QCOMPARE(slopes[0].points.front().first, QDate(2025, 1, 6));
    QCOMPARE(slopes[0].points.back().first, QDate(2026, 4, 6));
    QCOMPARE(slopes[0].points.front().second, 20.047619047619047);
    QCOMPARE(slopes[0].points.back().second, 16.952380952380953);
    QVERIFY(!slopes[0].isProvisional);
    QVERIFY(points.remarks.contains(
        u"Thin dotted line: a robust slope beside it, Theil–Sen; it judges nothing."_s));
}

/// Least squares through the logarithms, worked out here again.
void TestTrendCourse::theLineThatJudgesIsDrawnFirst()
{
    const auto points = pointsAt(peg, pegged, 4, Side::Right);
    const auto& slopes = points.lines.at(0).slopes;
    QVERIFY(!slopes.empty());
    QVERIFY(slopes[0].judges);
    QCOMPARE(slopes[0].points.size(), size_t(5));
    std::vector<double> years;
    std::vector<double> logarithms;
    for (const auto& [day, seconds] : {std::pair(QDate(2025, 1, 6), 20.0),
                                       {QDate(2025, 3, 3), 21.0},
                                       {QDate(2025, 6, 2), 23.0},
                                       {QDate(2025, 9, 1), 24.0},
                                       {QDate(2026, 1, 5), 27.0}}) {
        years.push_back(double(QDate(2025, 1, 6).daysTo(day)));
        logarithms.push_back(std::log(seconds));
    }
    double x = 0;
    double y = 0;
    for (size_t i = 0; i < years.size(); ++i) {
        x += years[i] / 5;
        y += logarithms[i] / 5;
    }
    double squares = 0;
    double products = 0;
    for (size_t i = 0; i < years.size(); ++i) {
        squares += (years[i] - x) * (years[i] - x);
        products += (years[i] - x) * (logarithms[i] - y);
    }
    for (size_t i = 0; i < years.size(); ++i)
        QVERIFY(std::abs(slopes[0].points[i].second - std::exp(y + products / squares * (years[i] - x))) <
                1e-9);
    QVERIFY(points.remarks.contains(u"Thin dashed line: the trend that is judged, least squares."_s));
}

void TestTrendCourse::theLineEndsAtThisVisit()
{
    const auto slopes = pointsAt(peg, pegged, 3, Side::Right).lines.at(0).slopes;
    QCOMPARE(slopes.size(), size_t(1));
    QCOMPARE(slopes[0].points.back().first, QDate(2025, 9, 1));
    QCOMPARE(slopes[0].visits, 4);
    QVERIFY(slopes[0].isProvisional);
}

void TestTrendCourse::anUnboundedSlopeIsNotDrawn()
{
    QVERIFY(pointsAt(walk, five, 1).lines.at(0).trend.isEmpty());
    const auto points = pointsAt(walk, five, 2);
    QVERIFY(points.lines.at(0).slopes.empty());
    QVERIFY(points.lines.at(0).trend.join(u' ').contains(u"No robust slope"_s));
    QVERIFY(pointsAt(peg, pegged, 1, Side::Right).lines.at(0).slopes.empty());
}

void TestTrendCourse::onlyTheRunOfThisVisitIsDrawnThrough()
{
    auto visits = six;
    visits.insert(visits.begin(), walked({2024, 6, 3}, 60, u"stick"_s));
    visits.insert(visits.begin() + 3, walked({2025, 4, 7}, 50, u"stick"_s));
    const auto slopes = pointsAt(walk, visits, 7).lines.at(0).slopes;
    QCOMPARE(slopes.size(), size_t(1));
    QCOMPARE(slopes[0].visits, 6);
    QCOMPARE(slopes[0].points.front().second, 20.047619047619047);
    QCOMPARE(slopes[0].points.back().second, 16.952380952380953);
}

void TestTrendCourse::gradesHaveNoLine()
{
    std::vector<Visit> visits;
    for (int month = 1; month <= 5; ++month)
        visits.push_back(visit(u"v%1"_s.arg(month), {2025, month, 6},
                               {finding(u"finger-nose"_s, values::Grade{month > 2 ? 1 : 3}, Side::Right)}));
    const auto points = pointsAt(u"finger-nose"_s, visits, 4);
    QCOMPARE(points.lines.size(), 1U);
    QVERIFY(points.lines.at(0).slopes.empty());
    QVERIFY(!points.lines.at(0).trend.isEmpty());
    for (const QString& remark : points.remarks)
        QVERIFY2(!remark.startsWith(u"Thin"_s), qPrintable(remark));
}

void TestTrendCourse::theLineIsDrawnThinAndBetweenItsDays()
{
    const charts::TrendChart chart(pointsAt(walk, six, 5), charts::paperLook(), {});
    const auto slopes = slopesOf(chart);
    QCOMPARE(slopes.size(), 1);
    QCOMPARE(slopes[0]->pen().widthF(), 1.0);
    QCOMPARE(slopes[0]->count(), 2);
    QCOMPARE(slopes[0]->at(0).x(), double(QDate(2025, 1, 6).toJulianDay()));
    QCOMPARE(slopes[0]->at(1).x(), double(QDate(2026, 4, 6).toJulianDay()));
    const charts::TrendChart bent(pointsAt(peg, pegged, 4, Side::Right), charts::paperLook(), {});
    QCOMPARE(slopesOf(bent).front()->count(), 5);
    const charts::TrendChart few(pointsAt(walk, five, 1), charts::paperLook(), {});
    QVERIFY(slopesOf(few).isEmpty());
}

void TestTrendCourse::turnsAndSidesAreEvents()
{
    // Rows of the examples for multiple sclerosis: 20 % for either hand and more.
    const auto points = pointsAt(peg,
                                 {pegs({2025, 1, 6}, 20, 21), pegs({2025, 3, 3}, 20, 40),
                                  pegs({2025, 6, 2}, {}, 41), pegs({2025, 9, 1}, 41, 40)},
                                 3);
    QStringList labels;
    for (const charts::TrendEvent& event : points.events)
        labels << event.label;
    QCOMPARE(labels, (QStringList{u"sides differ"_s, u"right became unable"_s, u"right became able"_s,
                                  u"sides alike"_s}));
    QCOMPARE(points.events.at(0).day, QDate(2025, 3, 3));
    const QString words = charts::spoken(points, {});
    for (const charts::TrendEvent& event : points.events)
        QVERIFY2(words.contains(event.words), qPrintable(words));
    const auto frame = charts::frame(points, {}, {1000, charts::heightFor(points, {})});
    QCOMPARE(frame.events.top(), frame.lane.bottom());
    QCOMPARE(frame.events.bottom(), frame.dates.top());
    QCOMPARE(frame.events.height(), frame.row);
}

void TestTrendCourse::oneSideAskedAloneHasItsOwnEvents()
{
    const auto points =
        pointsAt(peg, {pegs({2025, 1, 6}, 20, 21), pegs({2025, 3, 3}, 20, 40), pegs({2025, 6, 2}, {}, 41)}, 2,
                 Side::Right);
    QCOMPARE(points.events.size(), 1U);
    QCOMPARE(points.events.at(0).kind, Event::Kind::BecameUnable);
}

void TestTrendCourse::withoutEventsThereIsNoRowForThem()
{
    const auto points = pointsAt(walk, five, 4);
    QVERIFY(points.events.empty());
    const auto frame = charts::frame(points, {}, {1000, charts::heightFor(points, {})});
    QCOMPARE(frame.events.height(), 0.0);
    QCOMPARE(frame.dates.top(), frame.lane.bottom());
}

HOUSE_TEST(TestTrendCourse)

} // namespace test_trend_course

#include "test_trend_course.moc"
