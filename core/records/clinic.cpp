#include "core/records/clinic.h"

#include <algorithm>
#include <array>

namespace records
{

namespace
{

constexpr std::array codes = {"strict", "balanced", "sensitive"};

} // namespace

QString code(Strictness strictness)
{
    return QString::fromLatin1(codes.at(static_cast<size_t>(strictness)));
}

std::optional<Strictness> strictnessFromCode(const QString& code)
{
    const auto found =
        std::ranges::find(codes, code, [](const char* word) { return QString::fromLatin1(word); });
    return found == codes.end() ? std::nullopt
                                : std::optional(static_cast<Strictness>(found - codes.begin()));
}

} // namespace records
