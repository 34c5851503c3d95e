#pragma once

#include <QList>
#include <QUrl>

namespace shell
{

/// What was let go over the window.
enum class Dropped { Findings, Records, Several, Unknown };

/// Known by the end of its name. Several are several, whatever they are; what is no file of this computer is
/// unknown.
Dropped whatIsDropped(const QList<QUrl>& urls);

} // namespace shell
