#include "app/writing/author_setting.h"

#include <QSettings>

using namespace Qt::StringLiterals;

namespace writing
{

records::Author lastAuthor()
{
    const QSettings settings;
    return {settings.value(u"author/name"_s).toString(), settings.value(u"author/role"_s).toString(),
            settings.value(u"author/registration"_s).toString()};
}

void rememberAuthor(const records::Author& author)
{
    QSettings settings;
    settings.setValue(u"author/name"_s, author.name);
    settings.setValue(u"author/role"_s, author.role);
    settings.setValue(u"author/registration"_s, author.registration);
}

} // namespace writing
