#include "app/widgets/step_counter.h"

#include "tests/support/test_support.h"

#include <QSignalSpy>
#include <QTest>

using namespace Qt::StringLiterals;

namespace test_step_counter
{

using widgets::StepCounter;

/// A counter of ten tandem steps, with the keyboard.
struct Counting {
    StepCounter counter{nullptr};
    std::vector<std::pair<int, std::optional<int>>> counted;

    explicit Counting(bool withMissteps = true)
    {
        counter.begin(10, withMissteps);
        QObject::connect(&counter, &StepCounter::counted, [this](int inARow, std::optional<int> missteps) {
            counted.emplace_back(inARow, missteps);
        });
    }
    void press(const QString& keys)
    {
        for (const QChar key : keys)
            QTest::keyClick(&counter, key.toLatin1());
    }
};

class TestStepCounter : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void tenStepsEndByThemselves()
    {
        Counting counting;
        counting.press(u"         "_s);
        QVERIFY(counting.counted.empty());
        counting.press(u" "_s);
        QCOMPARE(counting.counted.size(), size_t(1));
        QVERIFY(counting.counted.front() == std::pair(10, std::optional(0)));
        QVERIFY(!counting.counter.isRunning());
    }

    /// What counts is what was set right before the first misstep; all missteps of the ten are counted
    /// beside.
    void aMisstepEndsTheRowAndTheWalkGoesOn()
    {
        Counting counting;
        counting.press(u"    s  s  "_s);
        QCOMPARE(counting.counted.size(), size_t(1));
        QVERIFY(counting.counted.front() == std::pair(4, std::optional(2)));
    }

    void whoStopsBeforeTheEndHasNoCountOfMissteps()
    {
        Counting counting;
        counting.press(u"   s"_s);
        QTest::keyClick(&counting.counter, Qt::Key_Tab);
        QCOMPARE(counting.counted.size(), size_t(1));
        QVERIFY(counting.counted.front() == (std::pair<int, std::optional<int>>(3, std::nullopt)));
    }

    void escapeDropsTheCount()
    {
        Counting counting;
        QSignalSpy left(&counting.counter, &StepCounter::left);
        counting.press(u"   "_s);
        QTest::keyClick(&counting.counter, Qt::Key_Escape);
        QCOMPARE(left.size(), 1);
        QTest::keyClick(&counting.counter, Qt::Key_Tab);
        QVERIFY(counting.counted.empty());
    }

    void stepsOfATurnHaveNoneBeside()
    {
        Counting counting(false);
        counting.press(u"  s "_s);
        QTest::keyClick(&counting.counter, Qt::Key_Tab);
        QVERIFY(counting.counted.front() == (std::pair<int, std::optional<int>>(3, std::nullopt)));
    }
};

HOUSE_TEST(TestStepCounter)

} // namespace test_step_counter

#include "test_step_counter.moc"
