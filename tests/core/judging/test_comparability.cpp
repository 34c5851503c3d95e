#include "core/judging/comparability.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_comparability
{

using judging::Comparability;
using judging::Mismatch;
using records::Conditions;

records::Occasion under(const Conditions& conditions)
{
    records::Occasion occasion;
    occasion.conditions = conditions;
    return occasion;
}

Comparability held(const QString& measure, const Conditions& before, const Conditions& now,
                   const QString& population = u"stroke"_s)
{
    static const catalogue::Catalogue book = examples::catalogue();
    return judging::comparability(*book.measure(measure), book, population, under(before), under(now));
}

const QString speed = u"gait-speed-comfortable"_s;
const QString walk = u"ten-metre-walk-time-comfortable"_s;
const QString aid = u"aid"_s;
const QString footwear = u"footwear"_s;
const QString distance = u"distance_m"_s;
const QString medication = u"medication"_s;

class TestComparability : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void equalConditionsCompare();
    void aHardConditionThatDiffersBlocks();
    void unknownIsNotEqual();
    void wordsAreComparedFolded();
    void aTitleEqualsItsKey();
    void numbersAreComparedAsNumbers();
    void aConditionIfRecordedBlocksOnlyWhereBothSay();
    void aConditionOfFewIsSilentWhereNeitherHasIt();
    void aSoftConditionOnlyCautions();
    void medicationIsHardInParkinsonDiseaseAlone();
    void aMeasureWithoutRulesAlwaysCompares();
    void swappingTheVisitsKeepsTheAnswer();
};

void TestComparability::equalConditionsCompare()
{
    const Conditions same = {{aid, u"none"_s}, {footwear, u"shoes"_s}, {distance, u"10"_s}};
    const Comparability found = held(speed, same, same);
    QVERIFY(found.isComparable());
    QVERIFY(found.cautions.empty());
}

void TestComparability::aHardConditionThatDiffersBlocks()
{
    const Comparability found =
        held(speed, {{aid, u"none"_s}, {footwear, u"shoes"_s}}, {{aid, u"stick"_s}, {footwear, u"shoes"_s}});
    QCOMPARE(found.blocking, (std::vector<Mismatch>{{aid, u"none"_s, u"stick"_s}}));
}

void TestComparability::unknownIsNotEqual()
{
    QCOMPARE(held(speed, {}, {}).blocking, (std::vector<Mismatch>{{aid, {}, {}}}));
    QCOMPARE(held(speed, {{aid, u" "_s}}, {{aid, u"none"_s}}).blocking,
             (std::vector<Mismatch>{{aid, {}, u"none"_s}}));
}

void TestComparability::wordsAreComparedFolded()
{
    QVERIFY(held(speed, {{aid, u"Four-point  stick"_s}}, {{aid, u"four point stick"_s}}).isComparable());
    QVERIFY(!held(speed, {{aid, u"+"_s}}, {{aid, u"-"_s}}).isComparable());
}

void TestComparability::aTitleEqualsItsKey()
{
    catalogue::Catalogue book = examples::catalogue();
    book.conditions.front().options = {{u"frame"_s, u"Walking frame"_s}, {u"stick"_s, u"Stick"_s}};
    const auto isComparable = [&](const QString& before, const QString& now) {
        return judging::comparability(*book.measure(speed), book, {}, under({{aid, before}}),
                                      under({{aid, now}}))
            .isComparable();
    };
    QCOMPARE(book.conditions.front().id, aid);
    QVERIFY(isComparable(u"Walking frame"_s, u"frame"_s));
    QVERIFY(isComparable(u"frame"_s, u"Walking frame"_s));
    QVERIFY(!isComparable(u"Walking frame"_s, u"stick"_s));
    QVERIFY(!isComparable(u"frame"_s, u"stick"_s));
}

void TestComparability::numbersAreComparedAsNumbers()
{
    const Conditions before = {{aid, u"none"_s}, {distance, u"10"_s}};
    QVERIFY(held(walk, before, {{aid, u"none"_s}, {distance, u"10.0"_s}}).isComparable());
    QVERIFY(!held(walk, before, {{aid, u"none"_s}, {distance, u"6"_s}}).isComparable());
    QVERIFY(!held(speed, {{aid, u"0"_s}}, {{aid, u"none"_s}}).isComparable()); // a word is no nought
    QVERIFY(!held(speed, {{aid, u"none"_s}}, {{aid, u"0"_s}}).isComparable());
}

