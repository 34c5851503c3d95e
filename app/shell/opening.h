#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

namespace shell
{

/// Where the records are unless another file is named: in the person's data folder.
QString usualRecordsPath();

/// Opens the records, which asks for the password where they are sealed. Where there is no file, asks whether
/// to begin an empty clinic, which is sealed, or the demo clinic and makes it. nullptr when the person turned
/// back or the file was refused, which has been told.
std::unique_ptr<session::Session> openedRecords(const QString& path, const catalogue::Catalogue& catalogue,
                                                const session::Clock& clock, session::Prompts& prompts);

} // namespace shell
