#pragma once

#include <QColor>
#include <QFont>
#include <QPalette>

class QApplication;

namespace widgets
{

/// Every colour by its role; one struct for light, one for dark. Contrast is tested: 4.5 for text, 3 for marks.
struct Colours {
    QColor ground;     ///< behind everything
    QColor panel;      ///< cards, tables, fields
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
};

/// The colours that go with a palette: dark when its window is darker than its text.
const Colours& coloursFor(const QPalette& palette);

enum class Look { Light, Dark };

/// Fusion, palette and style sheet for the whole program. May be called again to change the look.
void applyLook(QApplication& application, Look look);

/// Look of the desktop the program was started in.
Look lookOf(const QPalette& system);

// Spacing, in steps of 4.
inline constexpr int space1 = 4, space2 = 8, space3 = 12, space4 = 16, space6 = 24, space8 = 32;
inline constexpr int rowHeight = 32, touchHeight = 44;

// Type in four sizes: 0.85, 1, 1.25 and 1.6 of the system font.
QFont captionFont();
QFont bodyFont();
QFont headingFont();
QFont titleFont();

} // namespace widgets
