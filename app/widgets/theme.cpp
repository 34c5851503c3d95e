#include "app/widgets/theme.h"

#include "app/widgets/style_sheet.h"

#include <QApplication>
#include <QFontDatabase>
#include <QFontMetricsF>
#include <QHeaderView>
#include <QStyle>
#include <QStyleFactory>
#include <QTableView>
#include <QTextDocument>
#include <QTextEdit>
#include <QTextOption>

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
        .edge = rgb(0x868f94),
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
    if (font.pointSizeF() > 0 && font.pointSizeF() < 10) {
        font.setPointSizeF(10);
        application.setFont(font);
    }
}

} // namespace

const Colours& coloursFor(const QPalette& palette)
{
    return lookOf(palette) == Look::Dark ? dark() : light();
}

Look lookOf(const QPalette& system)
{
    const int ground = system.color(QPalette::Window).lightness();
    return ground < system.color(QPalette::WindowText).lightness() ? Look::Dark : Look::Light;
}

void applyLook(QApplication& application, Look look)
{
    const Colours& colours = look == Look::Dark ? dark() : light();
    // A palette does not reach widgets that exist while a style sheet is set.
    application.setStyleSheet({});
    application.setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
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
    const int textHeight = QFontMetrics(bodyFont()).height() + space3;
    table.setShowGrid(false);
    table.setWordWrap(false);
    table.setFrameShape(QFrame::StyledPanel);
    table.setSelectionBehavior(QAbstractItemView::SelectRows);
    table.setSelectionMode(QAbstractItemView::SingleSelection);
    table.setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table.setTabKeyNavigation(false);
    table.verticalHeader()->hide();
    table.verticalHeader()->setMinimumSectionSize(rowHeight);
    table.verticalHeader()->setDefaultSectionSize(std::max(rowHeight, textHeight));
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
