#include "core/records/declared.h"

#include "core/judging/change.h"
#include "core/judging/declared.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_declared
{

using judging::Verdict;
using records::Conditions;
using records::DeclaredEqual;
using records::Visit;

const QString walk = u"ten-metre-walk-time-comfortable"_s;

Visit walked(int day, double seconds, const Conditions& conditions)
{
    return examples::visit(u"v%1"_s.arg(day), {2026, 3, day},
                           {examples::finding(walk, values::Quantity{seconds, values::Unit::Second})},
                           conditions);
}

DeclaredEqual equal(int earlier, int later, bool isTakenBack = false)
{
    return {walk,        {u"v%1"_s.arg(earlier)}, {u"v%1"_s.arg(later)},
            isTakenBack, u"seen by both of us"_s, u"A. Invented"_s,
            {}};
}

judging::Comparison held(const std::vector<Visit>& visits, const std::vector<DeclaredEqual>& declared)
{
    records::Patient patient = examples::patient(u"stroke"_s);
    patient.declared = declared;
    const auto changes = judging::latestChanges(visits, patient, examples::catalogue());
    const auto found = std::ranges::find(changes, walk, &judging::Change::measure);
    return *found->baseline;
}

const Conditions all = {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}};
const Conditions withoutAid = {{u"distance_m"_s, u"10"_s}};

class TestDeclared : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatWasNotRecordedMayBeDeclaredEqual();
    void whatDiffersMayNot();
    void aWordTakenBackNoLongerCounts();
    void itReachesAcrossVisits();
    void neitherRecordedIsEqualOnlyToItself();
    void itHoldsForItsTwoVisitsAlone();
    void theWordsItRestsOnAreNamed();
    void itHoldsForItsMeasureAlone();
    void whatNobodyAsksForIsNotHeldApart();
};

void TestDeclared::whatWasNotRecordedMayBeDeclaredEqual()
{
    const std::vector<Visit> visits = {walked(1, 12, withoutAid), walked(9, 10, all)};
    QCOMPARE(held(visits, {}).verdict, Verdict::NotComparable);
    const auto comparison = held(visits, {equal(1, 9)});
    QVERIFY(comparison.verdict != Verdict::NotComparable);
    QCOMPARE(comparison.comparability.declared, (std::vector<judging::Mismatch>{{u"aid"_s, {}, u"none"_s}}));
    QVERIFY(comparison.reference.conditions.find(u"aid"_s) == comparison.reference.conditions.end());
}

void TestDeclared::whatDiffersMayNot()
{
    const Conditions stick = {{u"aid"_s, u"stick"_s}, {u"distance_m"_s, u"10"_s}};
    QCOMPARE(held({walked(1, 12, stick), walked(9, 10, all)}, {equal(1, 9)}).verdict, Verdict::NotComparable);
}

void TestDeclared::aWordTakenBackNoLongerCounts()
{
    const std::vector<Visit> visits = {walked(1, 12, withoutAid), walked(9, 10, all)};
    QCOMPARE(held(visits, {equal(1, 9), equal(1, 9, true)}).verdict, Verdict::NotComparable);
    QVERIFY(held(visits, {equal(1, 9, true), equal(9, 1)}).verdict != Verdict::NotComparable);
}

void TestDeclared::itReachesAcrossVisits()
{
    const std::vector<Visit> visits = {walked(1, 12, withoutAid), walked(5, 11, withoutAid),
                                       walked(9, 10, all)};
    QCOMPARE(held(visits, {equal(1, 5), equal(5, 9)}).reference.visit.text, u"v1"_s);
    QVERIFY(held(visits, {equal(1, 5), equal(5, 9)}).comparability.isComparable());
}

void TestDeclared::neitherRecordedIsEqualOnlyToItself()
{
    const std::vector<Visit> both = {walked(1, 12, withoutAid), walked(5, 11, withoutAid)};
    QVERIFY(held(both, {equal(1, 5)}).comparability.isComparable());
    const std::vector<Visit> three = {both[0], both[1], walked(9, 10, all)};
    QCOMPARE(held(three, {equal(1, 5)}).verdict, Verdict::NotComparable);
}

/// Two visits where the same was left out; one of them is declared equal to the last.
void TestDeclared::itHoldsForItsTwoVisitsAlone()
{
    const auto comparison =
        held({walked(1, 14, withoutAid), walked(5, 12, withoutAid), walked(9, 10, all)}, {equal(5, 9)});
    QCOMPARE(comparison.reference.visit.text, u"v5"_s);
}

void TestDeclared::theWordsItRestsOnAreNamed()
{
    const auto named = [](const std::vector<Visit>& visits, const std::vector<DeclaredEqual>& words) {
        records::Patient patient = examples::patient(u"stroke"_s);
        patient.declared = words;
        QStringList pairs;
        for (const DeclaredEqual& word :
             judging::declarations(held(visits, words), patient, examples::catalogue()))
            pairs += word.earlier.text + word.later.text;
        return pairs.join(u' ');
    };
    const auto bare = [](int day) { return walked(day, 12, withoutAid); };
    const Visit now = walked(9, 10, all);
    // The word about the two themselves is enough.
    QCOMPARE(named({bare(1), bare(5), now}, {equal(1, 5), equal(1, 9)}), u"v1v9"_s);
    // What the other visit rests on is not asked: it recorded the condition itself.
    QCOMPARE(named({bare(1), walked(5, 12, all), bare(7), now}, {equal(1, 5), equal(7, 9)}), u"v1v5"_s);
    // A chain is followed in whatever order it was declared.
    QCOMPARE(
        named({bare(1), bare(3), bare(5), walked(7, 12, all), now}, {equal(5, 7), equal(3, 5), equal(1, 3)}),
        u"v5v7 v3v5 v1v3"_s);
}

void TestDeclared::itHoldsForItsMeasureAlone()
{
    DeclaredEqual other = equal(1, 9);
    other.measure = u"gait-speed-comfortable"_s;
    QCOMPARE(held({walked(1, 12, withoutAid), walked(9, 10, all)}, {other}).verdict, Verdict::NotComparable);
}

void TestDeclared::whatNobodyAsksForIsNotHeldApart()
{
    catalogue::Catalogue catalogue = examples::catalogue();
    for (catalogue::Measure& measure : catalogue.measures)
        measure.conditions = {{u"aid"_s, catalogue::Strictness::Hard, {}},
                              {u"medication"_s, catalogue::Strictness::Hard, u"parkinson"_s},
                              {u"start"_s, catalogue::Strictness::IfEither, {}},
                              {u"footwear"_s, catalogue::Strictness::Soft, {}}};
    const std::vector<Visit> visits = {walked(1, 12, all), walked(2, 12, {}), walked(5, 11, all),
                                       walked(9, 10, {})};
    records::Patient patient = examples::patient(u"stroke"_s);
    patient.declared = {equal(1, 2), equal(5, 9)};
    const auto changes = judging::changesAt(visits[3].id, visits[1].id, visits, patient, catalogue);
    const auto found = std::ranges::find(changes, walk, &judging::Change::measure);
    QVERIFY(found->chosen->comparability.isComparable());
    QVERIFY(found->chosen->comparability.cautions.empty());
}

HOUSE_TEST(TestDeclared)

} // namespace test_declared

#include "test_declared.moc"
