#pragma once

#include "core/base/error.h"
#include "core/base/text.h"

#include <QJsonValue>

#include <optional>

namespace records
{

/// What a text of the records may be: so many characters, with or without line breaks.
struct TextLimit {
    qsizetype most;
    base::Breaks breaks;
};

inline constexpr TextLimit numberLimit{40, base::Breaks::Forbidden}; ///< a record number
inline constexpr TextLimit nameLimit{100, base::Breaks::Forbidden};  ///< a name, a role, a telephone number
inline constexpr TextLimit lineLimit{500, base::Breaks::Allowed};    ///< a diagnosis, a reason, an address
inline constexpr TextLimit noteLimit{4'000, base::Breaks::Allowed};  ///< a note on one test
inline constexpr TextLimit textLimit{20'000,
                                     base::Breaks::Allowed}; ///< notes on a patient, parts of a letter

/// What is wrong with a text as one sentence that begins with what it is called: too long, or a character in
/// it that draws nothing (base::controlAt).
std::optional<base::Error> wrongWithText(const base::Message& title, const QString& text,
                                         const TextLimit& limit);

/// The first text within a JSON document that is wrong so.
std::optional<base::Error> wrongWithTexts(const QJsonValue& document);

} // namespace records
