#include "core/records/clinic.h"

#include "core/records/codes.h"

namespace records
{

namespace
{

constexpr std::array strictnesses = {"strict", "balanced", "sensitive"};

constexpr std::array reviewed = {"form", "population"};

} // namespace

QString code(ReviewInterval::Of of)
{
    return QString::fromLatin1(reviewed.at(static_cast<size_t>(of)));
}

std::optional<ReviewInterval::Of> reviewOfFromCode(const QString& code)
{
    return fromCode<ReviewInterval::Of>(reviewed, code);
}

QString code(Strictness strictness)
{
    return QString::fromLatin1(strictnesses.at(static_cast<size_t>(strictness)));
}

std::optional<Strictness> strictnessFromCode(const QString& code)
{
    return fromCode<Strictness>(strictnesses, code);
}

QString code(PaperSize size)
{
    return size == PaperSize::A4 ? QStringLiteral("a4") : QStringLiteral("letter");
}

std::optional<PaperSize> paperSizeFromCode(const QString& written)
{
    for (const PaperSize size : {PaperSize::A4, PaperSize::Letter}) {
        if (code(size) == written)
            return size;
    }
    return std::nullopt;
}

} // namespace records
