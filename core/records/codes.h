#pragma once

#include <QString>

#include <array>
#include <optional>

namespace records
{

/// The value whose code stands at its place in the list; empty for a word that is none of them.
template <class Enum, size_t size>
std::optional<Enum> fromCode(const std::array<const char*, size>& codes, const QString& code)
{
    for (size_t i = 0; i < size; ++i) {
        if (code == QLatin1String(codes[i]))
            return static_cast<Enum>(i);
    }
    return std::nullopt;
}

} // namespace records
