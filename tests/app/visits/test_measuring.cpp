#include "app/visits/examination_page.h"
#include "app/visits/side_field.h"

#include "app/widgets/theme.h"
#include "tests/app/visits/examination_desk.h"
#include "tests/support/test_support.h"

#include <QAbstractButton>
#include <QLabel>
#include <QLineEdit>
#include <QPointingDevice>
#include <QScrollArea>

using namespace Qt::StringLiterals;

namespace test_measuring
{

/// The page under a hand and a finger.
struct Open : desk::Open {
    void press(Qt::Key key) const { QTest::keyClick(page->focusWidget(), key); }
    void type(const QString& keys) const { QTest::keyClicks(page->focusWidget(), keys); }
    static QPointingDevice* finger()
    {
        static QPointingDevice* made = QTest::createTouchDevice();
        return made;
    }
    void tap(int x, int y) const
    {
        auto* form = at<QScrollArea>("form")->viewport();
        QTest::touchEvent(form, finger()).press(0, QPoint(x, y), form);
        QTest::touchEvent(form, finger()).release(0, QPoint(x, y), form);
    }
    void wipe(int from, int to) const
    {
        auto* form = at<QScrollArea>("form")->viewport();
        QTest::touchEvent(form, finger()).press(0, QPoint(from, 200), form);
        QTest::touchEvent(form, finger()).move(0, QPoint((from + to) / 2, 205), form);
        QTest::touchEvent(form, finger()).release(0, QPoint(to, 205), form);
    }
    double number(const QString& measure) const
    {
        const records::Finding* finding = found(measure);
        return finding == nullptr ? -1 : values::number(finding->value).value_or(-1);
    }
};

class TestMeasuring : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void oneTestAtATimeIsLargeEnoughForAFinger();
    void inALowWindowTheSidesKeepTheirNames();
    void aWipeGoesToTheNextTestAndBack();
    void oneMoreTrialIsAKey();
    void stepsAreCountedWithThoseBesideTheLine();
    void theCapReplacesNoTrial();
    void whatIsTimedCanBeDropped();
};

void TestMeasuring::oneTestAtATimeIsLargeEnoughForAFinger()
{
    Open open;
    open.at("finger-nose.right.keys")->setFocus();
    open.press(Qt::Key_F7);
    QVERIFY(open.at("finger-nose.right.keys")->isVisible());
    QVERIFY(!open.at("finger-tapping.right.keys")->isVisible());
    QVERIFY(!open.at("heel-shin.right.keys")->isVisible());
    QCOMPARE(open.holder(), u"finger-nose.right.keys"_s);
    QCoreApplication::processEvents();
    QStringList small;
    for (const auto* button : open.page->findChildren<QAbstractButton*>()) {
        if (button->isVisible() && button->isEnabled() && button->height() < widgets::touchHeight &&
            !button->objectName().endsWith(u".fold"_s))
            small += button->objectName();
    }
    QCOMPARE(small.join(u", "_s), QString());
    QCOMPARE(open.at<QLabel>("step.words")->text(), u"Test 3 of 22 · 22 open"_s);
    open.press(Qt::Key_PageDown);
    QCOMPARE(open.holder(), u"pronator-drift.right.keys"_s); // intention tremor is not asked for each time
    QVERIFY(!open.at("finger-nose.right.keys")->isVisible());
    open.type(u"1"_s);
    open.press(Qt::Key_Return);
    QCOMPARE(open.holder(), u"pronator-drift.left.keys"_s);
    open.press(Qt::Key_F7);
    QVERIFY(open.at("finger-tapping.right.keys")->isVisible());
    QCOMPARE(open.holder(), u"pronator-drift.left.keys"_s);
    QVERIFY(!open.at("step.all")->isVisible());
    QTest::mouseClick(open.at("oneAtATime"), Qt::LeftButton);
    QVERIFY(!open.at("oneAtATime")->isVisible()); // the test has its room
    QVERIFY(!open.at("finger-tapping.right.keys")->isVisible());
    QTest::mouseClick(open.at("step.all"), Qt::LeftButton);
    QVERIFY(open.at("finger-tapping.right.keys")->isVisible());
    QVERIFY(open.at("oneAtATime")->isVisible());
}

/// Also where its keys do not all fit: right and left are never told by place alone.
void TestMeasuring::inALowWindowTheSidesKeepTheirNames()
{
    Open open;
    open.page->resize(900, 300);
    open.at("finger-tapping.right.keys")->setFocus();
    open.press(Qt::Key_F7);
    const auto* room = open.at<QScrollArea>("form")->viewport();
    const auto isSeen = [&](const QString& words) {
        const auto labels = open.page->findChildren<QLabel*>();
        return std::ranges::any_of(labels, [&](const QLabel* label) {
            const QRect place(label->mapTo(open.page.get(), QPoint()), label->size());
            const QRect seen(room->mapTo(open.page.get(), QPoint()), room->size());
            return label->text() == words && label->isVisible() && seen.contains(place);
        });
    };
    QTRY_VERIFY(isSeen(u"Right"_s) && isSeen(u"Left"_s));
    open.press(Qt::Key_PageDown);
    QTRY_VERIFY(isSeen(u"Right"_s) && isSeen(u"Left"_s));
}

