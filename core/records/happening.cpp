#include "core/records/happening.h"

#include "core/records/codes.h"
#include "core/records/patient.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace records
{

namespace
{

constexpr std::array kinds = {"relapse",
                              "fall",
                              "surgery",
                              "medication-begun",
                              "medication-stopped",
                              "medication-changed",
                              "botulinum-toxin",
                              "aid-changed",
                              "therapy-block",
                              "infection",
                              "other"};
constexpr std::array titles = {QT_TRANSLATE_NOOP("core", "relapse"),
                               QT_TRANSLATE_NOOP("core", "fall"),
                               QT_TRANSLATE_NOOP("core", "surgery"),
                               QT_TRANSLATE_NOOP("core", "medication begun"),
                               QT_TRANSLATE_NOOP("core", "medication stopped"),
                               QT_TRANSLATE_NOOP("core", "medication changed"),
                               QT_TRANSLATE_NOOP("core", "botulinum toxin"),
                               QT_TRANSLATE_NOOP("core", "orthosis or walking aid changed"),
                               QT_TRANSLATE_NOOP("core", "therapy block"),
                               QT_TRANSLATE_NOOP("core", "infection"),
                               QT_TRANSLATE_NOOP("core", "another event")};
constexpr std::array injuries = {"", "yes", "no"};

} // namespace

QString code(HappeningKind kind)
{
    return QString::fromLatin1(kinds.at(size_t(kind)));
}

std::optional<HappeningKind> happeningKindFromCode(const QString& text)
{
    return fromCode<HappeningKind>(kinds, text);
}

QString code(Injury injury)
{
    return QString::fromLatin1(injuries.at(size_t(injury)));
}

std::optional<Injury> injuryFromCode(const QString& text)
{
    return fromCode<Injury>(injuries, text);
}

QString written(HappeningKind kind, const base::Phrasebook& phrases)
{
    return phrases(titles.at(size_t(kind)));
}

QString kindWords(const Happening& happening, const base::Phrasebook& phrases)
{
    switch (happening.injury) {
    case Injury::Yes:
        return phrases("fall with injury");
    case Injury::No:
        return phrases("fall without injury");
    case Injury::NotStated:
        break;
    }
    return written(happening.kind, phrases);
}

QString daysInWords(const Happening& happening, const base::Phrasebook& phrases)
{
    const QString from = dayInWords(happening.from, phrases);
    return happening.until ? phrases("%1 to %2").arg(from, dayInWords(*happening.until, phrases)) : from;
}

std::vector<Happening> newest(const std::vector<Happening>& versions)
{
    std::map<HappeningId, const Happening*> byId;
    for (const Happening& version : versions) {
        const Happening*& known = byId[version.id];
        if (known == nullptr || known->version < version.version)
            known = &version;
    }
    std::vector<Happening> found;
    for (const auto& [id, version] : byId)
        found.push_back(*version);
    std::ranges::sort(found, {},
                      [](const Happening& each) { return std::tuple(each.from, each.kind, each.id.text); });
    return found;
}

std::vector<Happening> current(const std::vector<Happening>& versions)
{
    std::vector<Happening> found = newest(versions);
    std::erase_if(found, [](const Happening& each) { return !each.takenBackFor.isEmpty(); });
    return found;
}

} // namespace records
