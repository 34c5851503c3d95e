#pragma once

#include <QDate>
#include <QString>

#include <array>
#include <optional>

namespace records
{

/// How long after the onset of an illness a day lies: to 7 days, to 3 months (91 days), to 6 months (183), or
/// longer. After a stroke these are acute, early and late subacute, and chronic: Bernhardt 2017, Int J Stroke
/// 12:444 (from memory).
enum class SinceOnset { Week, Quarter, HalfYear, Longer };

inline constexpr std::array allSinceOnset = {SinceOnset::Week, SinceOnset::Quarter, SinceOnset::HalfYear,
                                             SinceOnset::Longer};

/// Empty for a day before the onset.
std::optional<SinceOnset> sinceOnset(QDate onset, QDate day);

/// "week", "quarter", "half-year" or "longer".
QString code(SinceOnset since);

} // namespace records
