#include "app/widgets/icons.h"
#include "app/widgets/style_sheet.h"
#include "app/widgets/theme.h"
#include "app/widgets/verdict_mark.h"

#include "tests/support/test_support.h"

#include <QApplication>
#include <QDir>
#include <QImage>
#include <QPainter>
#include <QPushButton>
#include <QRegularExpression>
#include <QStyle>

#include <algorithm>
#include <array>
#include <cmath>

using namespace Qt::StringLiterals;

namespace test_theme
{

/// Relative luminance, Web Content Accessibility Guidelines 2.1, "relative luminance".
double luminance(const QColor& colour)
{
    const auto linear = [](double part) {
        return part <= 0.03928 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

/// Contrast ratio, same guidelines: (L1 + 0.05) / (L2 + 0.05).
double contrast(const QColor& one, const QColor& other)
{
    const auto [darker, lighter] = std::minmax({luminance(one), luminance(other)});
    return (lighter + 0.05) / (darker + 0.05);
}

/// CIE 1976 difference of two colours (CIE 15:2004, D65) as seen through a matrix on linear sRGB.
double difference(const QColor& one, const QColor& other, const std::array<double, 9>& eye)
{
    const auto lab = [&eye](const QColor& colour) {
        const auto linear = [](double part) {
            return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
        };
        const std::array<double, 3> light = {linear(colour.redF()), linear(colour.greenF()),
                                             linear(colour.blueF())};
        std::array<double, 3> seen{};
        for (size_t row = 0; row < 3; ++row)
            seen[row] = std::clamp(eye[3 * row] * light[0] + eye[3 * row + 1] * light[1] +
                                       eye[3 * row + 2] * light[2],
                                   0.0, 1.0);
        const auto bent = [](double part) {
            return part > 216.0 / 24389 ? std::cbrt(part) : (24389.0 / 27 * part + 16) / 116;
        };
        const double x = bent((0.4124564 * seen[0] + 0.3575761 * seen[1] + 0.1804375 * seen[2]) / 0.95047);
        const double y = bent(0.2126729 * seen[0] + 0.7151522 * seen[1] + 0.0721750 * seen[2]);
        const double z = bent((0.0193339 * seen[0] + 0.1191920 * seen[1] + 0.9503041 * seen[2]) / 1.08883);
        return std::array<double, 3>{116 * y - 16, 500 * (x - y), 200 * (y - z)};
    };
    const auto a = lab(one);
    const auto b = lab(other);
    return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

class TestTheme : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void contrastFollowsThePublishedFormula();
    void textStandsOut_data();
    void textStandsOut();
    void marksStandOut_data() { textStandsOut_data(); }
    void marksStandOut();
    void betterAndWorseWeighTheSame_data() { textStandsOut_data(); }
    void betterAndWorseWeighTheSame();
    void betterAndWorseAreToldApartByEveryEye_data() { textStandsOut_data(); }
    void betterAndWorseAreToldApartByEveryEye();
    void marksAreToldApartInGrey();
    void nothingMovesByItself();
    void lookIsRecognisedFromThePalette();
    void changingTheLookReachesWidgetsThatExist();
    void aButtonThatStaysDownLooksSo_data() { textStandsOut_data(); }
    void aButtonThatStaysDownLooksSo();
    void styleSheetNamesNoUnknownRole();
    void everyIconDrawsSomethingInTheColourAsked();
    void figuresAreOfOneWidth();
};

void TestTheme::contrastFollowsThePublishedFormula()
{
    // WCAG 2.1: black on white is 21:1. #767676 on white is the usual example that just passes 4.5 (4.54).
    QCOMPARE(contrast(Qt::black, Qt::white), 21.0);
    QVERIFY(std::abs(contrast(QColor(0x76, 0x76, 0x76), Qt::white) - 4.54) < 0.005);
}

void TestTheme::textStandsOut_data()
{
    QTest::addColumn<widgets::Look>("look");
    QTest::newRow("light") << widgets::Look::Light;
    QTest::newRow("dark") << widgets::Look::Dark;
    QTest::newRow("black on white") << widgets::Look::BlackOnWhite;
    QTest::newRow("white on black") << widgets::Look::WhiteOnBlack;
}

void TestTheme::textStandsOut()
{
    QFETCH(widgets::Look, look);
    widgets::applyLook(*qApp, look);
    const widgets::Colours& c = widgets::coloursFor(qApp->palette());
    const bool isStrong = look == widgets::Look::BlackOnWhite || look == widgets::Look::WhiteOnBlack;
    const double least = isStrong ? 7 : 4.5; // success criteria 1.4.6 and 1.4.3
    for (const QColor& ground : {c.ground, c.panel, c.accentSoft, c.caution, c.shade}) {
        QVERIFY2(contrast(c.text, ground) >= least, qPrintable(ground.name()));
        QVERIFY2(contrast(c.quiet, ground) >= least, qPrintable(ground.name()));
    }
    for (const QColor& ground : {c.ground, c.panel}) {
        for (const QColor& text : {c.accent, c.better, c.worse, c.danger})
            QVERIFY2(contrast(text, ground) >= least, qPrintable(text.name() + ground.name()));
    }
    QVERIFY(contrast(c.onAccent, c.accent) >= least);
    QVERIFY(contrast(c.danger, c.caution) >= least);
    QVERIFY(contrast(c.accent, c.accentSoft) >= least);
}

void TestTheme::marksStandOut()
{
    QFETCH(widgets::Look, look);
    widgets::applyLook(*qApp, look);
    const widgets::Colours& c = widgets::coloursFor(qApp->palette());
    for (const QColor& ground : {c.ground, c.panel, c.shade, c.accentSoft}) {
        for (const QColor& mark : {c.better, c.worse, c.unsure, c.accent})
            QVERIFY2(contrast(mark, ground) >= 3, qPrintable(mark.name() + ground.name()));
    }
    QVERIFY(contrast(c.edge, c.panel) >= 3);
    QVERIFY(contrast(c.edge, c.ground) >= 3);
}

void TestTheme::betterAndWorseWeighTheSame()
{
    QFETCH(widgets::Look, look);
    widgets::applyLook(*qApp, look);
    const widgets::Colours& c = widgets::coloursFor(qApp->palette());
    QVERIFY(std::abs(contrast(c.better, c.panel) / contrast(c.worse, c.panel) - 1) < 0.15);
    QVERIFY(c.better.hslHue() > 190 && c.better.hslHue() < 250);
    QVERIFY(c.worse.hslHue() > 15 && c.worse.hslHue() < 45);
}

/// What people who lack one kind of cone see: Machado, Oliveira and Fernandes, IEEE Trans Vis Comput Graph
/// 2009;15:1291, the matrices for severity 1.0 (from memory), applied to linear light.
void TestTheme::betterAndWorseAreToldApartByEveryEye()
{
    using Matrix = std::array<double, 9>;
    constexpr Matrix protan = {0.152286, 1.052583,  -0.204868, 0.114503, 0.786281,
                               0.099216, -0.003882, -0.048116, 1.051998};
    constexpr Matrix deutan = {0.367322, 0.860646,  -0.227968, 0.280085, 0.672501,
                               0.047413, -0.011820, 0.042940,  0.968881};
    constexpr Matrix tritan = {1.255528, -0.076749, -0.178779, -0.078411, 0.930809,
                               0.147602, 0.004733,  0.691367,  0.303900};
    QFETCH(widgets::Look, look);
    widgets::applyLook(*qApp, look);
    const widgets::Colours& c = widgets::coloursFor(qApp->palette());
    for (const Matrix& eye : {protan, deutan, tritan}) {
        QVERIFY(difference(c.better, c.worse, eye) > 40);
        QVERIFY(difference(c.better, c.unsure, eye) > 20);
        QVERIFY(difference(c.worse, c.unsure, eye) > 20);
    }
}

/// On a grey print or screen the shape alone tells them apart.
void TestTheme::marksAreToldApartInGrey()
{
    using judging::Verdict;
    widgets::applyLook(*qApp, widgets::Look::Light);
    std::vector<QImage> marks;
    for (const Verdict verdict :
         {Verdict::Better, Verdict::Worse, Verdict::WithinError, Verdict::NotComparable, Verdict::Changed,
          Verdict::BecameAble, Verdict::BecameUnable, Verdict::StepBetter, Verdict::StepWorse}) {
        QImage mark(16, 16, QImage::Format_RGB32);
        mark.fill(Qt::white);
        QPainter painter(&mark);
        widgets::drawVerdict(painter, QRectF(0, 0, 16, 16), verdict, widgets::coloursFor(qApp->palette()));
        painter.end();
        marks.push_back(mark.convertToFormat(QImage::Format_Grayscale8));
    }
    for (size_t one = 0; one < marks.size(); ++one) {
        for (size_t other = one + 1; other < marks.size(); ++other) {
            int differing = 0;
            for (int y = 0; y < 16; ++y) {
                for (int x = 0; x < 16; ++x)
                    differing +=
                        std::abs(qGray(marks[one].pixel(x, y)) - qGray(marks[other].pixel(x, y))) > 64 ? 1
                                                                                                       : 0;
            }
            QVERIFY2(differing >= 16,
                     qPrintable(u"%1 and %2: %3 of 256 pixels"_s.arg(one).arg(other).arg(differing)));
        }
    }
}

void TestTheme::nothingMovesByItself()
{
    widgets::applyLook(*qApp, widgets::Look::Light);
    QCOMPARE(QApplication::style()->styleHint(QStyle::SH_Widget_Animation_Duration), 0);
    QVERIFY(!QApplication::isEffectEnabled(Qt::UI_FadeMenu));
    QVERIFY(!QApplication::isEffectEnabled(Qt::UI_AnimateCombo));
}

void TestTheme::lookIsRecognisedFromThePalette()
{
    QCOMPARE(widgets::lookOf(QPalette(QColor(0xf0, 0xf0, 0xf0))), widgets::Look::Light);
    QCOMPARE(widgets::lookOf(QPalette(Qt::white)), widgets::Look::BlackOnWhite);
    QCOMPARE(widgets::lookOf(QPalette(Qt::black)), widgets::Look::WhiteOnBlack);
    for (const auto look : {widgets::Look::Light, widgets::Look::Dark, widgets::Look::BlackOnWhite,
                            widgets::Look::WhiteOnBlack}) {
        widgets::applyLook(*qApp, look);
        QCOMPARE(widgets::lookOf(qApp->palette()), look);
    }
    QCOMPARE(widgets::lookOf(widgets::paperPalette()), widgets::Look::Light);
    QCOMPARE(widgets::lookOf(QPalette(QColor(30, 30, 30))), widgets::Look::Dark);
}

void TestTheme::changingTheLookReachesWidgetsThatExist()
{
    widgets::applyLook(*qApp, widgets::Look::Light);
    QPushButton button(u"Sign visit"_s);
    button.ensurePolished();
    const QColor lightText = button.palette().color(QPalette::ButtonText);
    widgets::applyLook(*qApp, widgets::Look::Dark);
    button.ensurePolished();
    QVERIFY(button.palette().color(QPalette::ButtonText) != lightText);
    QCOMPARE(widgets::lookOf(button.palette()), widgets::Look::Dark);
}

void TestTheme::aButtonThatStaysDownLooksSo()
{
    QFETCH(widgets::Look, look);
    widgets::applyLook(*qApp, look);
    for (const QString& kind : {QString(), u"quiet"_s, u"nav"_s, u"key"_s}) {
        QPushButton button(u"And together with…"_s);
        button.setProperty("kind", kind);
        button.setCheckable(true);
        const QImage up = button.grab().toImage();
        button.setChecked(true);
        QVERIFY2(button.grab().toImage() != up, qPrintable(kind));
    }
}

void TestTheme::styleSheetNamesNoUnknownRole()
{
    QVERIFY(!widgets::styleSheet(widgets::coloursFor(qApp->palette())).contains(u'@'));
    const QRegularExpression file(u"url\\((:[^)]+)\\)"_s);
    auto used = file.globalMatch(widgets::styleSheet(widgets::coloursFor(qApp->palette())));
    QVERIFY(used.hasNext());
    while (used.hasNext()) {
        const QString name = used.next().captured(1);
        QVERIFY2(QFile::exists(name), qPrintable(name));
    }
}

void TestTheme::everyIconDrawsSomethingInTheColourAsked()
{
    const QStringList files = QDir(u":/icons"_s).entryList({u"*.svg"_s});
    QVERIFY(!files.isEmpty());
    for (const QString& file : files) {
        const QImage picture =
            widgets::icon(file.chopped(4), QColor(Qt::magenta)).pixmap(QSize(40, 40), 1.0).toImage();
        int drawn = 0;
        for (int y = 0; y < picture.height(); ++y) {
            for (int x = 0; x < picture.width(); ++x)
                drawn += picture.pixelColor(x, y) == QColor(Qt::magenta) ? 1 : 0;
        }
        QVERIFY2(drawn > 10, qPrintable(file));
    }
}

void TestTheme::figuresAreOfOneWidth()
{
    const QFontMetricsF metrics(widgets::figureFont());
    for (const QChar figure : u"123456789"_s)
        QCOMPARE(metrics.horizontalAdvance(figure), metrics.horizontalAdvance(u'0'));
}

HOUSE_TEST(TestTheme)

} // namespace test_theme

#include "test_theme.moc"
