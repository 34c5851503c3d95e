#include "core/records/since_onset.h"

namespace records
{

std::optional<SinceOnset> sinceOnset(QDate onset, QDate day)
{
    constexpr qint64 week = 7;
    constexpr qint64 quarter = 91;
    constexpr qint64 halfYear = 183;
    const qint64 days = onset.daysTo(day);
    if (days < 0)
        return std::nullopt;
    return days <= week       ? SinceOnset::Week
           : days <= quarter  ? SinceOnset::Quarter
           : days <= halfYear ? SinceOnset::HalfYear
                              : SinceOnset::Longer;
}

QString code(SinceOnset since)
{
    static constexpr std::array codes = {"week", "quarter", "half-year", "longer"};
    return QString::fromLatin1(codes.at(static_cast<size_t>(since)));
}

} // namespace records
