#include "core/statistics/sequential.h"

#include "core/statistics/distributions.h"
#include "tests/support/test_support.h"

#include <array>
#include <cmath>

namespace test_sequential
{

using namespace statistics;

class TestSequential : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void oneLookIsOneTest()
    {
        // The two-sided 5 % point of the normal distribution: NIST/SEMATECH e-Handbook, 1.3.6.7.1.
        const auto bounds = sequentialBounds(std::array{Stage{7, 0.05}});
        QCOMPARE(bounds.size(), size_t(1));
        QVERIFY(std::abs(bounds[0] - 1.959964) < 1e-5);
    }

    /// Five looks at equal steps of information with one bound for all: 2.413 (Pocock 1977, Biometrika
    /// 64:191, table 1, from memory), so what that bound spends gives it back.
    void fiveEqualBoundsAreThoseOfPocock()
    {
        constexpr double pocock = 2.413;
        std::array<Stage, 5> stages{};
        double spent = 0;
        for (int look = 1; look <= 5; ++look) {
            double low = spent;
            double high = 0.06;
            for (int i = 0; i < 40; ++i) { // the share spent at which this look's bound is the one of all
                const double middle = (low + high) / 2;
                stages[size_t(look) - 1] = {double(look), middle};
                const double bound = sequentialBounds(std::span(stages).first(size_t(look))).back();
                (bound > pocock ? low : high) = middle;
            }
            spent = high;
        }
        QVERIFY2(std::abs(spent - 0.05) < 1e-4, qPrintable(QString::number(spent)));
    }

    /// Eight visits a step apart, looked at from the third on, all 5 % and 4 % spent with the third power of
    /// the share of visits: worked out by an independent biostatistician.
    void eightVisitsHaveTheirBounds()
    {
        const auto boundsFor = [](double level) {
            std::vector<Stage> stages;
            for (int visit = 3; visit <= 8; ++visit)
                stages.push_back({visit * (visit * visit - 1) / 12.0, level * std::pow(visit / 8.0, 3)});
            return sequentialBounds(stages);
        };
        const std::array five = {3.01, 2.88, 2.69, 2.52, 2.37, 2.22};
        const std::array four = {3.07, 2.95, 2.77, 2.60, 2.45, 2.31};
        for (size_t look = 0; look < five.size(); ++look) {
            QVERIFY(std::abs(boundsFor(0.05)[look] - five[look]) < 0.006);
            QVERIFY(std::abs(boundsFor(0.04)[look] - four[look]) < 0.006);
        }
    }

    void aLaterLookChangesNoEarlierBound()
    {
        const std::array<Stage, 4> stages = {Stage{1, 0.01}, {1.02, 0.02}, {3, 0.03}, {30, 0.05}};
        const auto all = sequentialBounds(stages);
        for (size_t looks = 1; looks < stages.size(); ++looks) {
            const auto fewer = sequentialBounds(std::span(stages).first(looks));
            for (size_t look = 0; look < looks; ++look)
                QVERIFY(std::abs(fewer[look] - all[look]) < 1e-5);
        }
    }

    void whatIsOutOfOrderHasNoBounds()
    {
        QVERIFY(sequentialBounds({}).empty());
        QVERIFY(sequentialBounds(std::array{Stage{0, 0.05}}).empty());
        QVERIFY(sequentialBounds(std::array{Stage{1, 0}}).empty());
        QVERIFY(sequentialBounds(std::array{Stage{1, 1}}).empty());
        QVERIFY(sequentialBounds(std::array{Stage{2, 0.01}, Stage{1, 0.02}}).empty());
        QVERIFY(sequentialBounds(std::array{Stage{1, 0.02}, Stage{2, 0.02}}).empty());
    }
};

HOUSE_TEST(TestSequential)

} // namespace test_sequential

#include "test_sequential.moc"
