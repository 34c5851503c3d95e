#include "core/values/unit.h"

#include <array>

namespace values
{

namespace
{

struct Written {
    Unit unit;
    const char* code;
    const char* symbol;
};

constexpr std::array<Written, 11> all = {{
    {Unit::One, "", ""},
    {Unit::Second, "s", "s"},
    {Unit::Metre, "m", "m"},
    {Unit::Centimetre, "cm", "cm"},
    {Unit::MetrePerSecond, "m/s", "m/s"},
    {Unit::Count, "{count}", ""},
    {Unit::Steps, "{steps}", "steps"},
    {Unit::StepsPerMinute, "{steps}/min", "steps/min"},
    {Unit::Score, "{score}", "points"},
    {Unit::Percent, "%", "%"},
    {Unit::Kilogram, "kg", "kg"},
}};

const Written& written(Unit unit)
{
    return all.at(static_cast<size_t>(unit));
}

} // namespace

QString code(Unit unit)
{
    return QString::fromLatin1(written(unit).code);
}

std::optional<Unit> unitFromCode(const QString& ucum)
{
    for (const Written& row : all) {
        if (ucum == QLatin1String(row.code))
            return row.unit;
    }
    return std::nullopt;
}

QString symbol(Unit unit)
{
    return QString::fromLatin1(written(unit).symbol);
}

} // namespace values
