#include "core/telling/red_flag_words.h"

#include "core/records/patient.h"
#include "core/records/wording.h"

namespace telling
{

QString acknowledged(const records::Acknowledgement& said, const base::Phrasebook& phrases)
{
    return phrases("%1, %2 %3")
        .arg(said.action, records::dayInWords(said.day, phrases),
             said.time.toString(QStringLiteral("HH:mm")));
}

QString answered(const records::RedFlagAnswer* answer, const base::Phrasebook& phrases)
{
    if (answer == nullptr)
        return phrases("not asked");
    if (!answer->isYes)
        return phrases("no");
    if (!answer->acknowledged)
        return phrases("yes, nothing said about it yet");
    return phrases("yes (%1)").arg(acknowledged(*answer->acknowledged, phrases));
}

const records::RedFlagAnswer* answerOf(const records::RedFlags& flags, const QString& id)
{
    const auto found = flags.find(id);
    return found == flags.end() ? nullptr : &found->second;
}

} // namespace telling
