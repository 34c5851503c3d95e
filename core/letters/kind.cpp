#include "core/letters/kind.h"

#include "core/letters/kind_check.h"
#include "core/letters/letter_template.h"

#include <QRegularExpression>

#include <algorithm>
#include <map>

namespace letters
{

std::vector<Kind> kinds(const base::Phrasebook& phrases)
{
    std::vector<Kind> all = {{QStringLiteral("referral"), phrases("Referral letter"), {}},
                             {QStringLiteral("progress"), phrases("Progress letter"), {}},
                             {QStringLiteral("discharge"), phrases("Discharge summary"), {}},
                             {QStringLiteral("plain"), phrases("Letter to the patient"), {}},
                             {QStringLiteral("handover"), phrases("Urgent hand-over"), {}}};
    for (Kind& kind : all)
        kind.page = templateNamed(QStringLiteral("kinds/%1.html").arg(kind.id));
    return all;
}

std::vector<Kind> kinds(const base::Phrasebook& phrases, const std::vector<records::LetterKind>& versions)
{
    std::vector<Kind> all = kinds(phrases);
    for (const records::LetterKind& version : versions) {
        if (!faultsIn(version.page).empty())
            continue;
        const Kind own{version.id, version.title, version.page, true, version.isRetired};
        const auto known = std::ranges::find(all, version.id, &Kind::id);
        if (known == all.end())
            all.push_back(own);
        else
            *known = own;
    }
    return all;
}

bool asksSomeone(const QString& kind)
{
    return kind == QLatin1String("referral") || kind == QLatin1String("handover");
}

double roomOf(const Kind& kind)
{
    static const QRegularExpression half(QStringLiteral("\\{\\{!\\s*half a page\\s*\\}\\}"));
    return kind.page.contains(half) ? 0.5 : 1;
}

Kind kindOf(const QString& id, const std::vector<Kind>& kinds)
{
    const auto found = std::ranges::find(kinds, id, &Kind::id);
    return found == kinds.end() ? kinds.front() : *found;
}

std::vector<base::Message> usedInstead(const std::vector<records::LetterKind>& versions)
{
    std::map<QString, std::pair<const records::LetterKind*, bool>>
        newest; ///< and whether an older one is good
    for (const records::LetterKind& version : versions) {
        auto& known = newest[version.id];
        known.second = known.second || (known.first != nullptr && faultsIn(known.first->page).empty());
        known.first = &version;
    }
    std::vector<base::Message> sentences;
    for (const auto& [id, known] : newest) {
        if (known.first->isRetired || faultsIn(known.first->page).empty())
            continue;
        sentences.push_back(
            known.second ? base::said("The kind of letter “%1” has a fault; its last good version is used.")
                               .arg(known.first->title)
                         : base::said("The kind of letter “%1” has a fault and no good version; a referral "
                                      "letter is used in its place.")
                               .arg(known.first->title));
    }
    return sentences;
}

} // namespace letters
