#include "core/judging/evidence.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_evidence
{

using catalogue::Answers;
using judging::Circumstances;
using judging::Evidence;
using judging::WhyNot;

const QString speed = u"gait-speed-comfortable"_s;

QString used(const catalogue::Catalogue& book, const QString& measure, const Circumstances& here,
             Answers answers = Answers::Error)
{
    const Evidence found = judging::evidence(book, measure, answers, here);
    return found.used ? found.used->id : QString();
}

QString used(const QString& measure, const Circumstances& here, Answers answers = Answers::Error)
{
    static const catalogue::Catalogue book = examples::catalogue();
    return used(book, measure, here, answers);
}

/// A catalogue with these rows only.
catalogue::Catalogue with(std::vector<catalogue::Threshold> rows)
{
    catalogue::Catalogue book = examples::catalogue();
    book.thresholds = std::move(rows);
    return book;
}

catalogue::Threshold row(const QString& id, int n, const QString& population = u"stroke"_s)
{
    return examples::threshold(id, speed, population, 0.2, u"hosoi"_s, n);
}

catalogue::Threshold betweenDays(catalogue::Threshold row, double days)
{
    row.daysLow = days;
    row.daysHigh = days;
    row.repeats = catalogue::repeatsOf(days);
    return row;
}

class TestEvidence : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aRowOfThePatientsPopulationIsUsed();
    void aBroaderPopulationServesWhereThereIsNoOwn();
    void aNeighbourOrNarrowerPopulationNeverDoes();
    void withoutAPopulationNothingFits();
    void theBandFollowsTheReferenceLevel_data();
    void theBandFollowsTheReferenceLevel();
    void aBandAsksForAKnownLevel();
    void aHandFitsItselfOnly();
    void medicationFitsUnlessRecordedOtherwise();
    void errorAndImportanceAreNeverMixed();
    void theRuleGoesStepByStep();
    void theIntervalNearestToTheGapIsARatio();
    void theLargerNumberThenTheIdDecides();
    void whereTheHandIsNotRecordedEitherFitsAndComesLater();
    void aRowThatDoesNotFitIsNoneOfTheRulesOwn();
    void aConditionMayHoldAlternatives();
    void aClinicianChoosesARowOrItsOtherBands();
    void whatFitsButIsNotUsedIsNamed();
};

void TestEvidence::aRowOfThePatientsPopulationIsUsed()
{
    QCOMPARE(used(speed, {u"parkinson"_s, {}, {}, {}, {}, {}}), u"speed-pd"_s);
}

void TestEvidence::aBroaderPopulationServesWhereThereIsNoOwn()
{
    QCOMPARE(used(u"timed-up-and-go"_s, {u"stroke-chronic"_s, {}, {}, {}, {}, {}}), u"up-stroke"_s);
    const auto book = with({row(u"wide"_s, 900, u"mixed-neurological"_s), row(u"near"_s, 5, u"stroke"_s)});
    QCOMPARE(used(book, speed, {u"stroke-chronic"_s, {}, {}, {}, {}, {}}), u"near"_s);
    QCOMPARE(used(book, speed, {u"parkinson"_s, {}, {}, {}, {}, {}}), u"wide"_s);
}

void TestEvidence::aNeighbourOrNarrowerPopulationNeverDoes()
{
    QCOMPARE(used(u"six-minute-walk"_s, {u"stroke-chronic"_s, {}, {}, {}, {}, {}}), QString());
    QCOMPARE(used(u"six-minute-walk"_s, {u"stroke"_s, {}, {}, {}, {}, {}}), QString());
    QCOMPARE(used(u"six-minute-walk"_s, {u"stroke-subacute"_s, {}, {}, {}, {}, {}}), u"six-stroke"_s);
}

void TestEvidence::withoutAPopulationNothingFits()
{
    QCOMPARE(used(speed, {}), QString());
    QCOMPARE(used(speed, {u"unknown"_s, {}, {}, {}, {}, {}}), QString());
}

