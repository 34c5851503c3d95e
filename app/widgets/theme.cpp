#include "app/widgets/theme.h"

#include "app/widgets/style_sheet.h"

#include <QApplication>
#include <QFontDatabase>
#include <QFontMetricsF>
#include <QHeaderView>
#include <QProxyStyle>
#include <QStyle>
#include <QStyleFactory>
#include <QTableView>
#include <QTextDocument>
#include <QTextEdit>
#include <QTextOption>

#include <algorithm>
#include <cmath>

namespace widgets
{

namespace
{

QColor rgb(QRgb value)
{
    return QColor::fromRgb(value);
}

const Colours& light()
{
    static const Colours colours = {
        .ground = rgb(0xf3f4f2),
        .panel = rgb(0xffffff),
        .text = rgb(0x1c2326),
        .quiet = rgb(0x566066),
        .line = rgb(0xdcdfdd),
        .accent = rgb(0x0f656b),
        .onAccent = rgb(0xffffff),
        .accentSoft = rgb(0xdcedec),
        .better = rgb(0x1c62b0),
        .worse = rgb(0xab4f06),
        .unsure = rgb(0x6a7378),
        .shade = rgb(0xe4e7e6),
        .danger = rgb(0xb3202a),
        .caution = rgb(0xfaf0d8),
        .edge = rgb(0x858e93),
    };
    return colours;
}

const Colours& dark()
{
    static const Colours colours = {
        .ground = rgb(0x15191b),
        .panel = rgb(0x1d2225),
        .text = rgb(0xe5e8e8),
        .quiet = rgb(0xa3adb2),
        .line = rgb(0x343b3f),
        .accent = rgb(0x6bc2c0),
        .onAccent = rgb(0x08211f),
        .accentSoft = rgb(0x1d3b3d),
        .better = rgb(0x78b4f5),
        .worse = rgb(0xf19d62),
        .unsure = rgb(0x9aa3a8),
        .shade = rgb(0x2e3539),
        .danger = rgb(0xff8f88),
        .caution = rgb(0x372e17),
        .edge = rgb(0x747e84),
    };
    return colours;
}

const Colours& blackOnWhite()
{
    static const Colours colours = {
        .ground = rgb(0xffffff),
        .panel = rgb(0xffffff),
        .text = rgb(0x000000),
        .quiet = rgb(0x333333),
        .line = rgb(0x6e6e6e),
        .accent = rgb(0x003a75),
        .onAccent = rgb(0xffffff),
        .accentSoft = rgb(0xcfe3ff),
        .better = rgb(0x003f8a),
        .worse = rgb(0x7a2e00),
        .unsure = rgb(0x3a3a3a),
        .shade = rgb(0xdddddd),
        .danger = rgb(0x8b0010),
        .caution = rgb(0xfff3c0),
        .edge = rgb(0x000000),
    };
    return colours;
}

const Colours& whiteOnBlack()
{
    static const Colours colours = {
        .ground = rgb(0x000000),
        .panel = rgb(0x000000),
        .text = rgb(0xffffff),
        .quiet = rgb(0xdddddd),
        .line = rgb(0x8c8c8c),
        .accent = rgb(0x7fe3ff),
        .onAccent = rgb(0x000000),
        .accentSoft = rgb(0x00303f),
        .better = rgb(0x9ecbff),
        .worse = rgb(0xffb98a),
        .unsure = rgb(0xcccccc),
        .shade = rgb(0x2b2b2b),
        .danger = rgb(0xffb3b3),
        .caution = rgb(0x2c2600),
        .edge = rgb(0xffffff),
    };
    return colours;
}

const Colours& coloursOf(Look look)
{
    switch (look) {
    case Look::Dark:
        return dark();
    case Look::BlackOnWhite:
        return blackOnWhite();
    case Look::WhiteOnBlack:
        return whiteOnBlack();
    case Look::Light:
        break;
    }
    return light();
}

/// Relative luminance (WCAG 2.2), 0 to 1.
double luminance(const QColor& colour)
{
    const auto linear = [](double part) {
        return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

/// Fusion, with nothing that moves by itself.
class StillStyle : public QProxyStyle
{
public:
    StillStyle() : QProxyStyle(QStyleFactory::create(QStringLiteral("Fusion"))) {}

    int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                  QStyleHintReturn* answer) const override
    {
        return hint == SH_Widget_Animation_Duration ? 0
                                                    : QProxyStyle::styleHint(hint, option, widget, answer);
    }
};

QPalette paletteOf(const Colours& colours)
{
    QPalette palette(colours.panel, colours.ground);
    palette.setColor(QPalette::WindowText, colours.text);
    palette.setColor(QPalette::Base, colours.panel);
    palette.setColor(QPalette::AlternateBase, colours.ground);
    palette.setColor(QPalette::Text, colours.text);
    palette.setColor(QPalette::Button, colours.panel);
    palette.setColor(QPalette::ButtonText, colours.text);
    palette.setColor(QPalette::BrightText, colours.danger);
    palette.setColor(QPalette::PlaceholderText, colours.quiet);
    palette.setColor(QPalette::Highlight, colours.accent);
    palette.setColor(QPalette::HighlightedText, colours.onAccent);
    palette.setColor(QPalette::Link, colours.accent);
    palette.setColor(QPalette::LinkVisited, colours.accent);
    palette.setColor(QPalette::ToolTipBase, colours.panel);
    palette.setColor(QPalette::ToolTipText, colours.text);
    palette.setColor(QPalette::Light, colours.panel);
    palette.setColor(QPalette::Midlight, colours.line);
    palette.setColor(QPalette::Mid, colours.line);
    palette.setColor(QPalette::Dark, colours.edge);
    palette.setColor(QPalette::Shadow, colours.edge);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        palette.setColor(QPalette::Disabled, role, colours.unsure);
    palette.setColor(QPalette::Disabled, QPalette::Highlight, colours.line);
    return palette;
}

constexpr double usualSize = 10; ///< of the body font, in points

QFont scaled(double factor)
{
    QFont font = bodyFont();
    font.setPointSizeF(font.pointSizeF() * factor);
    return font;
}

/// Small system fonts tire over a working day.
void enlargeSmallFont(QApplication& application)
{
    QFont font = application.font();
    if (font.pointSizeF() > 0 && font.pointSizeF() < usualSize) {
        font.setPointSizeF(usualSize);
        application.setFont(font);
    }
}

} // namespace

const Colours& coloursFor(const QPalette& palette)
{
    return coloursOf(lookOf(palette));
}

QPalette paperPalette()
{
    return paletteOf(light());
}

Look lookOf(const QPalette& system)
{
    constexpr double nearlyMost = 19.5; // of 21, which is black on white; usual desktops have 18 at most
    const double ground = luminance(system.color(QPalette::Window));
    const double text = luminance(system.color(QPalette::WindowText));
    const bool isStrong = (std::max(ground, text) + 0.05) / (std::min(ground, text) + 0.05) >= nearlyMost;
    if (ground < text)
        return isStrong ? Look::WhiteOnBlack : Look::Dark;
    return isStrong ? Look::BlackOnWhite : Look::Light;
}

void applyLook(QApplication& application, Look look)
{
    const Colours& colours = coloursOf(look);
    // A palette does not reach widgets that exist while a style sheet is set.
    application.setStyleSheet({});
    application.setStyle(new StillStyle);
    for (const Qt::UIEffect effect : {Qt::UI_AnimateMenu, Qt::UI_FadeMenu, Qt::UI_AnimateCombo,
                                      Qt::UI_AnimateTooltip, Qt::UI_FadeTooltip, Qt::UI_AnimateToolBox})
        QApplication::setEffectEnabled(effect, false);
    enlargeSmallFont(application);
    application.setPalette(paletteOf(colours));
    application.setStyleSheet(styleSheet(colours));
}

void dress(QWidget& widget, const char* property, const QVariant& value)
{
    if (widget.property(property) == value)
        return;
    widget.setProperty(property, value);
    widget.style()->unpolish(&widget);
    widget.style()->polish(&widget);
    widget.update();
}

void dress(QTextEdit& text)
{
    QTextOption option = text.document()->defaultTextOption();
    option.setTextDirection(text.layoutDirection());
    text.document()->setDefaultTextOption(option);
}

void dress(QTableView& table)
{
    table.setShowGrid(false);
    table.setWordWrap(false);
    table.setFrameShape(QFrame::StyledPanel);
    table.setSelectionBehavior(QAbstractItemView::SelectRows);
    table.setSelectionMode(QAbstractItemView::SingleSelection);
    table.setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table.setTabKeyNavigation(false);
    table.verticalHeader()->hide();
    table.verticalHeader()->setMinimumSectionSize(rowHeight());
    table.verticalHeader()->setDefaultSectionSize(rowHeight());
    table.horizontalHeader()->setHighlightSections(false);
    table.horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
}

QFont bodyFont()
{
    return QApplication::font();
}

QFont captionFont()
{
    return scaled(0.85);
}

QFont headingFont()
{
    return scaled(1.25);
}

QFont titleFont()
{
    return scaled(1.6);
}

int grown(int pixels)
{
    return int(std::lround(pixels * std::max(1.0, bodyFont().pointSizeF() / usualSize)));
}

bool areLettersLarge()
{
    return bodyFont().pointSizeF() >= 1.5 * usualSize;
}

int keyHeight()
{
    constexpr int least = 28;
    return std::max(least, QFontMetrics(bodyFont()).height() + space1);
}

int rowHeight()
{
    constexpr int least = 32;
    return std::max(least, QFontMetrics(bodyFont()).height() + space3);
}

QFont figureFont()
{
    const QFont body = bodyFont();
    const QFontMetricsF metrics(body);
    for (const QChar figure : QStringLiteral("0123456789")) {
        if (!qFuzzyCompare(metrics.horizontalAdvance(figure), metrics.horizontalAdvance(u'0'))) {
            QFont fixed = QFontDatabase::systemFont(QFontDatabase::FixedFont);
            fixed.setPointSizeF(body.pointSizeF());
            return fixed;
        }
    }
    return body;
}

} // namespace widgets
