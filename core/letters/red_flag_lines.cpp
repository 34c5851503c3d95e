#include "core/letters/red_flag_lines.h"

#include "core/telling/red_flag_words.h"

namespace letters
{

namespace
{

constexpr qsizetype mostOpen = 3; ///< of those that were not asked; more are counted

} // namespace

RedFlagLines redFlagLines(const records::Visit* visit, const catalogue::Catalogue& catalogue,
                          const base::Phrasebook& phrases)
{
    RedFlagLines lines;
    if (visit == nullptr)
        return lines;
    const records::RedFlags& flags = visit->redFlags;
    int no = 0;
    QStringList notAsked;
    for (const catalogue::RedFlag& flag : catalogue.redFlags) {
        const records::RedFlagAnswer* answer = telling::answerOf(flags, flag.id);
        if (answer == nullptr && !flag.retired)
            notAsked += flag.inShort;
        if (answer != nullptr && answer->isYes)
            lines.yes += phrases("%1: %2").arg(flag.inShort, telling::answered(answer, phrases));
        else if (answer != nullptr)
            ++no;
    }
    if (flags.empty()) {
        lines.others = catalogue.redFlags.empty() ? QString() : phrases("Red flags: not asked.");
        return lines;
    }
    const QString answeredNo =
        lines.yes.isEmpty()
            ? phrases.counted("%1 asked, not present", "%1 asked, none present", no).arg(no)
            : phrases.counted("%1 other asked, not present", "%1 others asked, none present", no).arg(no);
    QString open;
    if (notAsked.size() > mostOpen)
        open = phrases.counted("%1 not asked", "%1 not asked", double(notAsked.size())).arg(notAsked.size());
    else if (!notAsked.isEmpty())
        open = phrases("not asked: %1").arg(phrases.joined("%1, %2", notAsked));
    lines.others =
        phrases("Red flags: %1.").arg(phrases.joined("%1; %2", {no > 0 ? answeredNo : QString(), open}));
    if (no == 0 && notAsked.isEmpty())
        lines.others.clear();
    return lines;
}

} // namespace letters
