#include "core/judging/service_report.h"

#include "core/statistics/distributions.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <random>

using namespace Qt::StringLiterals;

namespace test_service_report
{

using judging::Period;
using judging::ServiceReport;
using judging::ServiceRow;
using statistics::Quartiles;

const Period spring{QDate(2026, 3, 1), QDate(2026, 5, 31)};
const QDate march(2026, 3, 1);
const QDate may(2026, 5, 31);
const QString sixMinutes = u"six-minute-walk"_s;

values::Value metres(double number)
{
    return values::Quantity{number, values::Unit::Metre};
}

/// Stroke is reviewed after four weeks.
records::Clinic withReviews()
{
    records::Clinic clinic;
    clinic.reviews = {{records::ReviewInterval::Of::Population, u"stroke"_s, 4}};
    return clinic;
}

/// A clinic of invented people that is counted as it comes in.
class Service
{
public:
    explicit Service(const Period& period = spring) : m_tally(period, m_book, m_clinic) {}

    void add(const QString& population, const std::vector<records::Visit>& visits,
             const std::vector<records::LetterSigned>& letters = {})
    {
        m_tally.add(examples::patient(population), visits, letters);
    }

    /// One who has these values of a measure on the first and the last day of the spring.
    void addCourse(const values::Value& first, const values::Value& latest,
                   const QString& measure = sixMinutes, const QString& population = u"stroke-subacute"_s,
                   records::Side side = records::Side::None)
    {
        add(population, {examples::visit(u"a"_s, march, {examples::finding(measure, first, side)}),
                         examples::visit(u"b"_s, may, {examples::finding(measure, latest, side)})});
    }

    ServiceReport report() const { return m_tally.report(); }
    /// Of the only measure there is.
    ServiceRow row() const
    {
        const auto rows = report().rows;
        return rows.size() == 1 ? rows.front() : ServiceRow();
    }

private:
    catalogue::Catalogue m_book = examples::catalogue();
    records::Clinic m_clinic = withReviews();
    judging::ServiceTally m_tally;
};

class TestServiceReport : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theLatestIsHeldAgainstTheFirstInThePeriod();
    void whatLiesOutsideThePeriodIsNotLookedAt();
    void aPeriodWithoutVisitsIsEmpty();
    void ofStablePeopleErrorAloneCallsOneInFortyWorse();
    void betterAndWorseGoByTheThreshold();
    void unableIsCountedByItsTurn();
    void underOtherConditionsNothingIsCompared();
    void gradesHaveStepsAndNoError();
    void sidesAreCountedApart();
    void rowsFollowTheCatalogueAndNotStatedIsLast();
    void fewerThanFiveAreNotCountedOut();
    void aFewAreNotLeftByTheOthers();
    void theSmallerPartIsNotTold();
    void whatFollowsWhatIsNotComparableCounts();
    void fewerThanFivePatientsTellNothing();
    void draftsAndCompleteVisitsAreCounted();
    void aLetterAboutAnyVersionCounts();
    void theLettersOfFourPatientsTellNoDays();
    void whoIsDueOnTheLastDayIsCounted();
    void aFewDueAndAFewNotDueAreNotTold();
};

/// Python: statistics.quantiles([100, 200, 300, 400, 500, 600], n=4, method='inclusive').
void TestServiceReport::theLatestIsHeldAgainstTheFirstInThePeriod()
{
    Service service;
    for (int each = 1; each <= 6; ++each) {
        service.add(u"stroke-subacute"_s,
                    {examples::visit(u"a"_s, march, {examples::finding(sixMinutes, metres(each * 100))}),
                     examples::visit(u"b"_s, march.addDays(30), {examples::finding(sixMinutes, metres(900))}),
                     examples::visit(u"c"_s, may, {examples::finding(sixMinutes, metres(each * 100 + 1))})});
    }
    const ServiceRow row = service.row();
    QCOMPARE(row.measure, sixMinutes);
    QCOMPARE(row.population, u"stroke-subacute"_s);
    QCOMPARE(row.patients, std::optional(6));
    QCOMPARE(row.first, (Quartiles{225, 350, 475}));
    QCOMPARE(row.latest, (Quartiles{226, 351, 476}));
    QCOMPARE(row.judged, std::optional(6));
    QVERIFY(std::abs(*row.expectedFalse() - 0.3) < 1e-12);
}

