#pragma once

#include "core/base/message.h"

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

/// How the unit is named in files: "s", "m/s", "points". Empty for a bare number or a count.
QString symbol(Unit unit);

/// The unit by itself, as a label: "s", "m/s", "points". Empty for a bare number or a count.
QString unitWords(Unit unit, const base::Phrasebook& phrases);

/// A number as it is written, with its unit: "12.50 s", "1 step", "−3 points".
base::Message withUnit(const QString& written, Unit unit);
QString withUnit(const QString& written, Unit unit, const base::Phrasebook& phrases);

/// Words about several of the unit: "0 to 10 points".
base::Message withUnit(const base::Message& words, Unit unit);

} // namespace values
