#include "app/shell/look.h"

#include "app/shell/settings.h"
#include "app/widgets/theme.h"

#include <QApplication>

namespace shell
{

namespace
{

constexpr auto desktopIsDark = "desktopIsDark";

} // namespace

void applyWishedLook(QApplication& application)
{
    // Once a palette of ours is set, Qt 6.4 has no way to ask for the desktop's.
    if (!application.property(desktopIsDark).isValid())
        application.setProperty(desktopIsDark, widgets::lookOf(application.palette()) == widgets::Look::Dark);
    const WishedLook wished = wishedLook();
    const bool isDark = wished == WishedLook::Dark ||
                        (wished == WishedLook::System && application.property(desktopIsDark).toBool());
    widgets::applyLook(application, isDark ? widgets::Look::Dark : widgets::Look::Light);
}

} // namespace shell
