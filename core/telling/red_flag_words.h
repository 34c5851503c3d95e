#pragma once

#include "core/base/phrasebook.h"
#include "core/records/red_flags.h"

namespace telling
{

/// "X-ray asked for, 04-Mar-2026 14:05"
QString acknowledged(const records::Acknowledgement& said, const base::Phrasebook& phrases);

/// "yes (X-ray asked for, 04-Mar-2026 14:05)", "yes, nothing said about it yet", "no", "not asked".
QString answered(const records::RedFlagAnswer* answer, const base::Phrasebook& phrases);

/// What was answered to one question; nullptr: it was not asked.
const records::RedFlagAnswer* answerOf(const records::RedFlags& flags, const QString& id);

} // namespace telling
