#include "app/widgets/icons.h"
#include "app/widgets/style_sheet.h"
#include "app/widgets/theme.h"

#include "tests/support/test_support.h"

#include <QApplication>
#include <QDir>
#include <QPushButton>
#include <QRegularExpression>

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
    void lookIsRecognisedFromThePalette();
    void changingTheLookReachesWidgetsThatExist();
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
}

void TestTheme::textStandsOut()
{
    QFETCH(widgets::Look, look);
    widgets::applyLook(*qApp, look);
    const widgets::Colours& c = widgets::coloursFor(qApp->palette());
    for (const QColor& ground : {c.ground, c.panel, c.accentSoft, c.caution, c.shade}) {
        QVERIFY2(contrast(c.text, ground) >= 4.5, qPrintable(ground.name()));
        QVERIFY2(contrast(c.quiet, ground) >= 4.5, qPrintable(ground.name()));
    }
    for (const QColor& ground : {c.ground, c.panel}) {
        for (const QColor& text : {c.accent, c.better, c.worse, c.danger})
            QVERIFY2(contrast(text, ground) >= 4.5, qPrintable(text.name() + ground.name()));
    }
    QVERIFY(contrast(c.onAccent, c.accent) >= 4.5);
    QVERIFY(contrast(c.danger, c.caution) >= 4.5);
    QVERIFY(contrast(c.accent, c.accentSoft) >= 4.5);
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
    QVERIFY(contrast(c.edge, c.ground) >= 2.8);
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

void TestTheme::lookIsRecognisedFromThePalette()
{
    QCOMPARE(widgets::lookOf(QPalette(Qt::white)), widgets::Look::Light);
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
