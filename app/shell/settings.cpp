#include "app/shell/settings.h"

#include <QSettings>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

WishedLook wishedLook()
{
    const int stored = QSettings().value(u"window/look"_s, 0).toInt();
    return static_cast<WishedLook>(std::clamp(stored, 0, int(WishedLook::WhiteOnBlack)));
}

void remember(WishedLook look)
{
    QSettings().setValue(u"window/look"_s, static_cast<int>(look));
}

QByteArray rememberedGeometry()
{
    return QSettings().value(u"window/geometry"_s).toByteArray();
}

void rememberGeometry(const QByteArray& geometry)
{
    QSettings().setValue(u"window/geometry"_s, geometry);
}

QString rememberedForm()
{
    return QSettings().value(u"visit/form"_s).toString();
}

void rememberForm(const QString& id)
{
    QSettings().setValue(u"visit/form"_s, id);
}

} // namespace shell