void TestServiceReport::whatLiesOutsideThePeriodIsNotLookedAt()
{
    Service service;
    for (int each = 0; each < 5; ++each) {
        service.add(u"stroke-subacute"_s,
                    {examples::visit(u"a"_s, march.addDays(-1), {examples::finding(sixMinutes, metres(10))}),
                     examples::visit(u"b"_s, march, {examples::finding(sixMinutes, metres(300))}),
                     examples::visit(u"c"_s, may, {examples::finding(sixMinutes, metres(310))}),
                     examples::visit(u"d"_s, may.addDays(1), {examples::finding(sixMinutes, metres(990))})});
    }
    QCOMPARE(service.report().counts->visits, 10);
    QCOMPARE(service.row().first->median, 300.0);
    QCOMPARE(service.row().latest->median, 310.0);
    QVERIFY(!service.row().better);
}

void TestServiceReport::aPeriodWithoutVisitsIsEmpty()
{
    const Period before{QDate(1990, 1, 1), QDate(1990, 12, 31)};
    Service service(before);
    service.addCourse(metres(300), metres(310));
    QCOMPARE(service.report(), (ServiceReport{before, true, {}, {}}));
}

/// Fulk 2008: MDC90 54.1 m, so an SEM of 54.1 / (1.645 · √2). R: qbinom(c(.025, .975), 2000, .025) is 37 and
/// 64; of both directions, .05, 81 and 120.
void TestServiceReport::ofStablePeopleErrorAloneCallsOneInFortyWorse()
{
    std::mt19937 engine(20261130);
    const auto normal = [&] { return statistics::normalValueAt((double(engine()) + 0.5) / 4294967296.0); };
    constexpr double error = 54.1 / (1.6448536 * 1.4142136);
    Service service;
    for (int person = 0; person < 2000; ++person) {
        const double truth = 400 + 50 * normal();
        std::vector<records::Visit> visits;
        for (int visit = 0; visit < 3; ++visit)
            visits.push_back(
                examples::visit(QString::number(visit), march.addDays(30 * visit),
                                {examples::finding(sixMinutes, metres(truth + error * normal()))}));
        service.add(u"stroke-subacute"_s, visits);
    }
    const ServiceRow row = service.row();
    QCOMPARE(row.judged, std::optional(2000));
    QVERIFY(std::abs(*row.expectedFalse() - 100) < 1e-9);
    QVERIFY2(*row.worse >= 37 && *row.worse <= 64, qPrintable(QString::number(*row.worse)));
    const int both = *row.worse + *row.better;
    QVERIFY2(both >= 81 && both <= 120, qPrintable(QString::number(both)));
}

/// Fulk 2008: 54.1 m · 1.96 / 1.645 = 64.5 m at 95 %.
void TestServiceReport::betterAndWorseGoByTheThreshold()
{
    Service service;
    for (int each = 0; each < 7; ++each)
        service.addCourse(metres(300), metres(365));
    for (int each = 0; each < 6; ++each)
        service.addCourse(metres(300), metres(235));
    for (int each = 0; each < 5; ++each)
        service.addCourse(metres(300), metres(364));
    QCOMPARE(service.row().patients, std::optional(18));
    QCOMPARE(service.row().judged, std::optional(18));
    QCOMPARE(service.row().better, std::optional(7));
    QCOMPARE(service.row().worse, std::optional(6));
}

