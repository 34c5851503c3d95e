#pragma once

#include "app/session/session.h"

namespace shell
{

/// Writes a picture of every screen, light and dark, as PNG into a folder that is made where it is not there:
/// "light-examination.png". The patient shown is the first by record number. Gives back the files written.
/// The records are worked in: a letter is sent and a visit amended, so give it a copy.
base::Result<QStringList> takePictures(session::Session& session, const QString& folder);

} // namespace shell
