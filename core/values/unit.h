#pragma once

#include <QString>

#include <optional>

namespace values
{

/// The units Aplomb records in. Codes are UCUM's (https://ucum.org).
enum class Unit {
    One,
    Second,
    Metre,
    Centimetre,
    MetrePerSecond,
    Count,
    Steps,
    StepsPerMinute,
    Score,
    Percent,
    Kilogram
};

/// The UCUM code: "s", "m/s", "{score}". Empty for a bare number.
QString code(Unit unit);

/// The unit of a UCUM code. Empty when Aplomb does not know it.
std::optional<Unit> unitFromCode(const QString& ucum);

/// How the unit is written after a number: "s", "m/s", "points". Empty for a bare number or a count.
QString symbol(Unit unit);

} // namespace values