void TestServiceReport::unableIsCountedByItsTurn()
{
    Service service;
    for (int each = 0; each < 5; ++each)
        service.addCourse(metres(300), examples::unable());
    for (int each = 0; each < 6; ++each)
        service.addCourse(examples::unable(), metres(300));
    for (int each = 0; each < 7; ++each)
        service.addCourse(examples::unable(), examples::unable());
    const ServiceRow row = service.row();
    QCOMPARE(row.patients, std::optional(18));
    QCOMPARE(row.becameUnable, std::optional(5));
    QCOMPARE(row.becameAble, std::optional(6));
    QVERIFY(!row.judged && !row.better && !row.worse && !row.first && !row.latest && !row.expectedFalse());
}

void TestServiceReport::underOtherConditionsNothingIsCompared()
{
    Service service;
    const auto walk = [](const QString& id, QDate day, const QString& aid) {
        return examples::visit(id, day,
                               {examples::finding(u"ten-metre-walk-time-comfortable"_s,
                                                  values::Quantity{10, values::Unit::Second})},
                               {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}});
    };
    for (int each = 0; each < 5; ++each)
        service.add(u"stroke"_s, {walk(u"a"_s, march, u"none"_s), walk(u"b"_s, may, u"stick"_s)});
    QCOMPARE(service.report().counts->patients, 5);
    QVERIFY(service.report().rows.empty());
}

void TestServiceReport::gradesHaveStepsAndNoError()
{
    Service service;
    for (const int step : {0, 1, 2, 2, 3, 4})
        service.addCourse(values::Grade{step}, values::Grade{std::min(step + 1, 4)}, u"finger-nose"_s,
                          u"cerebellar-ataxia"_s, records::Side::Left);
    QCOMPARE(service.row().first, (Quartiles{1, 2, 3}));
    QCOMPARE(service.row().latest, (Quartiles{2, 3, 4}));
    QVERIFY(!service.row().judged && !service.row().worse);
}

void TestServiceReport::sidesAreCountedApart()
{
    Service service;
    for (int each = 0; each < 5; ++each) {
        for (const auto side : {records::Side::Left, records::Side::Right})
            service.addCourse(values::Grade{1}, values::Grade{2}, u"finger-nose"_s, {}, side);
    }
    const auto rows = service.report().rows;
    QCOMPARE(rows.size(), size_t(2));
    QCOMPARE(rows[0].side, records::Side::Right);
    QCOMPARE(rows[1].side, records::Side::Left);
    QCOMPARE(rows[1].patients, std::optional(5));
}

void TestServiceReport::rowsFollowTheCatalogueAndNotStatedIsLast()
{
    Service service;
    for (int each = 0; each < 5; ++each) {
        for (const QString& population : {QString(), u"parkinson"_s, u"stroke"_s}) {
            service.addCourse(values::Quantity{40, values::Unit::Score},
                              values::Quantity{41, values::Unit::Score}, u"berg-balance"_s, population);
            service.addCourse(metres(300), metres(310), sixMinutes, population);
        }
    }
    QStringList order;
    for (const ServiceRow& row : service.report().rows)
        order += row.population + u"/"_s + row.measure;
    QCOMPARE(order, (QStringList{u"stroke/six-minute-walk"_s, u"stroke/berg-balance"_s,
                                 u"parkinson/six-minute-walk"_s, u"parkinson/berg-balance"_s,
                                 u"/six-minute-walk"_s, u"/berg-balance"_s}));
}

void TestServiceReport::fewerThanFiveAreNotCountedOut()
{
    Service service;
    for (int each = 0; each < 4; ++each)
        service.addCourse(metres(300), metres(500));
    service.add(u"parkinson"_s, {examples::visit(u"a"_s, march, {})});
    ServiceRow hidden;
    hidden.population = u"stroke-subacute"_s;
    hidden.measure = sixMinutes;
    QCOMPARE(service.row(), hidden);
    service.addCourse(metres(300), metres(500));
    QCOMPARE(service.row().patients, std::optional(5));
    QCOMPARE(service.row().better, std::optional(5));
    QVERIFY(!service.row().worse); // none is fewer than five too, or a few would stand out
}

