#include "core/telling/wording.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_course_cautions
{

using examples::finding;
using examples::visit;
using judging::Change;
using judging::Comparison;
using records::Visit;
using values::Quantity;
using values::Unit;

const base::Phrasebook english;
const QString speed = u"gait-speed-comfortable"_s;
const records::Conditions unaided = {
    {u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}, {u"medication"_s, u"on"_s}};
const QString unusualDay =
    u"The first result stands apart and all later ones lie within error of the second: it may have been an "
    "unusual day. Look also at the comparison with the mean of the first two."_s;

/// The latest change of speeds measured every 30 days.
Change walked(const std::vector<double>& speeds, const catalogue::Catalogue& book,
              const QString& population = u"parkinson"_s)
{
    std::vector<Visit> visits;
    for (const double metresPerSecond : speeds)
        visits.push_back(visit(u"v%1"_s.arg(visits.size() + 1),
                               QDate(2026, 1, 12).addDays(30 * qint64(visits.size())),
                               {finding(speed, Quantity{metresPerSecond, Unit::MetrePerSecond})}, unaided));
    return judging::latestChanges(visits, examples::patient(population), book).front();
}

QStringList cautions(const Change& change, const Comparison& comparison, const catalogue::Catalogue& book)
{
    return telling::cautions(change, comparison, book, english);
}

catalogue::Catalogue practised(int visits)
{
    catalogue::Catalogue book = examples::catalogue();
    for (catalogue::Measure& measure : book.measures)
        measure.practice = catalogue::Practice{visits, u"Invented: the second walk is faster."_s};
    return book;
}

class TestCourseCautions : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void practiceConcernsTheFirstVisitsOnly();
    void aFirstResultThatStandsApartIsSaid_data();
    void aFirstResultThatStandsApartIsSaid();
    void onlyAgainstTheFirstVisitItIsSaid();
    void aGapFarBeyondTheRetestIntervalIsSaid();
    void anotherBandIsSaidWithItsThreshold();
    void meansNarrowTheLimitInAStepOfItsOwn();
};

void TestCourseCautions::practiceConcernsTheFirstVisitsOnly()
{
    const QString line =
        u"The reference visit holds an early test of this patient, so practice alone may improve the "
        "result. Invented: the second walk is faster."_s;
    const auto isSaid = [&](int visits, bool ofPrevious) {
        const catalogue::Catalogue book = practised(visits);
        const Change change = walked({0.80, 0.81, 0.82}, book);
        return cautions(change, ofPrevious ? *change.previous : *change.baseline, book).contains(line);
    };
    QVERIFY(isSaid(1, false));
    QVERIFY(!isSaid(1, true));
    QVERIFY(isSaid(2, true));
    QVERIFY(isSaid(9, true));
}

void TestCourseCautions::aFirstResultThatStandsApartIsSaid_data()
{
    // Steffen & Seney 2008: 0.18 m/s is error in Parkinson disease.
    QTest::addColumn<std::vector<double>>("speeds");
    QTest::addColumn<bool>("isSaid");
    QTest::newRow("apart") << std::vector{0.70, 1.00, 0.98, 1.02} << true;
    QTest::newRow("two visits") << std::vector{0.70, 1.00} << false;
    QTest::newRow("no jump") << std::vector{0.90, 1.00, 1.05} << false;
    QTest::newRow("goes on") << std::vector{0.70, 1.00, 1.20} << false;
    QTest::newRow("exactly the error") << std::vector{0.82, 1.00, 1.00} << false;
}

void TestCourseCautions::aFirstResultThatStandsApartIsSaid()
{
    QFETCH(std::vector<double>, speeds);
    const catalogue::Catalogue book = examples::catalogue();
    const Change change = walked(speeds, book);
    QTEST(cautions(change, *change.baseline, book).contains(unusualDay), "isSaid");
}

void TestCourseCautions::onlyAgainstTheFirstVisitItIsSaid()
{
    const catalogue::Catalogue book = examples::catalogue();
    const Change change = walked({0.70, 1.00, 0.98}, book);
    QVERIFY(!cautions(change, *change.previous, book).contains(unusualDay));
    QVERIFY(!cautions(change, *change.firstTwo, book).contains(unusualDay));
}

void TestCourseCautions::aGapFarBeyondTheRetestIntervalIsSaid()
{
    const auto lines = [](double daysHigh) {
        catalogue::Catalogue book = examples::catalogue();
        for (catalogue::Threshold& row : book.thresholds)
            row.daysHigh = daysHigh;
        const Change change = walked({0.80, 0.81}, book);
        return cautions(change, *change.baseline, book);
    };
    QVERIFY(
        lines(3).contains(u"The visits lie 30 days apart; the error was measured over at most 3 days."_s));
    QVERIFY(lines(1).contains(u"The visits lie 30 days apart; the error was measured over at most 1 day."_s));
    for (const double daysHigh : {0.0, 0.5, 3.1})
        QVERIFY(lines(daysHigh).filter(u"days apart"_s).isEmpty());
}

void TestCourseCautions::anotherBandIsSaidWithItsThreshold()
{
    // Hosoi 2023: 0.11 m/s between 0.4 and 0.8 m/s, 0.21 m/s from 0.8 m/s on.
    const catalogue::Catalogue book = examples::catalogue();
    const Change change = walked({0.70, 0.80}, book, u"stroke"_s);
    QVERIFY(cautions(change, *change.baseline, book)
                .contains(u"The two visits lie in different bands of the row; the threshold of the present "
                          "one is 0.21 m/s."_s));
    const Change within = walked({0.70, 0.79}, book, u"stroke"_s);
    QVERIFY(cautions(within, *within.baseline, book).filter(u"bands"_s).isEmpty());
}

void TestCourseCautions::meansNarrowTheLimitInAStepOfItsOwn()
{
    const catalogue::Catalogue book = examples::catalogue();
    const Change change = walked({1.00, 0.90, 0.80}, book);
    // Against a mean of two: √((1/2 + 1)/2) = 0.866; 0.18 · 0.866 = 0.156.
    const QStringList steps = telling::arithmetic(*change.firstTwo, book, english);
    QCOMPARE(steps.mid(steps.size() - 2),
             (QStringList{u"Means of trials or visits: × √((1/nb + 1/nc)/2) = 0.87: 0.156 m/s"_s,
                          u"0.15 m/s < 0.156 m/s: within error"_s}));
    QVERIFY(telling::arithmetic(*change.baseline, book, english).filter(u"√"_s).isEmpty());
}

HOUSE_TEST(TestCourseCautions)

} // namespace test_course_cautions

#include "test_course_cautions.moc"
