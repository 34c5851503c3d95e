#include "core/judging/change.h"
#include "core/telling/course_words.h"

#include "core/judging/run_trend.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <limits>

using namespace Qt::StringLiterals;

namespace test_course_words
{

using examples::finding;
using examples::visit;
using judging::Change;
using judging::Comparison;
using judging::Course;
using judging::Event;
using judging::RunPoint;
using judging::Trend;
using records::Side;
using records::Visit;
using statistics::FlagRule;
using values::Quantity;
using values::Unit;

const base::Phrasebook english;
const QString speed = u"gait-speed-comfortable"_s;
const records::Conditions unaided = {
    {u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}, {u"medication"_s, u"on"_s}};
constexpr double without = std::numeric_limits<double>::infinity();

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

/// The latest change of speeds measured every 30 days from 12-Jan-2026.
Change walked(const std::vector<double>& speeds, const QString& population = u"parkinson"_s)
{
    std::vector<Visit> visits;
    for (const double metresPerSecond : speeds)
        visits.push_back(visit(u"v%1"_s.arg(visits.size() + 1),
                               QDate(2026, 1, 12).addDays(30 * qint64(visits.size())),
                               {finding(speed, Quantity{metresPerSecond, Unit::MetrePerSecond})}, unaided));
    return judging::latestChanges(visits, examples::patient(population), book()).front();
}

QString strength(const Comparison& comparison, const Change& change)
{
    return telling::strengthWords(comparison, change, book(), english);
}

QString raised(FlagRule rule, int visits, double rate, const records::Judging& judging = {})
{
    return telling::raisedWords({rule, visits, rate}, judging, english);
}

QStringList trend(const Trend& trend, const std::optional<statistics::Slope>& robust)
{
    Course course;
    course.trend = trend;
    return telling::trendWords(course, robust, *book().measure(speed), english);
}

class TestCourseWords : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void strengthSaysHowOftenAndHowLong();
    void aSustainedTrendSaysItsDirection();
    void aChangeAgainstTheLongCourseIsSaidWithItTheWorseFirst();
    void aTrendThatFellIsHistoryAndItsLossIsSaid();
    void aFlagSaysHowOftenItsRuleIsWrong();
    void aReversalIsToldWithItsTwoMeans();
    void theWeightIsSaidInStandardErrorsAndProbabilities();
    void noProbabilityIsCalledCertain();
    void aTrendSaysSlopeIntervalAndTest();
    void aSlopeWithoutBoundIsNotGiven();
    void fewVisitsAreSaidToShowNoSignificance();
    void gradesHaveADirectionOfAgreementOnly();
    void eventsAreSaidWithTheirDay();
    void theCompositeNamesItsRuleAndSource();
};

void TestCourseWords::strengthSaysHowOftenAndHowLong()
{
    const Change once = walked({1.00, 0.98, 0.80});
    QCOMPARE(strength(*once.baseline, once), u"seen once, confirmed if still so after 7 days"_s);
    const Change confirmed = walked({1.00, 0.80, 0.79});
    QCOMPARE(strength(*confirmed.baseline, confirmed),
             u"confirmed: there since 11-Feb-2026, at least 7 days"_s);
    QCOMPARE(strength(*confirmed.previous, confirmed), QString());

    Change open = walked({1.00, 0.80, 0.79});
    open.baseline->strength = judging::Strength::SeenOnce;
    open.course.confirmAfterDays = 84;
    QCOMPARE(strength(*open.baseline, open),
             u"seen since 11-Feb-2026, confirmed if still so after 84 days"_s);
    open.course.confirmAfterDays = 1;
    QCOMPARE(strength(*open.baseline, open), u"seen since 11-Feb-2026, confirmed if still so after 1 day"_s);
}

void TestCourseWords::aSustainedTrendSaysItsDirection()
{
    const Change down = walked({1.00, 0.90, 0.80, 0.70, 0.60});
    QCOMPARE(strength(*down.baseline, down),
             u"sustained decline: the trend of 5 comparable visits, there since 12-Apr-2026"_s);
    const Change up = walked({0.60, 0.70, 0.80, 0.90, 1.00});
    QCOMPARE(strength(*up.baseline, up),
             u"sustained improvement: the trend of 5 comparable visits, there since 12-Apr-2026"_s);
}

