#include "core/values/value.h"

#include <array>
#include <utility>

namespace values
{

namespace
{

constexpr std::array<std::pair<Absence, const char*>, 5> codes = {{
    {Absence::Unable, "unable"},
    {Absence::NotAttempted, "not-attempted"},
    {Absence::Refused, "refused"},
    {Absence::NotApplicable, "not-applicable"},
    {Absence::NotAsked, "not-asked"},
}};

} // namespace

std::optional<double> number(const Value& value)
{
    if (const auto* quantity = std::get_if<Quantity>(&value))
        return quantity->number;
    if (const auto* grade = std::get_if<Grade>(&value))
        return grade->step;
    return std::nullopt;
}

QString code(Absence absence)
{
    return QString::fromLatin1(codes.at(static_cast<size_t>(absence)).second);
}

QString stateCode(const Value& value)
{
    const auto* missing = std::get_if<Missing>(&value);
    return missing != nullptr ? code(missing->why) : QStringLiteral("done");
}

std::optional<Absence> absenceFromCode(const QString& text)
{
    for (const auto& [absence, name] : codes) {
        if (text == QLatin1String(name))
            return absence;
    }
    return std::nullopt;
}

} // namespace values
