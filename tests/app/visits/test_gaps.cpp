#include "app/visits/gaps.h"

#include "core/records/history.h"
#include "core/records/visit_form.h"
#include "tests/app/visits/examination_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_gaps
{

using records::Side;

struct Signing {
    records::Patient patient;
    records::Visit visit;

    Signing()
    {
        patient.population = u"stroke-chronic"_s;
        visit.day = QDate(2026, 3, 4);
        visit.form = u"core-set"_s;
    }
    QStringList blank() const
    {
        QStringList ids;
        for (const catalogue::Measure* test : visits::gapsOf(visit, patient, desk::book()).blank)
            ids += test->id;
        return ids;
    }
    QStringList conditions() const
    {
        QStringList ids;
        for (const catalogue::Condition* condition : visits::gapsOf(visit, patient, desk::book()).conditions)
            ids += condition->id;
        return ids;
    }
};

class TestGaps : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void expectedTestsThatAreBlankAreListedInOrder();
    void aVisitIsCompleteOnceNothingExpectedIsBlank();
    void whyThereIsNoValueIsAnAnswer();
    void conditionsThatResultsNeedAreListed();
    void aTestsOwnConditionCounts();
    void medicationIsNeededInParkinsonsDiseaseOnly();
    void whatIsCarriedForwardWaits();
    void aYesWithoutAWordOfWhatWasDoneIsAGap();
};

void TestGaps::expectedTestsThatAreBlankAreListedInOrder()
{
    Signing signing;
    const auto gaps = visits::gapsOf(signing.visit, signing.patient, desk::book());
    QVERIFY(gaps.isEmpty);
    QVERIFY(!gaps.isNone());
    QStringList expected = desk::book().form(u"core-set"_s)->expected;
    QStringList blank = signing.blank();
    QCOMPARE(QSet(blank.begin(), blank.end()), QSet(expected.begin(), expected.end()));
    signing.visit.findings = {
        desk::finding(u"berg-balance"_s, Side::None, values::Quantity{41, values::Unit::Score})};
    QCOMPARE(signing.blank().size(), expected.size() - 1);
    QVERIFY(!signing.blank().contains(u"berg-balance"_s));
}

void TestGaps::aVisitIsCompleteOnceNothingExpectedIsBlank()
{
    for (const catalogue::Form& form : desk::book().forms) {
        Signing signing;
        signing.visit.form = form.id;
        for (const QString& id : form.expected.isEmpty() ? form.measures() : form.expected) {
            QVERIFY(!records::isComplete(signing.visit, desk::book()));
            for (const Side side : records::sidesOf(*desk::book().measure(id))) {
                records::Finding finding;
                finding.measure = id;
                finding.side = side;
                finding.value = values::Missing{values::Absence::Refused, {}};
                signing.visit.findings.push_back(finding);
                QCOMPARE(records::isComplete(signing.visit, desk::book()), signing.blank().isEmpty());
            }
        }
        QVERIFY(records::isComplete(signing.visit, desk::book()));
    }
}

void TestGaps::whyThereIsNoValueIsAnAnswer()
{
    Signing signing;
    signing.visit.findings = {
        desk::finding(u"berg-balance"_s, Side::None, values::Missing{values::Absence::Unable, {}})};
    QVERIFY(!signing.blank().contains(u"berg-balance"_s));
}

void TestGaps::aYesWithoutAWordOfWhatWasDoneIsAGap()
{
    Signing signing;
    signing.visit.redFlags = {{u"fall-with-head-injury"_s, {true, {}}}, {u"saddle-numbness"_s, {false, {}}}};
    const auto gapsOf = [&] { return visits::gapsOf(signing.visit, signing.patient, desk::book()); };
    QCOMPARE(gapsOf().redFlags.size(), size_t(1));
    QCOMPARE(gapsOf().redFlags.front()->id, u"fall-with-head-injury"_s);
    signing.visit.redFlags[u"fall-with-head-injury"_s].acknowledged = {u"seen"_s, signing.visit.day,
                                                                       QTime(9, 0)};
    QVERIFY(gapsOf().redFlags.empty());
    signing.visit.redFlags.clear(); // not asked is no gap: who asks them decides when
    QVERIFY(gapsOf().redFlags.empty());
}

void TestGaps::conditionsThatResultsNeedAreListed()
{
    Signing signing;
    QVERIFY(signing.conditions().isEmpty());
    signing.visit.findings = {
        desk::finding(u"romberg-eyes-open"_s, Side::None, values::Quantity{30, values::Unit::Second})};
    QCOMPARE(signing.conditions(), (QStringList{u"orthosis"_s, u"footwear"_s}));
    signing.visit.conditions = {{u"footwear"_s, u"own-shoes"_s}};
    QCOMPARE(signing.conditions(), QStringList{u"orthosis"_s});
}

void TestGaps::aTestsOwnConditionCounts()
{
    Signing signing;
    records::Finding finding =
        desk::finding(u"romberg-eyes-open"_s, Side::None, values::Quantity{30, values::Unit::Second});
    finding.exceptions = {{u"footwear"_s, u"barefoot"_s}, {u"orthosis"_s, u"none"_s}};
    signing.visit.findings = {finding};
    QVERIFY(signing.conditions().isEmpty());
}

void TestGaps::medicationIsNeededInParkinsonsDiseaseOnly()
{
    Signing signing;
    signing.visit.findings = {desk::finding(u"finger-tapping"_s, Side::Right, values::Grade{2})};
    QVERIFY(!signing.conditions().contains(u"medication"_s));
    signing.patient.population = u"parkinson"_s;
    QVERIFY(signing.conditions().contains(u"medication"_s));
}

void TestGaps::whatIsCarriedForwardWaits()
{
    Signing signing;
    signing.visit.conditions = {{u"footwear"_s, u"own-shoes"_s}};
    QVERIFY(visits::gapsOf(signing.visit, signing.patient, desk::book()).isUnconfirmed);
    signing.visit.conditionsConfirmed = true;
    QVERIFY(!visits::gapsOf(signing.visit, signing.patient, desk::book()).isUnconfirmed);
}

HOUSE_TEST(TestGaps)

} // namespace test_gaps

#include "test_gaps.moc"