void TestComparability::aConditionIfRecordedBlocksOnlyWhereBothSay()
{
    const auto found = [](const QString& before, const QString& now) {
        return held(speed, {{aid, u"none"_s}, {footwear, before}}, {{aid, u"none"_s}, {footwear, now}});
    };
    QVERIFY(!found(u"shoes"_s, u"barefoot"_s).isComparable());
    QVERIFY(found(u"shoes"_s, {}).isComparable());
    QCOMPARE(found(u"shoes"_s, {}).cautions.size(), 1U);
    QCOMPARE(found({}, {}).cautions, (std::vector<Mismatch>{{footwear, {}, {}}}));
}

void TestComparability::aConditionOfFewIsSilentWhereNeitherHasIt()
{
    catalogue::Measure measure = *examples::catalogue().measure(speed);
    measure.conditions = {{u"pump"_s, catalogue::Strictness::IfEither, {}}};
    const auto found = [&](const Conditions& before, const Conditions& now) {
        return judging::comparability(measure, {}, {}, under(before), under(now));
    };
    const Conditions on = {{u"pump"_s, u"on"_s}};
    QVERIFY(found({}, {}).isComparable());
    QVERIFY(found({}, {}).cautions.empty());
    QVERIFY(found(on, {}).isComparable());
    QCOMPARE(found(on, {}).cautions, (std::vector<Mismatch>{{u"pump"_s, u"on"_s, {}}}));
    QVERIFY(!found(on, {{u"pump"_s, u"off"_s}}).isComparable());
}

void TestComparability::aSoftConditionOnlyCautions()
{
    const auto found = [](const QString& before, const QString& now) {
        return held(speed, {{aid, u"none"_s}, {footwear, u"shoes"_s}, {distance, before}},
                    {{aid, u"none"_s}, {footwear, u"shoes"_s}, {distance, now}});
    };
    QVERIFY(found(u"10"_s, u"6"_s).isComparable());
    QCOMPARE(found(u"10"_s, u"6"_s).cautions.size(), 1U);
    QCOMPARE(found(u"10"_s, {}).cautions.size(), 1U);
    QVERIFY(found({}, {}).cautions.empty());
}

void TestComparability::medicationIsHardInParkinsonDiseaseAlone()
{
    const Conditions on = {{aid, u"none"_s}, {medication, u"on"_s}};
    const Conditions off = {{aid, u"none"_s}, {medication, u"off"_s}};
    QVERIFY(!held(speed, on, off, u"parkinson"_s).isComparable());
    const Conditions bare = {{aid, u"none"_s}};
    QCOMPARE(held(speed, bare, bare, u"parkinson"_s).blocking, (std::vector<Mismatch>{{medication, {}, {}}}));
    QVERIFY(held(speed, on, off, u"stroke"_s).isComparable());
    QVERIFY(held(speed, on, off, {}).isComparable());
}

void TestComparability::aMeasureWithoutRulesAlwaysCompares()
{
    QVERIFY(held(u"berg-balance"_s, {{aid, u"none"_s}}, {{aid, u"stick"_s}}).isComparable());
}

void TestComparability::swappingTheVisitsKeepsTheAnswer()
{
    const std::vector<Conditions> all = {{},
                                         {{aid, u"none"_s}},
                                         {{aid, u"stick"_s}, {footwear, u"shoes"_s}},
                                         {{aid, u"none"_s}, {footwear, u"barefoot"_s}, {distance, u"10"_s}},
                                         {{aid, u"none"_s}, {distance, u"6"_s}, {medication, u"on"_s}}};
    for (const Conditions& before : all) {
        for (const Conditions& now : all) {
            const Comparability there = held(speed, before, now, u"parkinson"_s);
            const Comparability back = held(speed, now, before, u"parkinson"_s);
            QCOMPARE(there.blocking.size(), back.blocking.size());
            QCOMPARE(there.cautions.size(), back.cautions.size());
        }
    }
}

HOUSE_TEST(TestComparability)

} // namespace test_comparability

#include "test_comparability.moc"
