#pragma once

#include "app/session/session.h"

#include <QSize>

class QWidget;

namespace shell
{

/// Takes a screen and its name: "examination".
using TakeScreen = std::function<void(QWidget& screen, const QString& name)>;

/// Shows every screen, one after another, and hands each over when it has settled. The patient shown is the
/// first by record number, in a window of this size. The records are worked in: a letter is signed and a
/// visit amended, so give it a copy.
base::Result<void> walkScreens(session::Session& session, const TakeScreen& take, QSize size = {1280, 860});

/// Writes a picture of every screen, light and dark, as PNG into a folder that is made where it is not there:
/// "light-examination.png". Gives back the files written.
base::Result<QStringList> takePictures(session::Session& session, const QString& folder);

} // namespace shell
