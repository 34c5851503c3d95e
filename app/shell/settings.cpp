#include "app/shell/settings.h"

#include <QFileInfo>
#include <QSettings>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

const QString recordsKey = u"records/recent"_s;
constexpr qsizetype mostRecords = 8;

} // namespace

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

QStringList recentRecords()
{
    return QSettings().value(recordsKey).toStringList().mid(0, mostRecords);
}

void rememberRecords(const QString& path)
{
    const QString whole = QFileInfo(path).absoluteFilePath();
    QStringList all = recentRecords();
    all.removeAll(whole);
    all.prepend(whole);
    QSettings().setValue(recordsKey, all.mid(0, mostRecords));
}

void forgetRecords(const QString& path)
{
    QStringList all = recentRecords();
    all.removeAll(QFileInfo(path).absoluteFilePath());
    QSettings().setValue(recordsKey, all);
}

void forgetAllRecords()
{
    QSettings().remove(recordsKey);
}

} // namespace shell