void TestMeasuring::aWipeGoesToTheNextTestAndBack()
{
    Open open;
    open.at("finger-nose.right.keys")->setFocus();
    open.wipe(600, 300);
    QCOMPARE(open.holder(), u"finger-nose.right.keys"_s); // the whole form is not wiped through
    open.press(Qt::Key_F7);
    open.wipe(600, 300);
    QCOMPARE(open.holder(), u"pronator-drift.right.keys"_s);
    open.wipe(300, 600);
    QCOMPARE(open.holder(), u"finger-nose.right.keys"_s);
    open.wipe(300, 340);
    QCOMPARE(open.holder(), u"finger-nose.right.keys"_s);
    // A finger that is no wipe presses what lies below it.
    auto* form = open.at<QScrollArea>("form")->viewport();
    const auto* key = open.at("finger-nose.left.grade.2");
    const int x = key->mapTo(form, key->rect().center()).x();
    open.tap(x, key->mapTo(form, key->rect().center()).y());
    QVERIFY(open.found(u"finger-nose"_s, records::Side::Left) != nullptr);
}

void TestMeasuring::oneMoreTrialIsAKey()
{
    Open open;
    open.at("ten-metre-walk-time-comfortable.trial.1")->setFocus();
    open.type(u"8"_s);
    open.press(Qt::Key_Return);
    open.type(u"8.2"_s);
    for (const int trial : {3, 4, 5}) {
        open.type(u"+"_s);
        QCOMPARE(open.holder(), u"ten-metre-walk-time-comfortable.trial.%1"_s.arg(trial));
        open.type(u"8.6"_s);
    }
    open.type(u"+"_s);
    QCOMPARE(open.holder(), u"ten-metre-walk-time-comfortable.trial.5"_s);
    QVERIFY(open.at<QLabel>("ten-metre-walk-time-comfortable.message")->text().contains(u"5 trials"_s));
    QCOMPARE(open.found(u"ten-metre-walk-time-comfortable"_s)->trials.size(), size_t(5));
    QCOMPARE(open.number(u"ten-metre-walk-time-comfortable"_s), 8.4);
}

void TestMeasuring::stepsAreCountedWithThoseBesideTheLine()
{
    Open open;
    open.at("tandem-steps")->setFocus();
    open.press(Qt::Key_Space);
    QCOMPARE(open.holder(), u"strip.steps"_s);
    open.type(u"    s     "_s);
    QCOMPARE(open.number(u"tandem-steps"_s), 4.0);
    QCOMPARE(open.number(u"tandem-side-steps"_s), 1.0);
    QCOMPARE(open.holder(), u"strip.steps"_s); // nobody's keys go elsewhere
    open.at("turn-180-steps")->setFocus();
    open.press(Qt::Key_Space);
    open.type(u"     "_s);
    open.press(Qt::Key_Tab);
    QCOMPARE(open.number(u"turn-180-steps"_s), 5.0);
    QCOMPARE(open.holder(), u"turn-180-time"_s);
}

/// A hold gets one more trial, a walk keeps what was timed before.
void TestMeasuring::theCapReplacesNoTrial()
{
    Open open;
    open.at("sensory-interaction-firm-open.trial.1")->setFocus();
    open.type(u"12"_s);
    open.page->findChild<visits::SideField*>(u"sensory-interaction-firm-open.field"_s)->reachCap();
    QCOMPARE(open.found(u"sensory-interaction-firm-open"_s)->trials, (std::vector<double>{12, 30}));
    open.at("timed-25-foot-walk.trial.1")->setFocus();
    open.type(u"9.5"_s);
    open.page->findChild<visits::SideField*>(u"timed-25-foot-walk.field"_s)->reachCap();
    QCOMPARE(open.found(u"timed-25-foot-walk"_s)->trials, (std::vector<double>{9.5}));
    QVERIFY(open.at<QLabel>("timed-25-foot-walk.message")->text().contains(u"not recorded"_s));
}

void TestMeasuring::whatIsTimedCanBeDropped()
{
    Open open;
    open.at("timed-up-and-go")->setFocus();
    open.type(u"l"_s); // nothing runs
    QVERIFY(open.at<QLabel>("timed-up-and-go.message")->text().contains(u"while the stopwatch runs"_s));
    open.press(Qt::Key_Space);
    open.press(Qt::Key_Escape);
    QVERIFY(open.at<QLabel>("strip.derived")->text().startsWith(u"Dropped:"_s));
    QVERIFY(open.found(u"timed-up-and-go"_s) == nullptr);
    QVERIFY(open.at<QLineEdit>("timed-up-and-go")->text().isEmpty());
}

HOUSE_TEST(TestMeasuring)

} // namespace test_measuring

#include "test_measuring.moc"
