#pragma once

#include <QString>

/// Where things are on the machine that built the tests; only places.cpp is compiled anew in another folder.
namespace places
{

QString program();                       ///< the program of this build
QString inSource(const QString& path);   ///< a file or folder of the checkout
QString inEvidence(const QString& path); ///< one of the evidence beside it, or of the folder APLOMB_EVIDENCE

} // namespace places
