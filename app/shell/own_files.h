#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

namespace shell
{

/// Writes a backup where it is wished, and says that it is whole.
void backUp(const session::Session& session, session::Prompts& prompts, QWidget* window);

// The clinic's own catalogue as a file that goes from one clinic to another.

/// Whether a file was read. A refused one changes nothing.
bool readOwn(session::Session& session, session::Prompts& prompts);
void writeOwn(const session::Session& session, session::Prompts& prompts);

} // namespace shell
