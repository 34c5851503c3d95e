#pragma once

#include "core/base/result.h"

#include <functional>
#include <memory>
#include <optional>
#include <span>

namespace sealing
{

/// What records are sealed with: 32 random bytes. They lie in memory that is not swapped out where the system
/// allows that, and are wiped with the last copy of the key.
class Key
{
public:
    static constexpr size_t size = 32;

    /// A new one, of the system's random numbers.
    static Key made();
    static Key of(std::span<const unsigned char, size> bytes);
    /// One whose bytes `fill` writes where they will lie, so that no copy is left elsewhere; empty where it
    /// could not.
    static std::optional<Key> filled(const std::function<bool(unsigned char*)>& fill);
    /// Reads a code again, however its letters are written and spaced. Invalid where it is too short or too
    /// long, or where a group of it is mistyped, in a sentence that says which.
    static base::Result<Key> fromCode(const QString& typed);

    std::span<const unsigned char, size> bytes() const;
    /// The key for people, to be printed and kept apart from the computer: 8 groups of 8 letters and digits,
    /// each with a check of its own.
    QStringList code() const;

    bool operator==(const Key& other) const;

private:
    Key();

    std::shared_ptr<unsigned char> m_bytes;
};

} // namespace sealing
