#pragma once

class QTouchEvent;
class QWidget;

namespace widgets
{

/// Makes every button, line and list in `root` tall enough for a finger (44 px), or as tall as they were.
void setTouch(QWidget& root, bool touch);

/// What a finger did that was lifted: −1 a wipe to the right (to what was before), 1 to the left, 0 anything
/// else.
int wiped(const QTouchEvent& event);

/// Whoever takes the touches of a widget for wipes gives those that are none to the button or line below the
/// finger.
void tap(const QWidget& widget, const QTouchEvent& event);

} // namespace widgets
