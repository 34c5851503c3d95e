#include "core/judging/change.h"
#include "core/telling/course_words.h"

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

QString raised(FlagRule rule, int visits, double rate, int plannedVisits = 8)
{
    return telling::raisedWords({rule, visits, rate}, plannedVisits, english);
}

QStringList trend(const Trend& trend, const QString& measure = speed)
{
    Course course;
    course.trend = trend;
    return telling::trendWords(course, *book().measure(measure), english);
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
    const Change fell = scored({20, 25, 30, 35, 40, 45, 45, 14});
    QCOMPARE(
        strength(*fell.baseline, fell),
        u"seen once, confirmed if still so after 7 days; improvement in the trend of 8 comparable visits, "
        "seen since 09-Jul-2024, sustained if the next visits agree"_s);
    QVERIFY(!strength(*fell.previous, fell).contains(u"trend"_s));
    const Change rose = scored({45, 40, 35, 30, 25, 20, 20, 51});
    QCOMPARE(strength(*rose.baseline, rose),
             u"decline in the trend of 8 comparable visits, seen since 09-Jul-2024, sustained if the next "
             "visits agree; seen once, confirmed if still so after 7 days"_s);
}

void TestCourseWords::aTrendThatFellIsHistoryAndItsLossIsSaid()
{
    const Change change = scored({30, 34, 38, 42, 46, 42, 38, 34, 30});
    QCOMPARE(change.baseline->verdict, judging::Verdict::WithinError);
    QCOMPARE(
        strength(*change.baseline, change),
        u"better in the trend until 07-Oct-2025, since then worse: −16 points from the best (46 points on "
        "07-Jan-2025), beyond error"_s);
    const Change down = scored({46, 42, 38, 34, 30, 34, 38, 42, 46});
    QCOMPARE(strength(*down.baseline, down), u"worse in the trend until 07-Oct-2025"_s);
}

void TestCourseWords::aFlagSaysHowOftenItsRuleIsWrong()
{
    QCOMPARE(raised(FlagRule::FirstVisit, 8, 0.2295),
             u"By this rule (each visit against the first) 23 % of stable people would be flagged at least "
             "once within 8 visits."_s);
    QCOMPARE(raised(FlagRule::Confirmed, 8, 0.0362),
             u"By this rule (against the first visit, and the next one agrees) 3.6 % of stable people would "
             "be flagged at least once within 8 visits."_s);
    QCOMPARE(raised(FlagRule::PreviousVisit, 25, 0.5696),
             u"By this rule (each visit against the one before) at least 57 % of stable people would be "
             "flagged at least once within 25 visits."_s);
    QCOMPARE(raised(FlagRule::Sequential, 9, 0.0372),
             u"By this rule (the trend, looked at anew at each visit) 3.7 % of stable people would be "
             "flagged at least once within 9 visits."_s);
    QCOMPARE(raised(FlagRule::Sequential, 12, 0.05, 12),
             u"By this rule (the trend, looked at anew at each visit) at most 5.0 % of stable people would "
             "be flagged at least once within 12 visits."_s);
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
    found.perYear = statistics::Slope{-0.12, -0.2, -0.04};
    found.p = 0.0028;
    found.efficient = statistics::Slope{-0.11, -0.18, -0.04};
    found.z = -3.2;
    found.bound = 2.75;
    QCOMPARE(
        trend(found),
        (QStringList{
            u"Theil–Sen slope −0.120 m/s per year (95 % interval −0.200 m/s to −0.040 m/s); Mann–Kendall "
            "p 0.003; 7 visits."_s,
            u"Least squares with the published error: −0.110 m/s per year (95 % interval −0.180 m/s to "
            "−0.040 m/s)."_s,
            u"The trend is 3.20 standard errors; at this visit more than 2.75 are needed."_s}));
    found.p = 0.0004;
    QVERIFY(trend(found).front().contains(u"p below 0.001"_s));
    QCOMPARE(telling::trendWords({}, *book().measure(speed), english), QStringList());
}

void TestCourseWords::aSlopeWithoutBoundIsNotGiven()
{
    Trend found;
    found.n = 5;
    found.mayBeSignificant = true;
    found.p = 0.017;
    for (const auto& [low, high] :
         {std::pair(-without, without), std::pair(-without, 0.2), std::pair(-0.1, without)}) {
        found.perYear = statistics::Slope{0.1, low, high};
        QCOMPARE(trend(found).front(),
                 u"No Theil–Sen slope: so few visits do not bound it; Mann–Kendall p 0.017; 5 visits."_s);
    }
}

void TestCourseWords::fewVisitsAreSaidToShowNoSignificance()
{
    const Change change = walked({0.80, 0.85, 0.90, 0.95});
    // All six pairs rise: 2 of 24 orders are as extreme.
    const QString line = telling::trendWords(change.course, *book().measure(speed), english).front();
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
    QCOMPARE(telling::trendWords(course, *book().measure(u"finger-nose"_s), english),
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
