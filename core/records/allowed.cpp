#include "core/records/allowed.h"

#include <QStringList>

#include <algorithm>
#include <cmath>

namespace records
{

base::Error invalid(const QString& what)
{
    return {base::ErrorKind::Invalid, what, {}};
}

bool isWithin(double number, const std::optional<double>& lowest, const std::optional<double>& highest)
{
    return std::isfinite(number) && number >= lowest.value_or(number) && number <= highest.value_or(number);
}

QString rangeWords(const std::optional<double>& lowest, const std::optional<double>& highest)
{
    if (lowest && highest)
        return QStringLiteral("%1 to %2").arg(*lowest).arg(*highest);
    if (lowest)
        return QStringLiteral("%1 or more").arg(*lowest);
    if (highest)
        return QStringLiteral("%1 or less").arg(*highest);
    return QStringLiteral("a number");
}

QString optionWords(const std::vector<catalogue::Option>& options)
{
    QStringList titles;
    for (const catalogue::Option& option : options)
        titles += option.title;
    return QStringLiteral("one of ") + titles.join(QStringLiteral(", "));
}

bool isOption(const std::vector<catalogue::Option>& options, const QString& key)
{
    return std::ranges::find(options, key, &catalogue::Option::key) != options.end();
}

QString withUnit(const QString& words, values::Unit unit)
{
    const QString symbol = values::symbol(unit);
    return symbol.isEmpty() ? words : words + u' ' + symbol;
}

} // namespace records