/// A scale in quarters of a year; the limit is 5 points.
Change scored(const std::vector<double>& points)
{
    std::vector<Visit> visits;
    for (const double score : points)
        visits.push_back(visit(u"v%1"_s.arg(visits.size() + 1),
                               QDate(2024, 1, 9).addDays(91 * qint64(visits.size())),
                               {finding(u"berg-balance"_s, Quantity{score, Unit::Score})}, unaided));
    return judging::latestChanges(visits, examples::patient(u"parkinson"_s), book()).front();
}

void TestCourseWords::aChangeAgainstTheLongCourseIsSaidWithItTheWorseFirst()
{
    const Change fell = scored({20, 22, 24, 26, 28, 30, 32, 34, 36, 38, 40, 42, 13});
    const QString down = strength(*fell.baseline, fell);
    QVERIFY2(down.startsWith(u"seen once, confirmed if still so after 7 days; "_s), qPrintable(down));
    QVERIFY2(down.contains(u"improvement"_s) && down.contains(u"trend of 13 comparable visits"_s),
             qPrintable(down));
    QVERIFY(!strength(*fell.previous, fell).contains(u"trend"_s));
    const Change rose = scored({42, 40, 38, 36, 34, 32, 30, 28, 26, 24, 22, 20, 49});
    const QString up = strength(*rose.baseline, rose);
    QVERIFY2(up.endsWith(u"; seen once, confirmed if still so after 7 days"_s), qPrintable(up));
    QVERIFY2(up.contains(u"decline"_s) && up.contains(u"trend of 13 comparable visits"_s), qPrintable(up));
}

void TestCourseWords::aTrendThatFellIsHistoryAndItsLossIsSaid()
{
    // The last visit alone is far below: no reversal yet.
    const Change change = scored({20, 25, 30, 35, 40, 45, 45, 14});
    QCOMPARE(
        strength(*change.baseline, change),
        u"seen once, confirmed if still so after 7 days; better in the trend until 08-Jul-2025, since then "
        "worse: −31 points from the best (45 points on 08-Apr-2025), beyond error"_s);
    // Where a reversal is told, it says what was lost.
    const Change turned = scored({30, 34, 38, 42, 46, 42, 38, 34, 30});
    QCOMPARE(turned.baseline->verdict, judging::Verdict::WithinError);
    const QString words = strength(*turned.baseline, turned);
    QVERIFY2(words.startsWith(u"reversal for the worse: mean of the last two visits 32, of 08-Oct-2024 and "
                              "07-Jan-2025 it was 44; "_s),
             qPrintable(words));
    QVERIFY2(words.endsWith(u"; better in the trend until 08-Jul-2025"_s), qPrintable(words));
}

void TestCourseWords::aFlagSaysHowOftenItsRuleIsWrong()
{
    QCOMPARE(raised(FlagRule::FirstVisit, 8, 0.2295),
             u"By this rule (each visit against the first) 23 % of stable people would be flagged at least "
             "once within 8 visits."_s);
    QCOMPARE(raised(FlagRule::Confirmed, 8, 0.0362),
             u"By this rule (against the first visit, and the next one agrees) 3.6 % of stable people would "
             "be flagged at least once within 8 visits."_s);
    QCOMPARE(raised(FlagRule::PreviousVisit, 25, 0.642),
             u"By this rule (each visit against the one before) 64 % of stable people would be flagged at "
             "least once within 25 visits."_s);
    QCOMPARE(
        raised(FlagRule::Trend, 9, 0.0038),
        u"By this rule (the trend, looked at anew at each visit) at most 0.4 % of stable people would be "
        "flagged up to visit 1 of a plan of 8 visits; trend and reversal together at most 5.0 % a plan."_s);
    QCOMPARE(
        raised(FlagRule::Turn, 12, 0.02, {12, {}, records::Strictness::Sensitive}),
        u"By this rule (a reversal, looked for anew at each visit) at most 2.0 % of stable people would be "
        "flagged up to visit 12 of a plan of 12 visits; trend and reversal together at most 10 % a plan."_s);
    QCOMPARE(
        raised(FlagRule::OwnScatter, 6, 0.021),
        u"By this rule (each visit in the patient's own scatter) at most 2.1 % of stable people would be "
        "flagged up to visit 6 of a plan of 8 visits, and at most 5.0 % a plan."_s);
}

