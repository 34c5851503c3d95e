#include "core/records/clinic.h"

#include "core/records/codes.h"

namespace records
{

namespace
{

constexpr std::array strictnesses = {"strict", "balanced", "sensitive"};

} // namespace

QString code(Strictness strictness)
{
    return QString::fromLatin1(strictnesses.at(static_cast<size_t>(strictness)));
}

std::optional<Strictness> strictnessFromCode(const QString& code)
{
    return fromCode<Strictness>(strictnesses, code);
}

} // namespace records
