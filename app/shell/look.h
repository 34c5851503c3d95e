#pragma once

class QApplication;

namespace shell
{

/// Applies the look the person wishes. The first call takes the desktop's own from the application's palette,
/// so it comes before anything else sets one.
void applyWishedLook(QApplication& application);

} // namespace shell
