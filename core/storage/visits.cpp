#include "core/storage/visits.h"

#include "core/base/text.h"
#include "core/storage/audit_trail.h"
#include "core/storage/condition_sets.h"
#include "core/storage/query.h"
#include "core/storage/red_flags.h"
#include "core/storage/transaction.h"
#include "core/storage/visit_reading.h"
#include "core/storage/visit_writing.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Visit;
using records::VisitId;
using records::VisitState;

const QString openDraft = uR"(
    SELECT visits.id FROM visits JOIN visits firsts ON firsts.key = visits.series
    WHERE firsts.id = :key AND visits.state = 'draft')"_s;

base::Result<Visit> oneVisit(const Store& store, const VisitId& id)
{
    auto visits = VisitReader(store).where(u"visits.id = :key"_s, id.text);
    if (!visits)
        return visits.error();
    if (visits->empty())
        return Error{ErrorKind::NotFound, base::said("This visit is not in the records."), {}};
    return std::move(visits->front());
}

base::Result<bool> exists(const Store& store, const QString& sql, const QString& key)
{
    bool isThere = false;
    auto found = read(store, sql, {{":key", key}}, [&](Row&) -> base::Result<void> {
        isThere = true;
        return {};
    });
    if (!found)
        return found.error();
    return isThere;
}

/// A write to a draft touched no row: because the visit is signed, or because there is none.
Error refusal(const Store& store, const VisitId& visit)
{
    const auto isThere = exists(store, u"SELECT id FROM visits WHERE id = :key"_s, visit.text);
    if (!isThere)
        return isThere.error();
    if (!*isThere)
        return {ErrorKind::NotFound, base::said("This visit is not in the records."), {}};
    return {ErrorKind::Refused, base::said("A signed visit never changes; amend it instead."), {}};
}

base::Result<void> refuseUnlessDraft(const Store& store, const VisitId& visit,
                                     const base::Result<int>& touched)
{
    if (!touched)
        return touched.error();
    return *touched == 1 ? base::Result<void>() : refusal(store, visit);
}

/// Marks a draft as changed and gives back its key; refused when it is none.
base::Result<qint64> touched(const Store& store, const VisitId& visit)
{
    const auto draft = readWhole(
        store,
        u"UPDATE visits SET revision = revision + 1 WHERE id = :id AND state = 'draft' RETURNING key"_s,
        {{":id", key(visit)}});
    if (!draft)
        return draft.error();
    if (!*draft)
        return refusal(store, visit);
    return **draft;
}

/// Signs a draft; what notes it is another matter.
base::Result<void> freeze(const Store& store, const VisitId& visit, const records::Author& author,
                          const QDateTime& at)
{
    if (base::tidied(author.name).isEmpty())
        return Error{ErrorKind::Refused,
                     base::said("A visit is signed by someone; the author's name is missing."),
                     {}};
    const QString sql = uR"(
        UPDATE visits
        SET revision = revision + 1, state = CASE WHEN version = 1 THEN 'signed' ELSE 'amended' END,
            author_name = :name, author_role = :role, author_registration = :registration, signed_at = :at
        WHERE id = :id AND state = 'draft')"_s;
    return refuseUnlessDraft(store, visit,
                             write(store, sql,
                                   {{":name", text(author.name)},
                                    {":role", text(author.role)},
                                    {":registration", text(author.registration)},
                                    {":at", instant(at)},
                                    {":id", key(visit)}}));
}

base::Result<void> signDraft(const Store& store, const VisitId& visit, const records::Author& author,
                             const QDateTime& at, const QDateTime& now)
{
    if (auto isSigned = freeze(store, visit, author, at); !isSigned)
        return isSigned;
    return note(store, u"signed"_s, u"visit"_s, visit.text, now);
}

base::Result<void> addWithdrawal(const Store& store, const VisitId& series,
                                 const records::Withdrawal& withdrawal)
{
    const QString sql = uR"(
        INSERT INTO visit_withdrawals (series, reason, author_name, author_role, author_registration,
            withdrawn_at)
        SELECT key, :reason, :name, :role, :registration, :at FROM visits WHERE id = :series)"_s;
    auto withdrawn = write(store, sql,
                           {{":series", key(series)},
                            {":reason", text(withdrawal.reason)},
                            {":name", text(withdrawal.author.name)},
                            {":role", text(withdrawal.author.role)},
                            {":registration", text(withdrawal.author.registration)},
                            {":at", instant(withdrawal.at)}});
    return withdrawn ? base::Result<void>() : base::Result<void>(withdrawn.error());
}

