#include "app/shell/look.h"

#include "app/shell/settings.h"
#include "app/widgets/theme.h"

#include <QApplication>

namespace shell
{

namespace
{

constexpr auto desktopsLook = "desktopsLook";

widgets::Look wishedOf(const QApplication& application)
{
    switch (wishedLook()) {
    case WishedLook::Light:
        return widgets::Look::Light;
    case WishedLook::Dark:
        return widgets::Look::Dark;
    case WishedLook::BlackOnWhite:
        return widgets::Look::BlackOnWhite;
    case WishedLook::WhiteOnBlack:
        return widgets::Look::WhiteOnBlack;
    case WishedLook::System:
        break;
    }
    return widgets::Look(application.property(desktopsLook).toInt());
}

} // namespace

void applyWishedLook(QApplication& application)
{
    // Once a palette of ours is set, Qt 6.4 has no way to ask for the desktop's.
    if (!application.property(desktopsLook).isValid())
        application.setProperty(desktopsLook, int(widgets::lookOf(application.palette())));
    widgets::applyLook(application, wishedOf(application));
}

} // namespace shell
