#include "core/storage/happenings.h"

#include "core/base/text.h"
#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Happening;
using records::HappeningId;

Happening happeningFrom(Row& row)
{
    Happening happening;
    happening.id = row.key<Happening>();
    happening.version = row.whole();
    happening.patient = row.key<records::Patient>();
    happening.kind = records::happeningKindFromCode(row.text()).value_or(records::HappeningKind::Other);
    happening.from = row.dayIfAny().value_or(QDate());
    happening.until = row.dayIfAny();
    happening.injury = records::injuryFromCode(row.text()).value_or(records::Injury::NotStated);
    happening.words = row.text();
    happening.takenBackFor = row.text();
    happening.who = row.text();
    happening.enteredAt = row.instant();
    return happening;
}

base::Result<std::vector<Happening>> happeningsWhere(const Store& store, const QString& condition,
                                                     const std::vector<Binding>& bindings)
{
    std::vector<Happening> found;
    const QString sql = uR"(
        SELECT id, version, patient, kind, first_day, last_day, injury, words, taken_back_for, who, entered_at
        FROM happenings WHERE %1 ORDER BY id, version)"_s;
    auto done = read(store, sql.arg(condition), bindings, [&](Row& row) -> base::Result<void> {
        found.push_back(happeningFrom(row));
        return {};
    });
    if (!done)
        return done.error();
    return found;
}

const QString isNewest =
    u"version = (SELECT MAX(others.version) FROM happenings others WHERE others.id = happenings.id)"_s;

} // namespace

base::Result<Happening> Happenings::save(const Happening& given)
{
    if (!given.from.isValid() || (given.until && !given.until->isValid()))
        return Error{
            ErrorKind::Invalid, base::said("The days of an event must be days of the calendar."), {}};
    Happening happening = given;
    happening.takenBackFor.clear();
    if (happening.id.isNull())
        happening.id = HappeningId::make();
    return together(m_store, [&]() -> base::Result<Happening> {
        const auto before = newestOf(happening.id);
        if (!before)
            return before.error();
        if (*before && (*before)->patient != happening.patient)
            return Error{ErrorKind::Invalid, base::said("This event is another patient's."), {}};
        if (*before && !(*before)->takenBackFor.isEmpty())
            return Error{ErrorKind::Refused, base::said("This event was taken back; enter it anew."), {}};
        if ((*before ? (*before)->version : 0) != happening.version)
            return Error{ErrorKind::Conflict,
                         base::said("Someone else has changed this event since; nothing was saved."),
                         {}};
        return add(happening);
    });
}

base::Result<Happening> Happenings::takeBack(const HappeningId& id, const QString& reason)
{
    if (base::tidied(reason).isEmpty())
        return Error{ErrorKind::Refused, base::said("Say why the event is taken back."), {}};
    return together(m_store, [&]() -> base::Result<Happening> {
        const auto before = newestOf(id);
        if (!before)
            return before.error();
        if (!*before)
            return Error{ErrorKind::NotFound, base::said("This event is not in the records."), {}};
        if (!(*before)->takenBackFor.isEmpty())
            return Error{ErrorKind::Refused, base::said("This event was taken back already."), {}};
        Happening last = **before;
        last.takenBackFor = reason;
        return add(last);
    });
}

base::Result<Happening> Happenings::add(Happening happening)
{
    if (auto there = Patients(m_store).withId(happening.patient); !there)
        return there.error();
    happening.version += 1;
    happening.who = m_store.access().who;
    happening.enteredAt = m_store.access().now();
    if (auto added = bring(happening); !added)
        return added.error();
    if (auto noted = note(m_store, u"changed"_s, u"patient"_s, happening.patient.text); !noted)
        return noted.error();
    const auto stored = newestOf(happening.id);
    if (!stored)
        return stored.error();
    return **stored;
}

base::Result<void> Happenings::bring(const Happening& happening)
{
    const QString sql = uR"(
        INSERT INTO happenings (id, version, patient, kind, first_day, last_day, injury, words, taken_back_for,
            who, entered_at)
        VALUES (:id, :version, :patient, :kind, :first_day, :last_day, :injury, :words, :taken_back_for, :who,
            :at))"_s;
    auto added = write(m_store, sql,
                       {{":id", key(happening.id)},
                        {":version", happening.version},
                        {":patient", key(happening.patient)},
                        {":kind", code(happening.kind)},
                        {":first_day", day(happening.from)},
                        {":last_day", day(happening.until)},
                        {":injury", text(code(happening.injury))},
                        {":words", text(happening.words)},
                        {":taken_back_for", text(happening.takenBackFor)},
                        {":who", text(happening.who)},
                        {":at", instant(happening.enteredAt)}});
    return added ? base::Result<void>() : base::Result<void>(added.error());
}

base::Result<void> Happenings::bringAsked(const records::Asked& asked)
{
    auto added =
        write(m_store, uR"(
        INSERT INTO visit_questions (visit, question, who, answered_at)
        SELECT key, 'events-since-last-visit', :who, :at FROM visits WHERE id = :series)"_s,
              {{":who", text(asked.who)}, {":at", instant(asked.at)}, {":series", key(asked.visit)}});
    return added ? base::Result<void>() : base::Result<void>(added.error());
}

base::Result<std::optional<Happening>> Happenings::newestOf(const HappeningId& id) const
{
    const auto versions = happeningsWhere(m_store, u"id = :id AND "_s + isNewest, {{":id", key(id)}});
    if (!versions)
        return versions.error();
    return versions->empty() ? std::nullopt : std::optional(versions->front());
}

base::Result<std::vector<Happening>> Happenings::ofPatient(const records::PatientId& patient) const
{
    return happeningsWhere(m_store, u"patient = :patient"_s, {{":patient", key(patient)}});
}

base::Result<std::vector<Happening>> Happenings::newest() const
{
    return happeningsWhere(m_store, isNewest, {});
}

base::Result<void> Happenings::setAsked(const records::VisitId& visit)
{
    return together(m_store, [&]() -> base::Result<void> {
        std::optional<records::VisitId> series;
        bool isAsked = false;
        const QString sql = uR"(
            SELECT firsts.id, CASE WHEN visit_questions.visit IS NULL THEN 0 ELSE 1 END FROM visits
            JOIN visits firsts ON firsts.key = visits.series
            LEFT JOIN visit_questions ON visit_questions.visit = visits.series
            WHERE visits.id = :visit)"_s;
        auto found = read(m_store, sql, {{":visit", key(visit)}}, [&](Row& row) -> base::Result<void> {
            series = row.key<records::Visit>();
            isAsked = row.flag();
            return {};
        });
        if (!found || isAsked)
            return found;
        if (!series)
            return Error{ErrorKind::NotFound, base::said("This visit is not in the records."), {}};
        if (auto added = bringAsked({*series, m_store.access().who, m_store.access().now()}); !added)
            return added;
        return note(m_store, u"changed"_s, u"visit"_s, series->text);
    });
}

base::Result<std::vector<records::Asked>> Happenings::asked(const records::PatientId& patient) const
{
    std::vector<records::Asked> all;
    const QString sql = uR"(
        SELECT visits.id, who, answered_at FROM visit_questions JOIN visits ON visits.key = visit_questions.visit
        WHERE visits.patient = :patient ORDER BY answered_at, visits.id)"_s;
    auto found = read(m_store, sql, {{":patient", key(patient)}}, [&](Row& row) -> base::Result<void> {
        all.push_back({row.key<records::Visit>(), row.text(), row.instant()});
        return {};
    });
    if (!found)
        return found.error();
    return all;
}

} // namespace storage
