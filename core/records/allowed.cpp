#include "core/records/allowed.h"

#include <QStringList>

#include <algorithm>
#include <cmath>

namespace records
{

base::Error invalid(const base::Message& what)
{
    return {base::ErrorKind::Invalid, what, {}};
}

bool isWithin(double number, const std::optional<double>& lowest, const std::optional<double>& highest)
{
    return std::isfinite(number) && number >= lowest.value_or(number) && number <= highest.value_or(number);
}

base::Message rangeWords(const std::optional<double>& lowest, const std::optional<double>& highest)
{
    if (lowest && highest)
        return base::said("%1 to %2").arg(*lowest, *highest);
    if (lowest)
        return base::said("%1 or more").arg(*lowest);
    if (highest)
        return base::said("%1 or less").arg(*highest);
    return base::said("a number");
}

base::Message optionWords(const std::vector<catalogue::Option>& options)
{
    std::vector<base::Message> titles;
    titles.reserve(options.size());
    for (const catalogue::Option& option : options)
        titles.push_back(base::titled(option.title));
    return base::said("one of %1").arg(base::listed(titles, titles.size()));
}

bool isOption(const std::vector<catalogue::Option>& options, const QString& key)
{
    return catalogue::optionOf(options, key) != nullptr;
}

} // namespace records
