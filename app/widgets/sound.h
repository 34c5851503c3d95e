#pragma once

namespace widgets
{

/// The desktop's own short sound, where someone has not switched it off: at the start of a clock and when a
/// set time is over, for whoever watches the patient and not the screen.
void sound();

/// Kept for the next start of the program; on at first.
bool isSoundOn();
void setSoundOn(bool on);

} // namespace widgets
