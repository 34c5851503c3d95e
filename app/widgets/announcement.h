#pragma once

class QString;
class QWidget;

namespace widgets
{

/// Has a screen reader speak a sentence about what shows in a widget's window, wherever the keyboard is.
/// Nothing is spoken while the widget is hidden. The last of several at once is heard; a key that is pressed
/// cuts it short, so what can wait is said when the hand rests.
void announce(const QWidget& about, const QString& words);

} // namespace widgets
