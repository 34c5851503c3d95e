#include "core/records/finding.h"

#include "tests/support/test_support.h"

namespace test_finding
{

using records::Finding;

class TestFinding : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void trialsInARowNeedNoNumbers()
    {
        Finding finding;
        records::addTrial(finding, 1, 4.5);
        records::addTrial(finding, 2, 4.6);
        QCOMPARE(finding.trials, (std::vector{4.5, 4.6}));
        QVERIFY(finding.trialNumbers.empty());
        QCOMPARE(records::trialNumber(finding, 1), 2);
    }

    void aTrialThatIsMissingLeavesItsNumberFree()
    {
        Finding finding;
        records::addTrial(finding, 1, 4.5);
        records::addTrial(finding, 4, 4.8);
        records::addTrial(finding, 2, 4.6);
        QCOMPARE(finding.trials, (std::vector{4.5, 4.6, 4.8}));
        QCOMPARE(finding.trialNumbers, (std::vector{1, 2, 4}));
        QCOMPARE(records::trialNumber(finding, 2), 4);
        records::addTrial(finding, 3, 4.7);
        QCOMPARE(finding.trials, (std::vector{4.5, 4.6, 4.7, 4.8}));
        QVERIFY(finding.trialNumbers.empty());
    }
};

HOUSE_TEST(TestFinding)

} // namespace test_finding

#include "test_finding.moc"