void TestEvidence::theBandFollowsTheReferenceLevel_data()
{
    QTest::addColumn<QString>("measure");
    QTest::addColumn<QString>("population");
    QTest::addColumn<QString>("bandOf");
    QTest::addColumn<double>("level");
    QTest::addColumn<QString>("id");
    const QString berg = u"berg-balance"_s;
    // Donoghue & Stokes 2009: 0–24, 25–34, 35–44, 45–56, both ends included.
    for (const auto& [level, id] : {std::pair(0.0, "berg-older-0"), std::pair(24.0, "berg-older-0"),
                                    std::pair(25.0, "berg-older-25"), std::pair(34.0, "berg-older-25"),
                                    std::pair(35.0, "berg-older-35"), std::pair(44.0, "berg-older-35"),
                                    std::pair(45.0, "berg-older-45"), std::pair(56.0, "berg-older-45")})
        QTest::addRow("Berg %g", level)
            << berg << u"older-adults"_s << berg << level << QString::fromLatin1(id);
    // Hosoi 2023: below 0.4, 0.4 to below 0.8, from 0.8 m/s, for speed and for time.
    for (const auto& [level, id] :
         {std::pair(0.39, "speed-stroke-0"), std::pair(0.1 + 0.3, "speed-stroke-0.4"),
          std::pair(0.79, "speed-stroke-0.4"), std::pair(0.8, "speed-stroke-0.8"),
          std::pair(1.4, "speed-stroke-0.8")})
        QTest::addRow("speed %g", level) << speed << u"stroke"_s << speed << level << QString::fromLatin1(id);
    QTest::newRow("time by speed") << u"ten-metre-walk-time-comfortable"_s << u"stroke"_s << speed << 0.5
                                   << u"walk-stroke-0.4"_s;
}

void TestEvidence::theBandFollowsTheReferenceLevel()
{
    QFETCH(QString, measure);
    QFETCH(QString, population);
    QFETCH(QString, bandOf);
    QFETCH(double, level);
    QTEST(used(measure, {population, {}, {{bandOf, level}}, {}, {}, {}}), "id");
}

void TestEvidence::aBandAsksForAKnownLevel()
{
    QCOMPARE(used(u"berg-balance"_s, {u"older-adults"_s, {}, {}, {}, {}, {}}), QString());
    QCOMPARE(used(u"berg-balance"_s, {u"older-adults"_s, {}, {{u"berg-balance"_s, 24.5}}, {}, {}, {}}),
             QString());
}

void TestEvidence::aHandFitsItselfOnly()
{
    const QString peg = u"nine-hole-peg"_s;
    QCOMPARE(used(peg, {u"multiple-sclerosis"_s, u"dominant"_s, {}, {}, {}, {}}), u"peg-ms-dominant"_s);
    QCOMPARE(used(peg, {u"multiple-sclerosis"_s, u"non-dominant"_s, {}, {}, {}, {}}),
             u"peg-ms-non-dominant"_s);
    QVERIFY(
        used(peg, {u"multiple-sclerosis"_s, {}, {}, {}, {}, {}}).startsWith(u"peg-ms-"_s)); // not recorded
}

void TestEvidence::medicationFitsUnlessRecordedOtherwise()
{
    auto onMedication = row(u"on"_s, 88, u"parkinson"_s);
    onMedication.condition = {u"medication"_s, {u"on"_s}};
    const auto book = with({onMedication});
    const auto usedWith = [&](const QString& medication) {
        return used(book, speed, {u"parkinson"_s, {}, {}, {{u"medication"_s, medication}}, {}, {}});
    };
    QCOMPARE(usedWith(u"ON"_s), u"on"_s);
    QCOMPARE(usedWith({}), u"on"_s);
    QCOMPARE(usedWith(u"off"_s), QString());
}

void TestEvidence::errorAndImportanceAreNeverMixed()
{
    const Circumstances here = {u"stroke-subacute"_s, {}, {{speed, 0.9}}, {}, {}, {}};
    QCOMPARE(used(speed, here, Answers::Important), u"speed-important"_s);
    QCOMPARE(used(speed, here, Answers::Error), u"speed-stroke-0.8"_s);
}