/// Of 14 judged 6 are better and 5 worse, which would leave 3 within error.
void TestServiceReport::aFewAreNotLeftByTheOthers()
{
    Service service;
    for (int each = 0; each < 6; ++each)
        service.addCourse(metres(300), metres(500));
    for (int each = 0; each < 5; ++each)
        service.addCourse(metres(300), metres(100));
    QCOMPARE(service.row().worse, std::optional(5)); // none is left
    for (int each = 0; each < 3; ++each)
        service.addCourse(metres(300), metres(300));
    QCOMPARE(service.row().judged, std::optional(14));
    QCOMPARE(service.row().better, std::optional(6));
    QVERIFY(!service.row().worse);
}

/// Of equal parts the second; of the turns among those whom no error judges.
void TestServiceReport::theSmallerPartIsNotTold()
{
    Service equal;
    for (int each = 0; each < 5; ++each) {
        equal.addCourse(metres(300), metres(500));
        equal.addCourse(metres(300), metres(100));
    }
    equal.addCourse(metres(300), metres(300)); // one is left
    QCOMPARE(equal.row().better, std::optional(5));
    QVERIFY(!equal.row().worse);

    Service turns;
    for (int each = 0; each < 6; ++each)
        turns.addCourse(metres(300), metres(310));
    for (int each = 0; each < 5; ++each)
        turns.addCourse(metres(300), examples::unable());
    for (int each = 0; each < 6; ++each)
        turns.addCourse(examples::unable(), metres(300));
    QCOMPARE(turns.row().becameUnable, std::optional(5));
    for (int each = 0; each < 3; ++each)
        turns.addCourse(examples::unable(), examples::unable());
    QCOMPARE(turns.row().becameAble, std::optional(6));
    QVERIFY(!turns.row().becameUnable); // three would be left
}

void TestServiceReport::whatFollowsWhatIsNotComparableCounts()
{
    Service service;
    const auto seen = [](const QString& id, QDate day, const QString& aid) {
        return examples::visit(
            id, day,
            {examples::finding(u"ten-metre-walk-time-comfortable"_s,
                               values::Quantity{10, values::Unit::Second}),
             examples::finding(u"berg-balance"_s, values::Quantity{40, values::Unit::Score})},
            {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}});
    };
    for (int each = 0; each < 5; ++each)
        service.add(u"stroke"_s, {seen(u"a"_s, march, u"none"_s), seen(u"b"_s, may, u"stick"_s)});
    QCOMPARE(service.row().measure, u"berg-balance"_s);
}

void TestServiceReport::fewerThanFivePatientsTellNothing()
{
    Service service;
    for (int each = 0; each < 4; ++each)
        service.addCourse(metres(300), metres(500));
    QCOMPARE(service.report(), (ServiceReport{spring, false, {}, {}}));
}

/// The form asks for all its measures each time: here the walk alone.
void TestServiceReport::draftsAndCompleteVisitsAreCounted()
{
    catalogue::Catalogue book = examples::catalogue();
    book.forms.front().sections.front().measures = {sixMinutes, u"berg-balance"_s};
    book.forms.front().expected = {sixMinutes};
    const records::Clinic clinic;
    judging::ServiceTally tally(spring, book, clinic);
    for (int each = 0; each < 5; ++each) {
        auto draft = examples::visit(u"b"_s, may, {examples::finding(sixMinutes, values::Missing{})});
        draft.state = records::VisitState::Draft;
        tally.add(
            examples::patient({}),
            {examples::visit(u"a"_s, march, {examples::finding(sixMinutes, examples::unable())}), draft}, {});
    }
    tally.add(examples::patient({}), {examples::visit(u"a"_s, march, {})}, {});
    const auto counts = tally.report().counts;
    QCOMPARE(counts->patients, 6);
    QCOMPARE(counts->visits, 11);
    QCOMPARE(counts->signedVisits, 6);
    QCOMPARE(counts->drafts, 5);
    QCOMPARE(counts->complete, 5);
    QCOMPARE(counts->withoutLetter, 6);
}

