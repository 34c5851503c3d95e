#include "app/widgets/style_sheet.h"

#include <QFontMetrics>
#include <QPalette>

#include <algorithm>
#include <utility>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

constexpr int tick = 14; ///< a box to tick, in pixels at the usual size of letters

// A focused frame is 2 px; its padding gives back what the frame takes, so that nothing moves.

constexpr auto buttons = R"(
QPushButton { background: @panel; color: @text; border: 1px solid @edge; border-radius: 6px; padding: 6px 15px;
  min-height: @tall; }
QPushButton:hover { background: @ground; }
QPushButton:pressed, QPushButton:checked { background: @accentSoft; border-color: @accent; }
QPushButton:focus { border: 2px solid @accent; padding: 5px 14px; }
QPushButton:disabled { color: @unsure; border-color: @line; }
QPushButton[kind="primary"] { background: @accent; color: @onAccent; border-color: @accent; font-weight: 600; }
QPushButton[kind="primary"]:hover { border-color: @text; }
QPushButton[kind="primary"]:focus { border: 2px solid @text; }
QPushButton[kind="primary"]:disabled { background: @line; color: @unsure; border-color: @line; }
QPushButton[kind="quiet"] { background: transparent; border-color: transparent; color: @accent; padding: 6px 9px; }
QPushButton[kind="quiet"]:hover { background: @accentSoft; }
QPushButton[kind="quiet"]:checked { background: @accentSoft; border-color: @accent; }
QPushButton[kind="quiet"]:focus { border: 2px solid @accent; padding: 5px 8px; }
QPushButton[dense="true"] { padding: 1px 9px; min-height: @tall; }
QPushButton[dense="true"]:focus { padding: 0 8px; }
QPushButton[kind="quiet"]:disabled { color: @unsure; }
QPushButton[kind="nav"] { background: transparent; border-color: transparent; color: @quiet; font-weight: 600; }
QPushButton[kind="nav"]:hover { color: @text; }
QPushButton[kind="nav"]:checked { background: @accentSoft; color: @accent; }
QPushButton[kind="nav"]:focus { border: 2px solid @accent; }
QPushButton[kind="danger"] { color: @danger; border-color: @danger; }
QPushButton[kind="danger"]:focus { border: 2px solid @danger; }
QPushButton[kind="key"], QToolButton[kind="key"] { background: @panel; border: 1px solid @edge; border-radius: 6px;
  padding: 0 5px; min-width: 28px; min-height: 30px; }
QPushButton[kind="key"]:hover, QToolButton[kind="key"]:hover { background: @accentSoft; }
QPushButton[kind="key"]:checked, QToolButton[kind="key"]:checked { background: @accent; color: @onAccent;
  border-color: @accent; font-weight: 600; }
QPushButton[kind="key"]:focus, QToolButton[kind="key"]:focus { border: 2px solid @accent; padding: 0 4px; }
QPushButton[kind="key"]:checked:focus, QToolButton[kind="key"]:checked:focus { border: 2px solid @text; }
QPushButton::menu-indicator { image: url(:/icons/chevron-down.svg); width: 12px; height: 12px;
  subcontrol-position: right center; subcontrol-origin: padding; right: 6px; }
QToolButton { background: transparent; color: @text; border: 1px solid transparent; border-radius: 6px; padding: 5px; }
QToolButton:hover, QToolButton:checked, QToolButton:pressed { background: @accentSoft; }
QToolButton:focus { border: 2px solid @accent; padding: 4px; }
QToolButton:disabled { color: @unsure; }
QToolButton[kind="small"] { padding: 0 4px; }
QToolButton::menu-indicator { image: none; }
)";

constexpr auto fields = R"(
QLineEdit, QComboBox, QAbstractSpinBox, QPlainTextEdit, QTextEdit { background: @panel;
  border: 1px solid @edge; border-radius: 6px; padding: 5px 9px; selection-background-color: @accent;
  selection-color: @onAccent; }
QLineEdit, QComboBox, QAbstractSpinBox { min-height: @tall; }
QLineEdit:focus, QComboBox:focus, QAbstractSpinBox:focus, QPlainTextEdit:focus, QTextEdit:focus {
  border: 2px solid @accent; padding: 4px 8px; }
QLineEdit:disabled, QComboBox:disabled, QAbstractSpinBox:disabled, QPlainTextEdit:disabled, QTextEdit:disabled {
  background: @ground; border-color: @line; color: @unsure; }