base::Result<void> refuseAmendment(const Store& store, const Visit& visit, const QString& reason)
{
    if (visit.state == VisitState::Draft)
        return Error{ErrorKind::Refused, base::said("A draft is not amended; change it as it is."), {}};
    if (base::tidied(reason).isEmpty())
        return Error{ErrorKind::Refused, base::said("An amendment needs a reason."), {}};
    if (visit.withdrawn)
        return Error{
            ErrorKind::Refused,
            base::said("This visit was entered in error, so it is not amended; enter it where it belongs."),
            {}};
    QString newest;
    auto found = read(store, uR"(
        SELECT visits.id FROM visits JOIN visits firsts ON firsts.key = visits.series
        WHERE firsts.id = :key ORDER BY visits.version)"_s,
                      {{":key", key(visit.series)}}, [&](Row& row) -> base::Result<void> {
                          newest = row.text();
                          return {};
                      });
    if (!found)
        return found;
    const auto isOpen = exists(store, openDraft, visit.series.text);
    if (!isOpen)
        return isOpen.error();
    if (*isOpen)
        return Error{ErrorKind::Refused,
                     base::said("This visit is being amended already; sign or discard that first."),
                     {}};
    if (newest != visit.id.text)
        return Error{
            ErrorKind::Refused, base::said("This version has been amended; amend the newest one."), {}};
    return {};
}

base::Result<void> refuseWithdrawal(const Store& store, const Visit& visit, const QString& reason,
                                    const records::Author& author)
{
    if (visit.state == VisitState::Draft)
        return Error{ErrorKind::Refused, base::said("A draft is not withdrawn; discard it."), {}};
    if (visit.withdrawn)
        return Error{
            ErrorKind::Refused, base::said("This visit was marked as entered in error already."), {}};
    if (base::tidied(reason).isEmpty())
        return Error{ErrorKind::Refused, base::said("Say why the visit was entered in error."), {}};
    if (base::tidied(author.name).isEmpty())
        return Error{ErrorKind::Refused,
                     base::said("A visit is withdrawn by someone; the author's name is missing."),
                     {}};
    const auto isOpen = exists(store, openDraft, visit.series.text);
    if (!isOpen)
        return isOpen.error();
    if (*isOpen)
        return Error{
            ErrorKind::Refused, base::said("This visit is being amended; sign or discard that first."), {}};
    return {};
}

} // namespace

base::Result<Visit> Visits::add(const Visit& given)
{
    Visit visit = given;
    if (visit.id.isNull())
        visit.id = VisitId::make();
    if (visit.series.isNull())
        visit.series = visit.id;
    if (visit.series != visit.id || visit.version != 1 || visit.state == VisitState::Amended)
        return Error{
            ErrorKind::Refused, base::said("A later version of a visit is made by amending it."), {}};

    return together(m_store, [&]() -> base::Result<Visit> {
        if (auto inserted = insertDraft(m_store, visit); !inserted)
            return inserted.error();
        if (auto noted = note(m_store, u"created"_s, u"visit"_s, visit.id.text); !noted)
            return noted.error();
        if (visit.state == VisitState::Signed) {
            const QDateTime now = m_store.access().now();
            const QDateTime at = visit.signedAt.isValid() ? visit.signedAt : now;
            if (auto isSigned = signDraft(m_store, visit.id, visit.author, at, now); !isSigned)
                return isSigned.error();
        }
        return oneVisit(m_store, visit.id);
    });
}

base::Result<int> Visits::bring(const Visit& visit)
{
    return together(m_store, [&]() -> base::Result<int> {
        if (auto inserted = insertDraft(m_store, visit); !inserted)
            return inserted.error();
        if (visit.state == VisitState::Draft)
            return 1;
        if (auto frozen = freeze(m_store, visit.id, visit.author, visit.signedAt); !frozen)
            return frozen.error();
        return 2;
    });
}

base::Result<void> Visits::bringWithdrawal(const VisitId& series, const records::Withdrawal& withdrawal)
{
    return addWithdrawal(m_store, series, withdrawal);
}