void TestEvidence::theRuleGoesStepByStep()
{
    // From the best to the worst: each row is better than the one after it at one step of the rule only.
    auto nearest = betweenDays(row(u"z-nearest"_s, 1), 90);
    nearest.condition = {u"aid"_s, {u"stick"_s, u"none"_s}};
    auto farther = betweenDays(row(u"y-farther"_s, 900), 7);
    farther.condition = nearest.condition;
    auto unknownDays = farther;
    unknownDays.id = u"x-unknown-days"_s;
    unknownDays.daysLow.reset();
    unknownDays.daysHigh.reset();
    unknownDays.repeats = catalogue::Repeats::BetweenDays;
    const auto everybody = betweenDays(row(u"w-everybody"_s, 900), 90);
    auto unrecorded = everybody;
    unrecorded.id = u"v-unrecorded"_s;
    unrecorded.condition = {u"medication"_s, {u"on"_s}};
    auto memory = nearest;
    memory.id = u"u-memory"_s;
    memory.checked = catalogue::Checked::Memory;
    const auto session = betweenDays(row(u"t-session"_s, 900), 0);
    auto raters = nearest;
    raters.id = u"s-raters"_s;
    raters.design = catalogue::Design::BetweenRaters;
    auto wider = nearest;
    wider.id = u"r-wider"_s;
    wider.population = u"mixed-neurological"_s;
    const std::vector<catalogue::Threshold> best = {nearest, farther, unknownDays, everybody, unrecorded,
                                                    memory,  session, raters,      wider};
    const Circumstances here = {u"stroke"_s, {}, {}, {{u"aid"_s, u"Stick"_s}}, 92, {}};
    const Evidence found = judging::evidence(with({best.rbegin(), best.rend()}), speed, Answers::Error, here);
    QCOMPARE(found.used->id, best.front().id);
    QCOMPARE(found.notUsed.size(), best.size() - 1);
    const std::vector<WhyNot> reasons = {WhyNot::OtherInterval, WhyNot::OtherInterval,  WhyNot::ForEverybody,
                                         WhyNot::ForEverybody,  WhyNot::FromMemory,     WhyNot::WithinSession,
                                         WhyNot::OtherDesign,   WhyNot::WiderPopulation};
    for (size_t index = 0; index < found.notUsed.size(); ++index) {
        QCOMPARE(found.notUsed[index].id, best[index + 1].id);
        QCOMPARE(judging::whyNot(found.notUsed[index], *found.used, with(best), here), reasons[index]);
    }
}

void TestEvidence::theIntervalNearestToTheGapIsARatio()
{
    // 20 days lie nearer to 14 than to 30 as a ratio of days + 1: 21/15 against 31/21.
    const auto book = with({betweenDays(row(u"fortnight"_s, 5), 14), betweenDays(row(u"month"_s, 5), 30)});
    const auto usedAfter = [&](double days) {
        return used(book, speed, {u"stroke"_s, {}, {}, {}, days, {}});
    };
    QCOMPARE(usedAfter(20), u"fortnight"_s);
    QCOMPARE(usedAfter(21), u"month"_s);
    QCOMPARE(usedAfter(400), u"month"_s);
    auto half = betweenDays(row(u"half"_s, 90), 400);
    half.daysHigh.reset();
    QCOMPARE(
        used(with({half, betweenDays(row(u"month"_s, 5), 30)}), speed, {u"stroke"_s, {}, {}, {}, 400, {}}),
        u"month"_s); // an interval with one end is not known
}

void TestEvidence::theLargerNumberThenTheIdDecides()
{
    auto uncounted = row(u"a"_s, 20);
    uncounted.n.reset();
    const auto book = with({uncounted, row(u"c"_s, 30), row(u"b"_s, 30)});
    const Circumstances here = {u"stroke"_s, {}, {}, {}, {}, {}};
    const Evidence found = judging::evidence(book, speed, Answers::Error, here);
    QCOMPARE(found.used->id, u"b"_s);
    QCOMPARE(judging::whyNot(found.notUsed[0], *found.used, book, here), WhyNot::LaterId);
    QCOMPARE(judging::whyNot(found.notUsed[1], *found.used, book, here), WhyNot::FewerPeople);
    QCOMPARE(used(with({uncounted, row(u"z"_s, 1)}), speed, here), u"z"_s);
}

void TestEvidence::aRowThatDoesNotFitIsNoneOfTheRulesOwn()
{
    const auto fits = row(u"fits"_s, 5);
    const auto stranger = row(u"stranger"_s, 90, u"parkinson"_s);
    const auto book = with({fits, stranger});
    const Circumstances here = {u"stroke"_s, {}, {}, {}, {}, {}};
    QCOMPARE(judging::whyNot(fits, stranger, book, here), WhyNot::ChosenOtherwise);
    QCOMPARE(judging::whyNot(stranger, fits, book, here), WhyNot::ChosenOtherwise);
}

