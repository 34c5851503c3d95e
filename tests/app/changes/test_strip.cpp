#include "app/changes/strip.h"

#include "app/widgets/theme.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QImage>

using namespace Qt::StringLiterals;

namespace test_strip
{

using changes::Strip;
using judging::Comparison;
using judging::Verdict;
using values::Quantity;
using values::Unit;

records::Occasion occasion(const QString& measure, values::Value value)
{
    records::Occasion made;
    made.finding = examples::finding(measure, std::move(value));
    return made;
}

Comparison compared(const QString& measure, values::Value before, values::Value now,
                    const QString& population = u"stroke"_s)
{
    return judging::comparison(examples::catalogue(), examples::patient(population),
                               occasion(measure, std::move(before)), occasion(measure, std::move(now)), {});
}

Strip stripOf(const Comparison& comparison)
{
    return changes::strip(comparison, examples::catalogue().measure(comparison.measure)->better);
}

values::Value seconds(double number)
{
    return Quantity{number, Unit::Second};
}

/// The mean place of a colour across the drawing, from −1 at the left end to 1 at the right.
std::optional<double> placeOf(const QColor& colour, const Strip& strip)
{
    QImage image(241, 32, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    changes::drawStrip(painter, strip, QRectF(20, 0, 201, 32), widgets::coloursFor(QPalette(Qt::white)));
    painter.end();
    double sum = 0;
    int count = 0;
    for (int x = 0; x < image.width(); ++x) {
        for (int y = 0; y < image.height(); ++y) {
            if (image.pixelColor(x, y) == colour) {
                sum += x;
                ++count;
            }
        }
    }
    return count == 0 ? std::nullopt : std::optional((sum / count - 120) / 100);
}

class TestStrip : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void betterIsToTheRightWhateverTheDirection();
    void theLimitIsTheUnit();
    void limitsThatDifferAreEachOne();
    void withoutAThresholdThereIsNoScale();
    void gradesShowOnlyTheSide();
    void whatIsNotComparableIsNotPlaced();
    void marksAreDrawnWhereTheyBelong();
    void aLargeDifferenceStaysOnTheStrip();
    void nothingIsDrawnWithoutAComparison();
};

void TestStrip::betterIsToTheRightWhateverTheDirection()
{
    QVERIFY(stripOf(compared(u"timed-up-and-go"_s, seconds(30), seconds(20))).position > 0);
    QVERIFY(stripOf(compared(u"timed-up-and-go"_s, seconds(20), seconds(30))).position < 0);
    const auto points = [](double number) { return Quantity{number, Unit::Score}; };
    QVERIFY(stripOf(compared(u"berg-balance"_s, points(40), points(50), u"parkinson"_s)).position > 0);
}

void TestStrip::theLimitIsTheUnit()
{
    // The example's row for stroke: 8 s.
    QCOMPARE(stripOf(compared(u"timed-up-and-go"_s, seconds(30), seconds(22))).position, 1.0);
    QCOMPARE(stripOf(compared(u"timed-up-and-go"_s, seconds(30), seconds(34))).position, -0.5);
}

void TestStrip::limitsThatDifferAreEachOne()
{
    // Multiple sclerosis: 23 % for the better, 30 % for the worse.
    const QString ms = u"multiple-sclerosis"_s;
    QCOMPARE(stripOf(compared(u"timed-up-and-go"_s, seconds(10), seconds(7.7), ms)).position, 1.0);
    QCOMPARE(stripOf(compared(u"timed-up-and-go"_s, seconds(10), seconds(13), ms)).position, -1.0);
}

void TestStrip::withoutAThresholdThereIsNoScale()
{
    const Strip strip =
        stripOf(compared(u"timed-up-and-go"_s, seconds(30), seconds(20), u"cerebellar-ataxia"_s));
    QVERIFY(!strip.hasScale);
    QVERIFY(strip.position > 0);
    QCOMPARE(strip.verdict, Verdict::NoThreshold);
}

void TestStrip::gradesShowOnlyTheSide()
{
    const Strip strip = stripOf(compared(u"finger-nose"_s, values::Grade{1}, values::Grade{3}));
    QVERIFY(!strip.hasScale);
    QVERIFY(strip.position < 0);
}

void TestStrip::whatIsNotComparableIsNotPlaced()
{
    const Strip strip = stripOf(compared(u"ten-metre-walk-time-comfortable"_s, seconds(20), seconds(10)));
    QCOMPARE(strip.verdict, Verdict::NotComparable); // the aid was not recorded
    QCOMPARE(strip.position, 0.0);
}

void TestStrip::marksAreDrawnWhereTheyBelong()
{
    const widgets::Colours colours = widgets::coloursFor(QPalette(Qt::white));
    const auto better =
        placeOf(colours.better, stripOf(compared(u"timed-up-and-go"_s, seconds(30), seconds(18))));
    QVERIFY(better);
    QVERIFY(qAbs(*better - 0.5) < 0.05); // 1.5 of 3
    const auto worse =
        placeOf(colours.worse, stripOf(compared(u"timed-up-and-go"_s, seconds(20), seconds(36))));
    QVERIFY(worse);
    QVERIFY(qAbs(*worse + 2.0 / 3) < 0.05);
    const auto unable =
        placeOf(colours.worse, stripOf(compared(u"timed-up-and-go"_s, seconds(20), examples::unable())));
    QVERIFY(unable);
    QVERIFY(*unable < -0.8);
    const auto able =
        placeOf(colours.better, stripOf(compared(u"timed-up-and-go"_s, examples::unable(), seconds(20))));
    QVERIFY(able);
    QVERIFY(*able > 0.8);
}

void TestStrip::aLargeDifferenceStaysOnTheStrip()
{
    const widgets::Colours colours = widgets::coloursFor(QPalette(Qt::white));
    const auto better =
        placeOf(colours.better, stripOf(compared(u"timed-up-and-go"_s, seconds(200), seconds(20))));
    QVERIFY(better);
    QVERIFY(*better > 0.75);
    QVERIFY(*better < 1);
}

void TestStrip::nothingIsDrawnWithoutAComparison()
{
    const widgets::Colours colours = widgets::coloursFor(QPalette(Qt::white));
    QVERIFY(!placeOf(colours.edge, Strip{}));
}

HOUSE_TEST(TestStrip)

} // namespace test_strip

#include "test_strip.moc"