QLineEdit:read-only, QPlainTextEdit:read-only, QTextEdit:read-only { background: @ground; border-color: @line; }
QLineEdit:read-only:focus, QPlainTextEdit:read-only:focus, QTextEdit:read-only:focus { border-color: @accent; }
QLineEdit[dense="true"], QComboBox[dense="true"] { padding: 2px 9px; }
QLineEdit[dense="true"]:focus, QComboBox[dense="true"]:focus { padding: 1px 8px; }
QLineEdit[dense="true"][wrong="true"] { padding: 1px 8px; }
QLineEdit[wrong="true"], QComboBox[wrong="true"], QAbstractSpinBox[wrong="true"], QPlainTextEdit[wrong="true"] {
  border: 2px solid @danger; padding: 4px 8px; }
QComboBox { combobox-popup: 0; }
QComboBox::drop-down { border: 0; width: 26px; }
QComboBox::down-arrow { image: url(:/icons/chevron-down.svg); width: 14px; height: 14px; }
QComboBox QAbstractItemView { background: @panel; border: 1px solid @edge; border-radius: 0; padding: 4px; outline: 0; }
QComboBox QAbstractItemView::item { min-height: 28px; padding: 0 6px; border: 0; }
QAbstractSpinBox { padding-right: 22px; }
QAbstractSpinBox:focus { padding-right: 21px; }
QAbstractSpinBox::up-button, QAbstractSpinBox::down-button { border: 0; width: 20px; background: transparent; }
QAbstractSpinBox::up-arrow { image: url(:/icons/chevron-up.svg); width: 11px; height: 11px; }
QAbstractSpinBox::down-arrow { image: url(:/icons/chevron-down.svg); width: 11px; height: 11px; }
QCheckBox, QRadioButton { spacing: 8px; padding: 3px; border: 2px solid transparent; border-radius: 6px; }
QRadioButton::indicator { width: @tick; height: @tick; border: 1px solid @edge; border-radius: 8px; background: @panel; }
QRadioButton::indicator:checked { width: 6px; height: 6px; border: 5px solid @accent; }
QRadioButton::indicator:disabled { border-color: @line; }
QCheckBox::indicator, QAbstractItemView::indicator { width: @tick; height: @tick; border: 1px solid @edge;
  border-radius: 4px; background: @panel; }
QCheckBox::indicator:checked, QAbstractItemView::indicator:checked { border-color: @accent; background: @accentSoft;
  image: url(:/icons/check.svg); }
QCheckBox::indicator:disabled { border-color: @line; }
QCheckBox:focus, QRadioButton:focus { border-color: @accent; }
QCheckBox:disabled, QRadioButton:disabled { color: @unsure; }
)";

constexpr auto views = R"(
QAbstractItemView { background: @panel; color: @text; border: 1px solid @line; border-radius: 6px; padding: 1px;
  outline: 0; selection-background-color: @accentSoft; selection-color: @text; }
QAbstractItemView:focus { border: 2px solid @accent; padding: 0; }
QTableView::item { border: 0; border-bottom: 1px solid @line; padding: 0 8px; }
QTreeView::item, QListView::item { border: 0; padding: 4px 8px; min-height: 24px; }
QAbstractItemView::item:hover { background: @ground; }
QAbstractItemView::item:selected { background: @accentSoft; color: @text; }
QHeaderView, QHeaderView::section { background: @panel; }
QHeaderView { border: 0; border-radius: 0; padding: 0; }
QHeaderView:focus { border: 0; padding: 0; }
QHeaderView::section { color: @quiet; border: 0; border-bottom: 1px solid @edge; padding: 7px 11px; font-weight: 600; }
QTableCornerButton::section { background: @panel; border: 0; border-bottom: 1px solid @edge; }
QAbstractScrollArea::corner { background: transparent; border: 0; }
QScrollBar { background: transparent; border: 0; }
QScrollBar:vertical { width: 12px; margin: 2px; }
QScrollBar:horizontal { height: 12px; margin: 2px; }
QScrollBar::handle { background: @edge; border: 2px solid transparent; border-radius: 4px; }
QScrollBar::handle:vertical { min-height: 32px; }
QScrollBar::handle:horizontal { min-width: 32px; }
QScrollBar::handle:hover { background: @quiet; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
)";

