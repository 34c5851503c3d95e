#include "core/catalogue/requirement.h"

#include "core/base/text.h"

#include <algorithm>

namespace catalogue
{

bool Requirement::allows(const QString& recorded) const
{
    const QString asked = base::folded(recorded);
    return !asked.isEmpty() &&
           std::ranges::any_of(values, [&](const QString& value) { return base::folded(value) == asked; });
}

std::optional<Requirement> requirement(const QString& text)
{
    const QStringList parts = text.split(u'=');
    if (parts.size() != 2 || parts.first().isEmpty())
        return std::nullopt;
    const QStringList values = parts.last().split(u'|');
    if (values.contains(QString()))
        return std::nullopt;
    return Requirement{parts.first(), values};
}

QString written(const std::optional<Requirement>& requirement)
{
    return requirement ? requirement->condition + u'=' + requirement->values.join(u'|') : QString();
}

} // namespace catalogue
