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
    {Unit::Second, "s", QT_TRANSLATE_NOOP("core", "s")},
    {Unit::Metre, "m", QT_TRANSLATE_NOOP("core", "m")},
    {Unit::Centimetre, "cm", QT_TRANSLATE_NOOP("core", "cm")},
    {Unit::MetrePerSecond, "m/s", QT_TRANSLATE_NOOP("core", "m/s")},
    {Unit::Count, "{count}", ""},
    {Unit::Steps, "{steps}", QT_TRANSLATE_NOOP("core", "steps")},
    {Unit::StepsPerMinute, "{steps}/min", QT_TRANSLATE_NOOP("core", "steps/min")},
    {Unit::Score, "{score}", QT_TRANSLATE_NOOP("core", "points")},
    {Unit::Percent, "%", QT_TRANSLATE_NOOP("core", "%")},
    {Unit::Kilogram, "kg", QT_TRANSLATE_NOOP("core", "kg")},
}};

const Written& written(Unit unit)
{
    return all.at(static_cast<size_t>(unit));
}

constexpr double severalOf = 100;

/// What asks for a plural: with decimals a number is never the one of "1 step".
double numberOf(const QString& written)
{
    QString digits = written;
    digits.replace(QChar(0x2212), u'-');
    return digits.contains(u'.') ? severalOf : digits.toDouble();
}

base::Message said(const base::Message& words, double number, Unit unit)
{
    switch (unit) {
    case Unit::Second:
        return base::said("%1 s").arg(words);
    case Unit::Metre:
        return base::said("%1 m").arg(words);
    case Unit::Centimetre:
        return base::said("%1 cm").arg(words);
    case Unit::MetrePerSecond:
        return base::said("%1 m/s").arg(words);
    case Unit::Steps:
        return base::counted("%1 step", "%1 steps", number).arg(words);
    case Unit::StepsPerMinute:
        return base::counted("%1 step/min", "%1 steps/min", number).arg(words);
    case Unit::Score:
        return base::counted("%1 point", "%1 points", number).arg(words);
    case Unit::Percent:
        return base::said("%1 %").arg(words);
    case Unit::Kilogram:
        return base::said("%1 kg").arg(words);
    case Unit::One:
    case Unit::Count:
        break;
    }
    return words;
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

QString unitWords(Unit unit, const base::Phrasebook& phrases)
{
    const char* symbol = written(unit).symbol;
    return *symbol == 0 ? QString() : phrases(symbol);
}

base::Message withUnit(const QString& written, Unit unit)
{
    return said(base::verbatim(written), numberOf(written), unit);
}

QString withUnit(const QString& written, Unit unit, const base::Phrasebook& phrases)
{
    return withUnit(written, unit).in(phrases);
}

base::Message withUnit(const base::Message& words, Unit unit)
{
    return said(words, severalOf, unit);
}

} // namespace values