constexpr auto surfaces = R"(
QMainWindow, QDialog { background: @ground; }
QScrollArea { background: transparent; border: 0; }
QScrollArea > QWidget > QWidget#page { background: transparent; }
QFrame[role="panel"] { background: @panel; border: 1px solid @line; border-radius: 6px; }
QFrame[role="bar"] { background: @panel; border: 0; border-bottom: 1px solid @line; }
QFrame[role="band"] { background: @caution; border: 1px solid @line; border-radius: 6px; }
QFrame[role="foot"] { background: @panel; border: 0; border-top: 1px solid @line; }
QFrame[role="line"] { background: @line; border: 0; }
QLabel { background: transparent; }
QLabel[role="quiet"] { color: @quiet; }
QLabel[role="danger"] { color: @danger; }
QLabel[role="better"] { color: @better; }
QLabel[role="worse"] { color: @worse; }
QLabel[role="caution"] { background: @caution; border-radius: 6px; padding: 4px 8px; }
QGroupBox { border: 1px solid @line; border-radius: 6px; margin-top: 12px; padding: 12px; background: @panel; }
QGroupBox::title { subcontrol-origin: margin; left: 12px; padding: 0 4px; color: @quiet; }
QTabWidget::pane { border: 0; }
QTabBar { background: transparent; qproperty-drawBase: 0; }
QTabBar::tab { background: transparent; color: @quiet; border: 2px solid transparent; border-bottom: 2px solid transparent;
  padding: 8px 14px; margin-right: 4px; }
QTabBar::tab:hover { color: @text; }
QTabBar::tab:selected { color: @accent; border-bottom: 2px solid @accent; }
QTabBar::scroller { width: 48px; }
QTabBar::tab:disabled { color: @unsure; }
QTabBar::tab:selected:focus { border: 2px solid @accent; border-radius: 6px; }
QSplitter::handle { background: transparent; }
QSplitter::handle:horizontal { background: @line; width: 1px; margin: 0 7px; }
QSplitter::handle:vertical { height: 12px; }
QMenu { background: @panel; color: @text; border: 1px solid @edge; padding: 4px; }
QMenu::item { padding: 7px 24px 7px 12px; border-radius: 4px; }
QMenu::item:selected { background: @accentSoft; }
QMenu::item:disabled { color: @unsure; }
QMenu::separator { height: 1px; background: @line; margin: 4px 8px; }
QToolTip { background: @panel; color: @text; border: 1px solid @edge; padding: 5px 8px; }
QProgressBar { background: @shade; border: 0; border-radius: 3px; text-align: center; min-height: 6px; }
QProgressBar::chunk { background: @accent; border-radius: 3px; }
)";

} // namespace

QString styleSheet(const Colours& colours)
{
    // A name that begins with another stands before it.
    const std::pair<const char*, QColor> roles[] = {
        {"@accentSoft", colours.accentSoft}, {"@onAccent", colours.onAccent}, {"@accent", colours.accent},
        {"@ground", colours.ground},         {"@panel", colours.panel},       {"@text", colours.text},
        {"@quiet", colours.quiet},           {"@line", colours.line},         {"@better", colours.better},
        {"@worse", colours.worse},           {"@unsure", colours.unsure},     {"@shade", colours.shade},
        {"@danger", colours.danger},         {"@caution", colours.caution},   {"@edge", colours.edge},
    };
    QString sheet;
    for (const char* part : {surfaces, buttons, views, fields})
        sheet += QString::fromLatin1(part);
    for (const auto& [role, colour] : roles)
        sheet.replace(QLatin1String(role), colour.name());
    constexpr int leastLine = 20;
    const int line = std::max(leastLine, QFontMetrics(bodyFont()).height());
    sheet.replace(u"@tall"_s, u"%1px"_s.arg(line)).replace(u"@tick"_s, u"%1px"_s.arg(grown(tick)));
    return sheet;
}

QString pageStyle(const QPalette& palette)
{
    const Colours& colours = coloursFor(palette);
    return u"h2 { margin: 0 0 2px 0; } h4 { color: %1; margin: 12px 0 2px 0; } p { margin: 0 0 10px 0; } "
           ".last { color: %1; margin: 12px 0 0 0; } .quiet, .head { color: %1; } .head { padding: 6px 16px "
           "4px 0; } "
           ".said { padding: 6px 0 4px 0; } "
           "ul { margin: 0; } a { color: %2; }"_s.arg(colours.quiet.name(), colours.accent.name());
}

} // namespace widgets
