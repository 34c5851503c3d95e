#include "core/judging/declared.h"
#include "core/telling/declared_words.h"

#include "core/judging/change.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_declared_words
{

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
    return {walk,
            {u"v%1"_s.arg(earlier)},
            {u"v%1"_s.arg(later)},
            isTakenBack,
            u"seen in the film of %1 March"_s.arg(earlier),
            u"A. Halden"_s,
            QDateTime(QDate(2026, 3, 20), QTime(9, 0), Qt::UTC)};
}

/// The first visit's result against the last one's, with the words that were given.
struct Held {
    std::vector<Visit> visits;
    records::Patient patient = examples::patient(u"stroke"_s);
    catalogue::Catalogue catalogue = examples::catalogue();

    Held(std::vector<Visit> seen, const std::vector<DeclaredEqual>& declared) : visits(std::move(seen))
    {
        patient.declared = declared;
    }

    judging::Comparison comparison() const
    {
        const auto changes =
            judging::changesAt(visits.back().id, visits.front().id, visits, patient, catalogue);
        const auto found = std::ranges::find(changes, walk, &judging::Change::measure);
        return *found->chosen;
    }
    bool mayBeDeclared() const { return judging::mayBeDeclaredEqual(comparison(), patient); }
    QString words() const { return telling::declaredWords(comparison(), patient, visits, catalogue, {}); }
};

const Conditions all = {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}};
const Conditions withoutAid = {{u"distance_m"_s, u"10"_s}};
const Conditions withStick = {{u"aid"_s, u"stick"_s}, {u"distance_m"_s, u"10"_s}};

class TestDeclaredWords : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void onlyWhatWasNotRecordedMayBeDeclared();
    void aRecordedDifferenceMayNot();
    void whatCountsAsSomethingElseMayNot();
    void theWordNamesDaysPersonAndReason();
    void eachVisitIsNamedWithWhatItLacks();
    void wordsByWayOfOthersAreTold();
    void aStrangerWordIsNotTold();
    void whatWasTakenBackIsNotTold();
    void theNewestWordIsTold();
    void anAmendmentLeavesNothingToTell();
};

void TestDeclaredWords::onlyWhatWasNotRecordedMayBeDeclared()
{
    QVERIFY(Held({walked(1, 12, withoutAid), walked(9, 10, all)}, {}).mayBeDeclared());
    QVERIFY(Held({walked(1, 12, withoutAid), walked(9, 10, withoutAid)}, {}).mayBeDeclared());
    QVERIFY(!Held({walked(1, 12, all), walked(9, 10, all)}, {}).mayBeDeclared());
    QVERIFY(!Held({walked(1, 12, withoutAid), walked(9, 10, all)}, {equal(1, 9)}).mayBeDeclared());
    QVERIFY(Held({walked(1, 12, withoutAid), walked(9, 10, all)}, {equal(1, 9), equal(1, 9, true)})
                .mayBeDeclared());
}

void TestDeclaredWords::aRecordedDifferenceMayNot()
{
    QVERIFY(!Held({walked(1, 12, withStick), walked(9, 10, all)}, {}).mayBeDeclared());
    const Conditions onlyStick = {{u"aid"_s, u"stick"_s}};
    QVERIFY(!Held({walked(1, 12, onlyStick), walked(9, 10, all)}, {}).mayBeDeclared());
}

void TestDeclaredWords::whatCountsAsSomethingElseMayNot()
{
    const std::vector<Visit> visits = {walked(1, 12, withoutAid), walked(5, 11, withStick),
                                       walked(9, 10, all)};
    QVERIFY(!Held(visits, {equal(1, 5)}).mayBeDeclared());
    const std::vector<Visit> neither = {walked(1, 12, withoutAid), walked(5, 11, withoutAid),
                                        walked(9, 10, all)};
    QVERIFY(Held(neither, {equal(1, 5)}).mayBeDeclared());
}

void TestDeclaredWords::theWordNamesDaysPersonAndReason()
{
    QCOMPARE(Held({walked(1, 12, withoutAid), walked(9, 10, all)}, {equal(1, 9)}).words(),
             u"Not recorded on 01-Mar-2026: walking aid. Declared the same on 01-Mar-2026 and 09-Mar-2026 by "
             "A. Halden on 20-Mar-2026: “seen in the film of 1 March”."_s);
}

void TestDeclaredWords::eachVisitIsNamedWithWhatItLacks()
{
    const Held other({walked(1, 12, {{u"aid"_s, u"none"_s}}), walked(9, 10, withoutAid)}, {equal(9, 1)});
    QVERIFY2(other.words().startsWith(u"Not recorded on 01-Mar-2026: timed distance. Not recorded on "
                                      "09-Mar-2026: walking aid. Declared"_s),
             qPrintable(other.words()));
    const Held neither({walked(1, 12, {}), walked(9, 10, {})}, {equal(1, 9)});
    QVERIFY2(
        neither.words().startsWith(u"Not recorded at either visit: walking aid, timed distance. Declared"_s),
        qPrintable(neither.words()));
}

void TestDeclaredWords::wordsByWayOfOthersAreTold()
{
    const Held held({walked(1, 12, withoutAid), walked(5, 11, withoutAid), walked(9, 10, all)},
                    {equal(1, 5), equal(5, 9)});
    QVERIFY(held.comparison().comparability.isComparable());
    QCOMPARE(held.words(),
             u"Not recorded on 01-Mar-2026: walking aid. Declared the same on 01-Mar-2026 and 05-Mar-2026 by "
             "A. Halden on 20-Mar-2026: “seen in the film of 1 March”. Declared the same on 05-Mar-2026 and "
             "09-Mar-2026 by A. Halden on 20-Mar-2026: “seen in the film of 5 March”."_s);
    QCOMPARE(judging::declarations(held.comparison(), held.patient, held.catalogue).size(), 2u);
}

void TestDeclaredWords::aStrangerWordIsNotTold()
{
    const std::vector<Visit> visits = {walked(1, 12, withoutAid), walked(5, 11, withoutAid),
                                       walked(6, 11, all), walked(9, 10, all)};
    DeclaredEqual other = equal(1, 9);
    other.measure = u"gait-speed-comfortable"_s;
    const Held held(visits, {equal(1, 9), equal(5, 6), other});
    QCOMPARE(judging::declarations(held.comparison(), held.patient, held.catalogue),
             std::vector<DeclaredEqual>{equal(1, 9)});
    QCOMPARE(Held({walked(1, 12, all), walked(9, 10, all)}, {equal(1, 9)}).words(), QString());
}

void TestDeclaredWords::whatWasTakenBackIsNotTold()
{
    QCOMPARE(Held({walked(1, 12, withoutAid), walked(9, 10, all)}, {equal(1, 9), equal(9, 1, true)}).words(),
             QString());
}

void TestDeclaredWords::theNewestWordIsTold()
{
    DeclaredEqual again = equal(9, 1);
    again.reason = u"the film of the second day"_s;
    const Held held({walked(1, 12, withoutAid), walked(9, 10, all)}, {equal(1, 9), equal(1, 9, true), again});
    QCOMPARE(judging::declarations(held.comparison(), held.patient, held.catalogue),
             std::vector<DeclaredEqual>{again});
}

void TestDeclaredWords::anAmendmentLeavesNothingToTell()
{
    const Held held({walked(1, 12, withStick), walked(9, 10, all)}, {equal(1, 9)});
    QCOMPARE(held.words(), QString());
    QVERIFY(!held.mayBeDeclared());
}

HOUSE_TEST(TestDeclaredWords)

} // namespace test_declared_words

#include "test_declared_words.moc"
