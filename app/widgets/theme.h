#pragma once

#include <QColor>
#include <QFont>
#include <QPalette>
#include <QVariant>

class QApplication;
class QTableView;
class QTextEdit;
class QWidget;

namespace widgets
{

/// Every colour by its role, a struct for each look. Contrast is tested: 4.5 for text, 3 for marks; 7 for
/// text in the looks of high contrast.
struct Colours {
    QColor ground; ///< behind everything
    QColor panel;  ///< cards, tables, fields
    QColor text;
    QColor quiet;      ///< units, captions, earlier values
    QColor line;       ///< dividers and frames
    QColor accent;     ///< what can be acted on, and focus
    QColor onAccent;   ///< text on the accent
    QColor accentSoft; ///< selected row, pressed key
    QColor better;     ///< blue
    QColor worse;      ///< orange, of equal weight
    QColor unsure;     ///< grey
    QColor shade;      ///< the error range
    QColor danger;     ///< danger to a person or to data, nothing else
    QColor caution;    ///< ground of a caution line
    QColor edge;       ///< frames that tell where to type or press
};

enum class Look { Light, Dark, BlackOnWhite, WhiteOnBlack };

/// The colours that go with a palette, by the look it has.
const Colours& coloursFor(const QPalette& palette);

/// What is drawn for paper, whatever the screen looks like.
QPalette paperPalette();

/// Fusion without motion, palette and style sheet for the whole program. May be called again to change the
/// look.
///
/// The sheet answers to two dynamic properties, set before a widget is shown (or through `dress`):
/// - "kind" of a push or tool button: "primary" (one a screen), "quiet" (no frame), "danger"; none: framed.
///   "key" is a grade key: 44 px, checked fills with the accent.
/// - "role" of a label or frame: "quiet", "caution" and "danger" colour text; "panel" is a flat card with a
/// hairline,
///   "bar" the same across the whole width, "band" a caution's ground.
/// A line edit with the property "wrong" set to true has a danger frame.
void applyLook(QApplication& application, Look look);

/// Look of the desktop the program was started in: dark when its window is darker than its text, of high
/// contrast when nearly nothing more could stand between them.
Look lookOf(const QPalette& system);

/// Sets a dynamic property and has the style sheet look at the widget again.
void dress(QWidget& widget, const char* property, const QVariant& value);

/// A text to be read runs as the screen does, whatever its words begin with.
void dress(QTextEdit& text);

/// Roomy rows without grid lines, whole rows selected, no row numbers, columns that keep what people need.
void dress(QTableView& table);

// Spacing, in steps of 4.
inline constexpr int space1 = 4, space2 = 8, space3 = 12, space4 = 16, space6 = 24, space8 = 32;
inline constexpr int touchHeight = 44;

// Type in four sizes: 0.85, 1, 1.25 and 1.6 of the system font.
QFont captionFont();
QFont bodyFont();
QFont headingFont();
QFont titleFont();

/// A length that goes with the letters: as given at 10 points or less, more where they are larger.
int grown(int pixels);

/// Half as large again as usual, or more: what repeats itself, or can be asked for, gives way to what is
/// read.
bool areLettersLarge();

/// Heights that hold one line of letters: of a key in a row of keys, of a row in a list or a table.
int keyHeight();
int rowHeight();

/// The body font where its figures are all of one width, else the system's fixed font, for columns of
/// numbers.
QFont figureFont();

} // namespace widgets