base::Result<Visit> Visits::withId(const VisitId& id) const
{
    const Transaction transaction(m_store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    return oneVisit(m_store, id);
}

base::Result<std::vector<Visit>> Visits::ofPatient(const records::PatientId& patient) const
{
    const Transaction transaction(m_store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    return VisitReader(m_store).where(u"visits.patient = :key"_s, patient.text);
}

base::Result<records::FindingRead> Visits::finding(const VisitId& visit, const QString& measure,
                                                   records::Side side) const
{
    return VisitReader(m_store).finding(visit, measure, side);
}

base::Result<void> Visits::saveFinding(const VisitId& visit, const records::Finding& finding)
{
    return together(m_store, [&]() -> base::Result<void> {
        const auto draft = touched(m_store, visit);
        if (!draft)
            return draft.error();
        if (auto put = putFinding(m_store, *draft, finding); !put)
            return put;
        return note(m_store, u"changed"_s, u"finding"_s, visit.text);
    });
}

base::Result<void> Visits::removeFinding(const VisitId& visit, const QString& measure, records::Side side)
{
    return together(m_store, [&]() -> base::Result<void> {
        const auto draft = touched(m_store, visit);
        if (!draft)
            return draft.error();
        const auto removed = storage::removeFinding(m_store, *draft, measure, side);
        if (!removed)
            return removed.error();
        return *removed == 0 ? base::Result<void>() : note(m_store, u"removed"_s, u"finding"_s, visit.text);
    });
}

base::Result<void> Visits::saveConditions(const VisitId& visit, const records::Conditions& conditions,
                                          bool confirmed)
{
    return together(m_store, [&]() -> base::Result<void> {
        const auto draft = touched(m_store, visit);
        if (!draft)
            return draft.error();
        auto marked =
            write(m_store, u"UPDATE visits SET conditions_confirmed = :confirmed WHERE key = :key"_s,
                  {{":confirmed", flag(confirmed)}, {":key", *draft}});
        if (!marked)
            return marked.error();
        if (auto put = putConditions(m_store, *draft, conditions); !put)
            return put;
        return note(m_store, u"changed"_s, u"conditions"_s, visit.text);
    });
}

base::Result<void> Visits::saveRedFlags(const VisitId& visit, const records::RedFlags& flags)
{
    return together(m_store, [&]() -> base::Result<void> {
        const auto draft = touched(m_store, visit);
        if (!draft)
            return draft.error();
        if (auto put = putRedFlags(m_store, *draft, flags); !put)
            return put;
        return note(m_store, u"changed"_s, u"visit"_s, visit.text);
    });
}

base::Result<void> Visits::saveDay(const VisitId& visit, QDate newDay)
{
    if (!newDay.isValid())
        return Error{ErrorKind::Invalid, base::said("A visit needs a day of the calendar."), {}};
    return together(m_store, [&]() -> base::Result<void> {
        const auto draft = touched(m_store, visit);
        if (!draft)
            return draft.error();
        auto saved = write(m_store, u"UPDATE visits SET day = :day WHERE key = :key"_s,
                           {{":day", day(newDay)}, {":key", *draft}});
        if (!saved)
            return saved.error();
        return note(m_store, u"changed"_s, u"visit"_s, visit.text);
    });
}

base::Result<void> Visits::discard(const VisitId& visit)
{
    return together(m_store, [&]() -> base::Result<void> {
        const auto isUsed =
            exists(m_store, u"SELECT id FROM letters WHERE visit = :key OR reference = :key"_s, visit.text);
        if (!isUsed)
            return isUsed.error();
        if (*isUsed)
            return Error{ErrorKind::Refused,
                         base::said("A letter belongs to this draft, so it cannot be discarded."),
                         {}};
        const auto draft = touched(m_store, visit);
        const auto sets = draft ? setsOfVisit(m_store, *draft) : draft.error();
        if (!sets)
            return sets.error();
        auto removed = write(m_store, u"DELETE FROM visits WHERE key = :key"_s, {{":key", *draft}});
        if (!removed)
            return removed.error();
        if (auto dropped = dropUnused(m_store, *sets); !dropped)
            return dropped;
        return note(m_store, u"removed"_s, u"visit"_s, visit.text);
    });
}

base::Result<Visit> Visits::sign(const VisitId& visit, const records::Author& author,
                                 std::optional<int> revision)
{
    return together(m_store, [&]() -> base::Result<Visit> {
        const QDateTime now = m_store.access().now();
        if (revision) {
            const auto stored = oneVisit(m_store, visit);
            if (!stored)
                return stored.error();
            if (stored->revision != *revision)
                return Error{ErrorKind::Conflict,
                             base::said("The draft has changed since it was read; nothing is signed."),
                             {}};
        }
        if (auto isSigned = signDraft(m_store, visit, author, now, now); !isSigned)
            return isSigned.error();
        return oneVisit(m_store, visit);
    });
}

base::Result<Visit> Visits::amend(const VisitId& visit, const QString& reason)
{
    return together(m_store, [&]() -> base::Result<Visit> {
        auto amendment = oneVisit(m_store, visit);
        if (!amendment)
            return amendment;
        if (auto allowed = refuseAmendment(m_store, *amendment, reason); !allowed)
            return allowed.error();
        amendment->id = VisitId::make();
        amendment->version += 1;
        amendment->amendmentReason = reason;
        if (auto inserted = insertDraft(m_store, *amendment); !inserted)
            return inserted.error();
        if (auto noted = note(m_store, u"amended"_s, u"visit"_s, amendment->id.text); !noted)
            return noted.error();
        return oneVisit(m_store, amendment->id);
    });
}

base::Result<Visit> Visits::withdraw(const VisitId& id, const QString& reason, const records::Author& author)
{
    return together(m_store, [&]() -> base::Result<Visit> {
        const auto visit = oneVisit(m_store, id);
        if (!visit)
            return visit;
        if (auto allowed = refuseWithdrawal(m_store, *visit, reason, author); !allowed)
            return allowed.error();
        const QDateTime now = m_store.access().now();
        if (auto withdrawn = addWithdrawal(m_store, visit->series, {reason, author, now}); !withdrawn)
            return withdrawn.error();
        if (auto noted = note(m_store, u"withdrawn"_s, u"visit"_s, id.text, now); !noted)
            return noted.error();
        return oneVisit(m_store, id);
    });
}

} // namespace storage
