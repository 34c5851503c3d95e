#include "core/values/age.h"

namespace values
{

std::optional<int> ageInYears(QDate born, QDate day)
{
    if (!born.isValid() || !day.isValid() || day < born)
        return std::nullopt;
    const bool hadBirthday = std::pair(day.month(), day.day()) >= std::pair(born.month(), born.day());
    return day.year() - born.year() - (hadBirthday ? 0 : 1);
}

} // namespace values
