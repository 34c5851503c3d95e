#include "core/records/visit.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_visit
{

using records::Visit;
using records::VisitState;

Visit version(const QString& series, int number, VisitState state, QDate day = {2026, 3, 12})
{
    Visit visit = examples::visit(series, day, {});
    visit.id = {series + QString::number(number)};
    visit.version = number;
    visit.state = state;
    return visit;
}

QStringList chosen(const std::vector<Visit>& versions, bool draftsToo = false)
{
    QStringList ids;
    for (const Visit& visit : records::current(versions, draftsToo))
        ids += visit.id.text;
    return ids;
}

class TestVisit : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theNewestSignedVersionCounts();
    void aDraftCountsWhileNothingIsSigned();
    void anOpenAmendmentCountsOnlyWhereDraftsDo();
    void whatWasEnteredInErrorDoesNotCountAndStaysOnRecord();
    void visitsComeOldestFirst();
    void theOrderOfVersionsDoesNotMatter();
    void anOpenAmendmentIsOnRecord();
    void aFindingIsFoundByMeasureAndSide();
    void aFindingReadAloneTakesItsPlace();
    void codesReadBackAsTheyWereWritten();
};

void TestVisit::theNewestSignedVersionCounts()
{
    QCOMPARE(chosen({version(u"a"_s, 1, VisitState::Signed), version(u"a"_s, 2, VisitState::Amended),
                     version(u"a"_s, 3, VisitState::Amended)}),
             QStringList{u"a3"_s});
}

void TestVisit::aDraftCountsWhileNothingIsSigned()
{
    QCOMPARE(chosen({version(u"a"_s, 1, VisitState::Draft)}), QStringList{u"a1"_s});
}

void TestVisit::anOpenAmendmentCountsOnlyWhereDraftsDo()
{
    const std::vector<Visit> versions = {version(u"a"_s, 1, VisitState::Signed),
                                         version(u"a"_s, 2, VisitState::Draft)};
    QCOMPARE(chosen(versions), QStringList{u"a1"_s});
    QCOMPARE(chosen(versions, true), QStringList{u"a2"_s});
}

void TestVisit::whatWasEnteredInErrorDoesNotCountAndStaysOnRecord()
{
    std::vector<Visit> versions = {version(u"a"_s, 1, VisitState::Signed),
                                   version(u"a"_s, 2, VisitState::Amended),
                                   version(u"b"_s, 1, VisitState::Signed)};
    versions[0].withdrawn = versions[1].withdrawn =
        records::Withdrawal{u"wrong person"_s, {u"A. Tester"_s, {}, {}}, {}};
    QCOMPARE(chosen(versions), QStringList{u"b1"_s});
    QCOMPARE(chosen(versions, true), QStringList{u"b1"_s});
    QStringList ids;
    for (const Visit& visit : records::onRecord(versions))
        ids += visit.id.text;
    QCOMPARE(ids, (QStringList{u"a2"_s, u"b1"_s}));
}

void TestVisit::anOpenAmendmentIsOnRecord()
{
    const auto visits =
        records::onRecord({version(u"a"_s, 2, VisitState::Draft), version(u"a"_s, 1, VisitState::Signed)});
    QCOMPARE(visits.size(), size_t(1));
    QCOMPARE(visits.front().id.text, u"a2"_s);
}

void TestVisit::visitsComeOldestFirst()
{
    QCOMPARE(chosen({version(u"c"_s, 1, VisitState::Signed, {2026, 6, 1}),
                     version(u"b"_s, 1, VisitState::Draft, {2026, 1, 1}),
                     version(u"a"_s, 1, VisitState::Signed, {2026, 6, 1})}),
             (QStringList{u"b1"_s, u"a1"_s, u"c1"_s}));
    QCOMPARE(chosen({}), QStringList());
}

void TestVisit::theOrderOfVersionsDoesNotMatter()
{
    std::vector<Visit> versions = {version(u"a"_s, 1, VisitState::Signed),
                                   version(u"a"_s, 2, VisitState::Amended),
                                   version(u"a"_s, 3, VisitState::Draft)};
    const auto byVersion = [](const Visit& a, const Visit& b) { return a.version < b.version; };
    do {
        QCOMPARE(chosen(versions), QStringList{u"a2"_s});
        QCOMPARE(chosen(versions, true), QStringList{u"a3"_s});
    } while (std::next_permutation(versions.begin(), versions.end(), byVersion));
}

void TestVisit::aFindingIsFoundByMeasureAndSide()
{
    const Visit visit = examples::visit(
        u"a"_s, {2026, 3, 12}, {examples::finding(u"finger-nose"_s, values::Grade{1}, records::Side::Left)});
    QVERIFY(visit.finding(u"finger-nose"_s, records::Side::Left) != nullptr);
    QVERIFY(visit.finding(u"finger-nose"_s, records::Side::Right) == nullptr);
    QVERIFY(visit.finding(u"heel-shin"_s, records::Side::Left) == nullptr);
}

void TestVisit::aFindingReadAloneTakesItsPlace()
{
    const auto graded = [](records::Side side, int step) {
        return examples::finding(u"finger-nose"_s, values::Grade{step}, side);
    };
    Visit visit = examples::visit(u"a"_s, {2026, 3, 12},
                                  {graded(records::Side::Left, 1), graded(records::Side::Right, 2)});
    const std::vector<records::Finding> before = visit.findings;
    records::take(visit, u"heel-shin"_s, records::Side::Left, {4, {}});
    QCOMPARE(visit.revision, 4);
    QCOMPARE(visit.findings, before);
    records::take(visit, u"finger-nose"_s, records::Side::Left, {5, graded(records::Side::Left, 3)});
    QCOMPARE(visit.findings, (std::vector{graded(records::Side::Left, 3), before.back()}));
    records::take(visit, u"finger-nose"_s, records::Side::Left, {6, {}});
    QCOMPARE(visit.findings, std::vector{before.back()});
    records::take(visit, u"finger-nose"_s, records::Side::Left, {7, before.front()});
    QCOMPARE(visit.findings, (std::vector{before.back(), before.front()}));
    QCOMPARE(visit.revision, 7);
}

void TestVisit::codesReadBackAsTheyWereWritten()
{
    for (const VisitState state : {VisitState::Draft, VisitState::Signed, VisitState::Amended})
        QCOMPARE(records::visitStateFromCode(records::code(state)), std::optional(state));
    for (const records::Side side : {records::Side::None, records::Side::Right, records::Side::Left})
        QCOMPARE(records::sideFromCode(records::code(side)), std::optional(side));
    QVERIFY(!records::visitStateFromCode(u"final"_s));
    QVERIFY(!records::sideFromCode(u"both"_s));
}

HOUSE_TEST(TestVisit)

} // namespace test_visit

#include "test_visit.moc"
