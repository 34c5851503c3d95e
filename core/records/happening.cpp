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
    switch (kind) {
    case HappeningKind::Relapse:
        return phrases("relapse");
    case HappeningKind::Fall:
        return phrases("fall");
    case HappeningKind::Surgery:
        return phrases("surgery");
    case HappeningKind::MedicationBegun:
        return phrases("medication begun");
    case HappeningKind::MedicationStopped:
        return phrases("medication stopped");
    case HappeningKind::MedicationChanged:
        return phrases("medication changed");
    case HappeningKind::BotulinumToxin:
        return phrases("botulinum toxin");
    case HappeningKind::AidChanged:
        return phrases("orthosis or walking aid changed");
    case HappeningKind::TherapyBlock:
        return phrases("therapy block");
    case HappeningKind::Infection:
        return phrases("infection");
    case HappeningKind::Other:
        break;
    }
    return phrases("another event");
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
    found.reserve(byId.size());
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
