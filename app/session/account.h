#pragma once

#include <QString>

namespace session
{

/// The operating system's user, who stands in the logs until someone has said who sits at the keyboard, and
/// for what is done without a window. Never empty.
QString account();

} // namespace session
