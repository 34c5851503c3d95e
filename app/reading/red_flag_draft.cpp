#include "app/reading/red_flag_draft.h"

#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "core/records/visit.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace reading
{

namespace
{

struct RedFlagWords {
    Q_DECLARE_TR_FUNCTIONS(RedFlagWords)
};

const QString minuteFormat = u"HH:mm"_s;

} // namespace

std::optional<std::pair<QDate, QTime>> momentTyped(const QString& typed, QDate visitDay)
{
    const QString text = typed.simplified();
    const QString clock = text.section(u' ', -1).replace(u'.', u':');
    const QString day = text.section(u' ', 0, -2);
    QTime time = QTime::fromString(clock, u"H:mm"_s);
    const auto on = day.isEmpty() ? std::optional(visitDay) : session::dayTyped(day);
    if (!time.isValid() || !on)
        return std::nullopt;
    return std::pair(*on, time);
}

QString momentText(QDate day, QTime time, QDate visitDay)
{
    const QString clock = time.toString(minuteFormat);
    return day == visitDay ? clock : day.toString(Qt::ISODate) + u' ' + clock;
}

bool RedFlagDraft::isReadOnly() const
{
    return visit() == nullptr || visit()->state != records::VisitState::Draft;
}

const records::RedFlagAnswer* RedFlagDraft::answer(const QString& flag) const
{
    if (visit() == nullptr)
        return nullptr;
    const auto found = visit()->redFlags.find(flag);
    return found == visit()->redFlags.end() ? nullptr : &found->second;
}

void RedFlagDraft::follow()
{
    const records::VisitId id = visit() == nullptr ? records::VisitId() : visit()->id;
    if (id != m_of)
        m_held.clear();
    m_of = id;
}

base::Result<void> RedFlagDraft::store(const QString& flag,
                                       const std::optional<records::RedFlagAnswer>& answer,
                                       session::Typing typing)
{
    if (isReadOnly())
        return {};
    records::RedFlags flags = visit()->redFlags;
    if (answer)
        flags[flag] = *answer;
    else
        flags.erase(flag);
    return m_session.saveRedFlags(visit()->id, flags, typing);
}

base::Result<void> RedFlagDraft::give(const QString& flag, std::optional<bool> isYes)
{
    follow();
    const records::RedFlagAnswer* kept = answer(flag);
    if (kept != nullptr && isYes && kept->isYes == *isYes)
        return {};
    m_held.erase(flag);
    return store(flag, isYes ? std::optional(records::RedFlagAnswer{*isYes, std::nullopt}) : std::nullopt,
                 session::Typing::Anew);
}

const RedFlagDraft::Held* RedFlagDraft::held(const QString& flag) const
{
    const auto found = m_held.find(flag);
    const records::RedFlagAnswer* kept = answer(flag);
    const bool isOfIt = found != m_held.end() && kept != nullptr && found->second.stored == *kept;
    return isOfIt ? &found->second : nullptr;
}

std::optional<records::Acknowledgement> RedFlagDraft::storable(const Typed& typed) const
{
    const auto moment = momentTyped(typed.moment, visit()->day);
    const QString action = typed.action.trimmed();
    if (!moment || action.isEmpty() || moment->first < visit()->day ||
        QDateTime(moment->first, moment->second) > m_session.now().toLocalTime())
        return std::nullopt;
    return records::Acknowledgement{action, moment->first, moment->second};
}

base::Result<void> RedFlagDraft::acknowledge(const QString& flag, const Typed& given)
{
    follow();
    const records::RedFlagAnswer* kept = answer(flag);
    if (isReadOnly() || kept == nullptr || !kept->isYes)
        return {};
    Typed typed = given;
    const bool isBegun = this->typed(flag).action.isEmpty() && !typed.action.isEmpty();
    if (isBegun && typed.moment.isEmpty() && visit()->day == m_session.today())
        typed.moment = m_session.now().toLocalTime().time().toString(minuteFormat);
    const records::RedFlagAnswer wished{true, storable(typed)};
    base::Result<void> stored;
    if (wished != *kept)
        stored = store(flag, wished, kept->acknowledged ? session::Typing::Further : session::Typing::Anew);
    if (const records::RedFlagAnswer* now = answer(flag))
        m_held[flag] = {typed, *now};
    return stored;
}

RedFlagDraft::Typed RedFlagDraft::typed(const QString& flag) const
{
    if (const Held* kept = held(flag))
        return kept->typed;
    const records::RedFlagAnswer* kept = answer(flag);
    if (kept == nullptr || !kept->acknowledged)
        return {};
    const records::Acknowledgement& said = *kept->acknowledged;
    return {said.action, momentText(said.day, said.time, visit()->day)};
}

QString RedFlagDraft::wrong(const QString& flag) const
{
    const Held* kept = held(flag);
    const bool isStored =
        kept == nullptr || (kept->stored.acknowledged && storable(kept->typed) == kept->stored.acknowledged);
    if (isStored)
        return {};
    const bool hasWords = !kept->typed.action.trimmed().isEmpty();
    const bool hasMoment = !kept->typed.moment.trimmed().isEmpty();
    if (!hasWords && !hasMoment)
        return {};
    if (!hasWords)
        return RedFlagWords::tr("Not recorded yet: what was done.");
    if (!storable(kept->typed))
        return RedFlagWords::tr(
            "Not recorded: when it was done, from the day of the visit to now, as 14:20 or "
            "2026-03-04 14:20.");
    return RedFlagWords::tr("Not recorded: at most 500 signs, none of them invisible.");
}

QStringList RedFlagDraft::unsaved() const
{
    QStringList flags;
    for (const auto& [flag, kept] : m_held) {
        if (!wrong(flag).isEmpty())
            flags += flag;
    }
    return flags;
}

} // namespace reading
