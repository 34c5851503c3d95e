#include "app/happenings/happening_draft.h"

#include "app/session/typed_day.h"
#include "core/base/text.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace happenings
{

namespace
{

using records::Happening;
using records::HappeningKind;

struct Words {
    Q_DECLARE_TR_FUNCTIONS(HappeningDraft)
};

constexpr QStringView letters = u"rfsnembatio"; ///< in the order of the kinds

base::Error refused(const QString& sentence)
{
    return {base::ErrorKind::Invalid, base::verbatim(sentence), {}};
}

base::Result<QDate> dayOf(const QString& typed)
{
    if (const auto day = session::dayTyped(typed))
        return *day;
    return typed.trimmed().isEmpty()
               ? refused(Words::tr("Type the day, as 2026-03-04 or 04-Mar-2026."))
               : refused(
                     Words::tr("“%1” is not a day of the calendar; write it as 2026-03-04 or 04-Mar-2026.")
                         .arg(base::shortened(typed)));
}

} // namespace

HappeningDraft draftOf(const Happening& happening)
{
    const auto written = [](QDate day) { return day.toString(Qt::ISODate); };
    return {happening,
            happening.kind,
            written(happening.from),
            happening.until ? written(*happening.until) : QString(),
            happening.injury,
            happening.words};
}

base::Result<Happening> happeningOf(const HappeningDraft& draft)
{
    if (!draft.kind)
        return refused(Words::tr("Choose what happened."));
    const auto from = dayOf(draft.from);
    if (!from)
        return from.error();
    Happening happening = draft.of;
    happening.kind = *draft.kind;
    happening.from = *from;
    happening.until.reset();
    if (!draft.until.trimmed().isEmpty()) {
        const auto until = dayOf(draft.until);
        if (!until)
            return until.error();
        happening.until = *until;
    }
    happening.injury = draft.kind == HappeningKind::Fall ? draft.injury : records::Injury::NotStated;
    happening.words = draft.words.trimmed();
    return happening;
}

QChar letterOf(HappeningKind kind)
{
    return letters.at(qsizetype(kind));
}

std::optional<HappeningKind> kindTyped(const QString& letter)
{
    const qsizetype place = letter.size() == 1 ? letters.indexOf(letter.front().toLower()) : -1;
    return place < 0 ? std::nullopt : std::optional(HappeningKind(place));
}

std::vector<HappeningKind> kinds()
{
    std::vector<HappeningKind> all;
    all.reserve(size_t(letters.size()));
    for (int kind = 0; kind < int(letters.size()); ++kind)
        all.push_back(HappeningKind(kind));
    return all;
}

} // namespace happenings
