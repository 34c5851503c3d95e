#include "app/shell/settings.h"

#include <QSettings>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

records::Author rememberedAuthor()
{
    const QSettings settings;
    return {settings.value(u"author/name"_s).toString(), settings.value(u"author/role"_s).toString(),
            settings.value(u"author/registration"_s).toString()};
}

void remember(const records::Author& author)
{
    QSettings settings;
    settings.setValue(u"author/name"_s, author.name);
    settings.setValue(u"author/role"_s, author.role);
    settings.setValue(u"author/registration"_s, author.registration);
}

WishedLook wishedLook()
{
    const int stored = QSettings().value(u"window/look"_s, 0).toInt();
    return static_cast<WishedLook>(std::clamp(stored, 0, 2));
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

QString whoWrites()
{
    const QString name = rememberedAuthor().name;
    return name.isEmpty() ? qEnvironmentVariable("USER", u"unknown"_s) : name;
}

} // namespace shell
