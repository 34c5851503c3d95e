#pragma once

namespace widgets
{

/// Tells screen readers that a row of keys is a group and its keys radio buttons, or tick boxes where any of
/// them may be down, with the keyboard on the key that the arrow keys have come to. Once for the program.
void speakKeyRows();

} // namespace widgets