/// Berg, Parkinson, quarterly: better than at first and far below the best. The limit is 5 points.
void TestCourseWords::aReversalIsToldWithItsTwoMeans()
{
    std::vector<Visit> visits;
    for (const double points : {30, 34, 38, 42, 46, 46, 34, 30})
        visits.push_back(visit(u"v%1"_s.arg(visits.size() + 1),
                               QDate(2026, 1, 12).addDays(91 * qint64(visits.size())),
                               {finding(u"berg-balance"_s, Quantity{points, Unit::Score})}, unaided));
    const Change change = judging::latestChanges(visits, examples::patient(u"parkinson"_s), book()).front();
    const QString words = strength(*change.baseline, change);
    QVERIFY2(
        words.contains(u"reversal for the worse: mean of the last two visits 32, of 11-Jan-2027 and "
                       "12-Apr-2027 it was 46; seen since 11-Oct-2027, sustained if the next visits agree"_s),
        qPrintable(words));
}

void TestCourseWords::theWeightIsSaidInStandardErrorsAndProbabilities()
{
    // 0.18 m/s is 1.96 standard errors of a difference: 0.20 is 2.18; the normal share below 2.18 is 0.985.
    QCOMPARE(telling::weightWords(*walked({0.80, 1.00}).baseline, book(), english),
             u"The difference is 2.2 standard errors of a difference (z). If the error is normal and nothing "
             "else is known, the true change goes this way with a probability of 99 %."_s);
    // Hosoi 2023: 0.11 m/s at 95 %; Tilson 2010: 0.16 m/s is important. (0.20 − 0.16) / 0.0561 = 0.71: 76 %.
    QCOMPARE(telling::weightWords(*walked({0.50, 0.70}, u"stroke-subacute"_s).baseline, book(), english),
             u"The difference is 3.6 standard errors of a difference (z). If the error is normal and nothing "
             "else is known, the true change goes this way with a probability of more than 99.9 %, and by "
             "more than the important 0.16 m/s with 76 %."_s);
    QCOMPARE(telling::weightWords(*walked({0.80, 0.80}).baseline, book(), english), QString());
}

void TestCourseWords::noProbabilityIsCalledCertain()
{
    Comparison held = *walked({0.80, 1.00}).baseline;
    const auto said = [&](double probability) {
        held.probabilityBeyondZero = probability;
        return telling::weightWords(held, book(), english).section(u"probability of "_s, 1);
    };
    QCOMPARE(said(1.0), u"more than 99.9 %."_s);
    QCOMPARE(said(0.9989), u"99.9 %."_s);
    QCOMPARE(said(0.992), u"99.2 %."_s);
    QCOMPARE(said(0.94), u"94 %."_s);
    QCOMPARE(said(0.5), u"50 %."_s);
}

void TestCourseWords::aTrendSaysSlopeIntervalAndTest()
{
    Trend found;
    found.n = 7;
    found.mayBeSignificant = true;
    const statistics::Slope robust{-0.12, -0.2, -0.04};
    found.p = 0.0028;
    found.efficient = statistics::Slope{-0.11, -0.18, -0.04};
    found.z = -3.2;
    found.bound = 2.75;
    found.error = judging::RunError{false, 0.06, statistics::Scatter{0.1, 4.2}, 0.08};
    QCOMPARE(
        trend(found, robust),
        (QStringList{
            u"The trend is 3.20 standard errors; at this visit more than 2.75 are needed."_s,
            u"Published standard error of one value 0.060 m/s; this patient's own scatter 0.100 m/s (4.2 "
            "degrees of freedom beside the 20 the published one is given); judged by 0.080 m/s."_s,
            u"Slope that is judged, least squares with this error: −0.110 m/s per year (95 % interval −0.180 "
            "m/s to −0.040 m/s)."_s,
            u"Robust slope beside it, Theil–Sen: −0.120 m/s per year (95 % interval −0.200 m/s to −0.040 "
            "m/s); Mann–Kendall p 0.003; 7 visits."_s}));
    found.p = 0.0004;
    QVERIFY(trend(found, robust).back().contains(u"p below 0.001"_s));
    QCOMPARE(telling::trendWords({}, {}, *book().measure(speed), english), QStringList());
}