void TestEvidence::aConditionMayHoldAlternatives()
{
    auto unaided = row(u"unaided"_s, 22);
    unaided.condition = {u"aid"_s, {u"none"_s, u"supervision"_s}};
    const auto book = with({unaided, row(u"all"_s, 35)});
    const auto usedWith = [&](const QString& aid) {
        return used(book, speed, {u"stroke"_s, {}, {}, {{u"aid"_s, aid}}, {}, {}});
    };
    QCOMPARE(usedWith(u"none"_s), u"unaided"_s);
    QCOMPARE(usedWith(u"Supervision"_s), u"unaided"_s);
    QCOMPARE(usedWith(u"minimal"_s), u"all"_s);
    QCOMPARE(usedWith({}), u"all"_s);
}

void TestEvidence::aClinicianChoosesARowOrItsOtherBands()
{
    const auto banded = [&](const QString& id, double low, std::optional<double> high) {
        auto made = examples::banded(row(id, 10), speed, low, high, false);
        made.source = u"fulk"_s;
        return made;
    };
    const auto book = with({row(u"rule"_s, 90), banded(u"low"_s, 0, 0.4), banded(u"high"_s, 0.4, {}),
                            row(u"neighbour"_s, 90, u"parkinson"_s)});
    const auto found = [&](const QString& chosen, double level) {
        return judging::evidence(book, speed, Answers::Error,
                                 {u"stroke"_s, {}, {{speed, level}}, {}, {}, chosen});
    };
    QCOMPARE(found({}, 0.3).used->id, u"rule"_s);
    QVERIFY(!found({}, 0.3).isChosen);
    QCOMPARE(found(u"low"_s, 0.3).used->id, u"low"_s);
    QVERIFY(found(u"low"_s, 0.3).isChosen);
    QCOMPARE(found(u"low"_s, 0.9).used->id, u"high"_s);
    QVERIFY(found(u"low"_s, 0.9).isChosen);
    QCOMPARE(found(u"neighbour"_s, 0.3).used->id, u"rule"_s);
    QVERIFY(!found(u"neighbour"_s, 0.3).isChosen);
    QCOMPARE(found(u"gone"_s, 0.3).used->id, u"rule"_s);
    QCOMPARE(judging::whyNot(found(u"low"_s, 0.3).notUsed[0], *found(u"low"_s, 0.3).used, book,
                             {u"stroke"_s, {}, {{speed, 0.3}}, {}, {}, u"low"_s}),
             WhyNot::ChosenOtherwise);
}

void TestEvidence::whatFitsButIsNotUsedIsNamed()
{
    const auto book = with(
        {row(u"small"_s, 3), row(u"other"_s, 50, u"parkinson"_s), row(u"large"_s, 30), row(u"mid"_s, 9)});
    const Evidence found = judging::evidence(book, speed, Answers::Error, {u"stroke"_s, {}, {}, {}, {}, {}});
    QCOMPARE(found.used->id, u"large"_s);
    QCOMPARE(found.notUsed.size(), 2U);
    QCOMPARE(found.notUsed[0].id, u"mid"_s);
    QCOMPARE(found.notUsed[1].id, u"small"_s);
}

void TestEvidence::whereTheHandIsNotRecordedEitherFitsAndComesLater()
{
    auto dominant = row(u"dominant"_s, 90);
    dominant.hand = u"dominant"_s;
    auto other = row(u"other"_s, 80);
    other.hand = u"non-dominant"_s;
    const auto either = row(u"either"_s, 10);
    const Circumstances unknown = {u"stroke"_s, {}, {}, {}, {}, {}};
    const Evidence found = judging::evidence(with({dominant, other, either}), speed, Answers::Error, unknown);
    QCOMPARE(found.used->id, u"either"_s);
    QCOMPARE(found.notUsed.size(), size_t(2));
    QCOMPARE(judging::whyNot(found.notUsed[0], *found.used, with({dominant, other, either}), unknown),
             WhyNot::OneHand);
    QCOMPARE(used(with({dominant, other, either}), speed, {u"stroke"_s, u"dominant"_s, {}, {}, {}, {}}),
             u"dominant"_s);
    QCOMPARE(used(with({other}), speed, {u"stroke"_s, u"dominant"_s, {}, {}, {}, {}}), QString());
}

HOUSE_TEST(TestEvidence)

} // namespace test_evidence

#include "test_evidence.moc"
