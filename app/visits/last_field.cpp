#include "app/visits/last_field.h"

#include <QSettings>

namespace visits
{

namespace
{

QString key(const records::VisitId& visit)
{
    return QStringLiteral("visits/lastField/") + visit.text;
}

} // namespace

Place lastField(const records::VisitId& visit)
{
    const QStringList parts = QSettings().value(key(visit)).toString().split(u'.');
    const auto side = parts.size() == 2 ? records::sideFromCode(parts[1]) : records::Side::None;
    return {parts[0], side.value_or(records::Side::None)};
}

void rememberLastField(const records::VisitId& visit, const Place& place)
{
    QSettings().setValue(key(visit), place.name());
}

void forgetLastField(const records::VisitId& visit)
{
    QSettings().remove(key(visit));
}

} // namespace visits
