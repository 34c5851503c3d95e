#include "app/charts/tints.h"

#include "tests/support/test_support.h"

#include <QImage>
#include <QPainter>

namespace test_tints
{

using charts::Tint;

/// Three areas that overlap in pairs and all together.
std::vector<Tint> tints()
{
    const auto area = [](double x, double y, double width, double height) {
        QPainterPath path;
        path.addRect(x, y, width, height);
        return path;
    };
    return {{area(0, 0, 30, 30), QColor(85, 90, 99, 26)},
            {area(10, 10, 40, 12), QColor(29, 31, 35, 33)},
            {area(20, 5, 10, 40), QColor(15, 101, 107, 33)}};
}

QImage painted(const std::vector<Tint>& all)
{
    QImage picture(60, 60, QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter painter(&picture);
    for (const Tint& tint : all)
        painter.fillPath(tint.area, tint.colour);
    return picture;
}

class TestTints : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// Against Qt's own painting of half seen colours.
    void opaqueTintsLookAsHalfSeenOnes()
    {
        const std::vector<Tint> opaque = charts::opaque(tints(), Qt::white);
        for (const Tint& tint : opaque)
            QCOMPARE(tint.colour.alpha(), 255);
        QCOMPARE(opaque.size(), size_t(7)); // each, each pair, all three
        const QImage mixed = painted(tints());
        const QImage made = painted(opaque);
        for (int y = 0; y < mixed.height(); ++y) {
            for (int x = 0; x < mixed.width(); ++x) {
                const QColor a = mixed.pixelColor(x, y);
                const QColor b = made.pixelColor(x, y);
                const int apart = std::max({std::abs(a.red() - b.red()), std::abs(a.green() - b.green()),
                                            std::abs(a.blue() - b.blue())});
                QVERIFY2(apart <= 2, qPrintable(QStringLiteral("%1 at %2, %3").arg(apart).arg(x).arg(y)));
            }
        }
    }

    void whatDoesNotOverlapStaysAlone()
    {
        QPainterPath left, right;
        left.addRect(0, 0, 10, 10);
        right.addRect(20, 0, 10, 10);
        QCOMPARE(
            charts::opaque({{left, QColor(0, 0, 0, 30)}, {right, QColor(0, 0, 0, 30)}}, Qt::white).size(),
            size_t(2));
        QVERIFY(charts::opaque({}, Qt::white).empty());
    }
};

HOUSE_TEST(TestTints)

} // namespace test_tints

#include "test_tints.moc"
