#include "core/judging/drift.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

namespace test_drift
{

using namespace judging;
using namespace Qt::StringLiterals;

/// A glance at numbers that each differ by as much from their first comparable result, within error.
struct Numbers {
    catalogue::Catalogue book = examples::catalogue();
    Glance glance;

    explicit Numbers(const std::vector<double>& differences)
    {
        for (const double difference : differences)
            add(u"hold-%1"_s.arg(glance.changes.size()), difference);
    }

    /// A number of which more is better.
    catalogue::Measure& add(const QString& id, double difference)
    {
        catalogue::Measure measure = *book.measure(u"romberg-eyes-closed"_s);
        measure.id = id;
        book.measures.push_back(measure);
        Comparison held;
        held.measure = id;
        held.difference = difference;
        held.verdict = Verdict::WithinError;
        Change change;
        change.measure = id;
        change.previous = change.baseline = held;
        glance.order.push_back(glance.changes.size());
        glance.changes.push_back(change);
        glance.outcomes.emplace_back();
        return book.measures.back();
    }

    std::optional<Drift> drift() const { return driftOf(glance, book); }
};

class TestDrift : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// The p are R's binom.test(a, n)$p.value: 6 of 6 0.03125, 8 of 9 0.0390625, 8 of 10 0.109375.
    void onlyMoreThanChanceIsADrift()
    {
        QVERIFY(!Numbers({-1, -1, -1, -1, -1}).drift()); // 0.0625
        QCOMPARE(Numbers({-1, -2, -1, -3, -1, -1}).drift(), (Drift{Verdict::Worse, 6, 6, 0.03125}));
        QCOMPARE(Numbers({1, 1, 1, 1, 1, 1, 1, 1, -1}).drift(), (Drift{Verdict::Better, 8, 9, 0.0390625}));
        QVERIFY(!Numbers({-1, -1, -1, -1, -1, -1, -1, -1, 1, 1}).drift());
        QVERIFY(!Numbers({}).drift());
    }

    void whatDidNotMoveDoesNotCount()
    {
        QVERIFY(!Numbers({-1, -1, -1, -1, -1, 0, 0, 0}).drift());
        QCOMPARE(Numbers({-1, -1, -1, -1, -1, -1, 0}).drift()->all, 6);
    }

    void theWayIsThatOfEachMeasure()
    {
        Numbers numbers({-1, -1, -1, -1, -1});
        numbers.add(u"time"_s, 1).better = catalogue::Direction::LowerIsBetter;
        QCOMPARE(numbers.drift()->agreeing, 6);
        numbers.add(u"cadence"_s, 1).better = catalogue::Direction::Neither;
        QCOMPARE(numbers.drift()->all, 6);
    }

    void onlyWhatIsWithinErrorCounts()
    {
        Numbers numbers({-1, -1, -1, -1, -1, -1});
        numbers.glance.outcomes[0].kind = OutcomeKind::Worse;
        QVERIFY(!numbers.drift());
        Numbers unjudged({-1, -1, -1, -1, -1, -1});
        unjudged.glance.changes[0].baseline->verdict = Verdict::StepWorse;
        QVERIFY(!unjudged.drift());
        Numbers without({-1, -1, -1, -1, -1, -1});
        without.glance.changes[0].baseline->difference.reset();
        QVERIFY(!without.drift());
        Numbers more({-1, -1, -1, -1, -1, -1, -1});
        more.glance.outcomes[0].kind = OutcomeKind::Worse;
        QCOMPARE(more.drift()->all, 6);
    }

    void nothingCountsTwice()
    {
        Numbers timed({-1, -1, -1, -1, -1});
        timed.add(u"speed"_s, -1).computed = {catalogue::Computing::Speed, {u"hold-0"_s}};
        QVERIFY(!timed.drift());
        Numbers scale({-1, -1, -1, -1});
        scale.add(u"total"_s, -1);
        scale.add(u"item"_s, -1).partOf = u"total"_s;
        QVERIFY(!scale.drift());
    }

    void whatIsSaidOnceCounts()
    {
        Numbers timed({-1, -1, -1, -1, -1});
        timed.add(u"speed"_s, -1).computed = {catalogue::Computing::Speed, {u"long-gone"_s}};
        QCOMPARE(timed.drift()->all, 6);
        Numbers item({-1, -1, -1, -1, -1});
        item.add(u"item"_s, -1).partOf = u"total"_s; // which was not recorded
        QCOMPARE(item.drift()->all, 6);
        Numbers total({-1, -1, -1, -1, -1});
        total.add(u"total"_s, -1).computed = {catalogue::Computing::SumOfItems, {u"item"_s}};
        total.add(u"item"_s, -1).partOf = u"total"_s;
        QCOMPARE(total.drift()->all, 6);
    }

    void whatIsLeftOutOfALetterCountsNot()
    {
        Numbers numbers({-1, -1, -1, -1, -1, -1});
        numbers.glance.order.pop_back();
        QVERIFY(!numbers.drift());
    }
};

HOUSE_TEST(TestDrift)

} // namespace test_drift

#include "test_drift.moc"