void TestCourseWords::aSlopeWithoutBoundIsNotGiven()
{
    Trend found;
    found.n = 5;
    found.mayBeSignificant = true;
    found.p = 0.017;
    for (const auto& [low, high] :
         {std::pair(-without, without), std::pair(-without, 0.2), std::pair(-0.1, without)}) {
        const statistics::Slope robust{0.1, low, high};
        QCOMPARE(
            trend(found, robust).front(),
            u"No robust slope (Theil–Sen): these visits do not bound it; Mann–Kendall p 0.017; 5 visits."_s);
    }
    // Nor one that runs past the whole range within a year: 0 to 3.5 m/s.
    QVERIFY(trend(found, statistics::Slope{3, 2, 4}).front().startsWith(u"No robust slope"_s));
}

void TestCourseWords::fewVisitsAreSaidToShowNoSignificance()
{
    const Change change = walked({0.80, 0.85, 0.90, 0.95});
    // All six pairs rise: 2 of 24 orders are as extreme.
    const QString line =
        telling::trendWords(change.course, judging::robustSlope(change.course, *book().measure(speed)),
                            *book().measure(speed), english)
            .back();
    QVERIFY(line.endsWith(u"Mann–Kendall p 0.083; so few visits cannot reach 0.05 whatever they show; "
                          "provisional: 4 visits."_s));
}

void TestCourseWords::gradesHaveADirectionOfAgreementOnly()
{
    Course course;
    QDate day(2026, 1, 12);
    for (const double grade : {1, 2, 2, 3}) {
        course.run.push_back(RunPoint{{day.toString(Qt::ISODate)}, day, grade});
        day = day.addDays(30);
    }
    course.run.push_back(RunPoint{{u"same day"_s}, course.run.back().day, 4});
    course.trend = Trend{};
    course.trend->n = 4;
    course.trend->isProvisional = true;
    QCOMPARE(telling::trendWords(course, {}, *book().measure(u"finger-nose"_s), english),
             QStringList(u"Of 6 pairs of visits 5 rise and 0 fall (0 is best, 4 is worst); a grade has no "
                         "slope; provisional: 4 visits."_s));
}

void TestCourseWords::eventsAreSaidWithTheirDay()
{
    const QDate day(2026, 5, 13);
    const auto said = [&](Event::Kind kind, Side side) {
        return telling::eventWords({{u"v"_s}, day, kind, side}, english);
    };
    QCOMPARE(said(Event::Kind::BecameUnable, Side::Right), u"Became unable on 13-May-2026, right"_s);
    QCOMPARE(said(Event::Kind::BecameAble, Side::None), u"Became able on 13-May-2026"_s);
    QCOMPARE(said(Event::Kind::SidesDiffer, Side::None),
             u"Right and left differ beyond error from 13-May-2026"_s);
    QCOMPARE(said(Event::Kind::SidesAlike, Side::None),
             u"Right and left no longer differ beyond error from 13-May-2026"_s);
}

void TestCourseWords::theCompositeNamesItsRuleAndSource()
{
    const auto at = [](QDate day, double seconds) { return RunPoint{{u"v"_s}, day, seconds}; };
    const judging::CompositeWorsening found{u"nine-hole-peg"_s,    Side::Left,
                                            at({2026, 1, 12}, 20), at({2026, 3, 12}, 25),
                                            at({2026, 6, 12}, 26), 30};
    QCOMPARE(telling::compositeWords(found, book(), english),
             u"Composite confirmed worsening, Nine-hole peg test, left: 20.0 s on 12-Jan-2026, 26.0 s on "
             "12-Jun-2026, 30 % longer; at least 20 % longer since 12-Mar-2026 without a break (rule of "
             "Cadavid et al. 2017, Mult Scler 23:1266, from memory; without its disability scale)."_s);
}

HOUSE_TEST(TestCourseWords)

} // namespace test_course_words

#include "test_course_words.moc"
