#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

namespace importing
{

/// Asks for a findings file, shows what would become of it, and takes it if that is wished.
void importFindings(session::Session& session, session::Prompts& prompts, QWidget* window);

/// The same with a file that is known. Anything but a .csv or .json file is refused.
void importFindings(const QString& path, session::Session& session, session::Prompts& prompts,
                    QWidget* window);

/// Asks whose records go into a file, and writes it.
void exportRecords(session::Session& session, session::Prompts& prompts, QWidget* window);

/// Asks whether the last import is to be taken back, does it, and says what has become of it.
void takeBackImport(session::Session& session, session::Prompts& prompts, QWidget* window);

} // namespace importing