/// In Kathmandu, where the tests live, 20:00 UTC is the next day.
void TestServiceReport::aLetterAboutAnyVersionCounts()
{
    Service service;
    for (int each = 1; each <= 5; ++each) {
        auto amended = examples::visit(u"a2"_s, march, {});
        amended.series = {u"a"_s};
        const auto at = [](int days) { return QDateTime(march.addDays(days), QTime(20, 0), Qt::UTC); };
        auto draft = examples::visit(u"draft"_s, march, {});
        draft.state = records::VisitState::Draft;
        service.add({}, {draft, amended, examples::visit(u"b"_s, may, {})},
                    {{{u"a"_s}, at(each + 40)}, {{u"a"_s}, at(each)}, {{u"elsewhere"_s}, at(0)}});
    }
    const auto counts = service.report().counts;
    QCOMPARE(counts->withLetter, 5);
    QCOMPARE(counts->withoutLetter, 5);
    QCOMPARE(counts->daysToLetter, (Quartiles{3, 4, 5}));
}

void TestServiceReport::theLettersOfFourPatientsTellNoDays()
{
    Service service;
    for (int each = 0; each < 4; ++each)
        service.add({}, {examples::visit(u"a"_s, march, {}), examples::visit(u"b"_s, may, {})},
                    {{{u"a"_s}, may.startOfDay()}, {{u"b"_s}, may.startOfDay()}});
    service.add({}, {examples::visit(u"a"_s, march, {})});
    QCOMPARE(service.report().counts->withLetter, 8);
    QVERIFY(!service.report().counts->daysToLetter);
}

void TestServiceReport::whoIsDueOnTheLastDayIsCounted()
{
    Service service;
    const auto seen = [&](const QString& population, QDate day, int people) {
        for (int each = 0; each < people; ++each)
            service.add(population, {examples::visit(u"a"_s, day, {})});
    };
    seen(u"stroke-chronic"_s, may.addDays(-28), 5);   // due on the last day
    seen(u"stroke-chronic"_s, march.addDays(-90), 1); // before the period, overdue
    seen(u"stroke-chronic"_s, may.addDays(-27), 6);
    seen(u"stroke-chronic"_s, may.addDays(1), 7); // not seen yet
    seen(u"parkinson"_s, march, 8);               // without an interval
    auto draft = examples::visit(u"b"_s, may, {});
    draft.state = records::VisitState::Draft;
    service.add(u"stroke"_s,
                {examples::visit(u"a"_s, march, {}), draft, examples::visit(u"c"_s, may.addDays(1), {})});
    const auto counts = service.report().counts;
    QCOMPARE(counts->patients, 5 + 6 + 8 + 1);
    QCOMPARE(counts->withInterval, std::optional(5 + 1 + 6 + 1));
    QCOMPARE(counts->due, std::optional(5 + 1 + 1));
}

void TestServiceReport::aFewDueAndAFewNotDueAreNotTold()
{
    Service service;
    const auto seen = [&](QDate day, int people) {
        for (int each = 0; each < people; ++each)
            service.add(u"stroke"_s, {examples::visit(u"a"_s, day, {})});
    };
    seen(march, 4);
    service.add({}, {examples::visit(u"a"_s, march, {})});
    QVERIFY(!service.report().counts->withInterval && !service.report().counts->due);
    seen(may, 8);
    QCOMPARE(service.report().counts->withInterval, std::optional(12));
    QVERIFY(!service.report().counts->due); // four
    seen(march, 1);
    QCOMPARE(service.report().counts->due, std::optional(5));
    Service other;
    for (int each = 0; each < 9; ++each)
        other.add(u"stroke"_s, {examples::visit(u"a"_s, each < 5 ? march : may, {})});
    QVERIFY(!other.report().counts->due); // four would be left
    Service all;
    for (int each = 0; each < 5; ++each)
        all.add(u"stroke"_s, {examples::visit(u"a"_s, march, {})});
    QCOMPARE(all.report().counts->due, std::optional(5));
    all.add(u"stroke"_s, {examples::visit(u"a"_s, may, {})});
    QVERIFY(!all.report().counts->due); // one would be left
}

HOUSE_TEST(TestServiceReport)

} // namespace test_service_report

#include "test_service_report.moc"
