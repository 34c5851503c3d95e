#include "core/storage/letters.h"

#include "core/base/text.h"
#include "core/records/visit.h"
#include "core/storage/audit_trail.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Letter;
using records::LetterState;

Letter letterFrom(Row& row)
{
    Letter letter;
    letter.id = row.key<Letter>();
    letter.revision = row.whole();
    letter.patient = row.key<records::Patient>();
    letter.visit = row.key<records::Visit>();
    if (const auto reference = row.key<records::Visit>(); !reference.isNull())
        letter.reference = reference;
    letter.state = row.text() == u"signed"_s ? LetterState::Signed : LetterState::Draft;
    letter.to = row.text();
    letter.copiesTo = row.text();
    letter.urgency = row.text();
    letter.question = row.text();
    letter.actions = row.text();
    letter.history = row.text();
    letter.interpretation = row.text();
    letter.charts = row.lines();
    letter.author = {row.text(), row.text(), row.text()};
    letter.signedAt = row.instant();
    letter.language = row.text();
    letter.kind = row.text();
    letter.hasAnnex = row.flag();
    letter.medicines = row.text();
    letter.plan = row.text();
    letter.safetyNet = row.text();
    letter.leftOut = row.lines();
    if (const auto replaced = row.key<Letter>(); !replaced.isNull())
        letter.replaces = replaced;
    letter.body = row.text();
    letter.pdf = row.bytes();
    letter.odt = row.bytes();
    return letter;
}

const QString itsDocument = u"body, pdf, odt"_s;
const QString noDocument = u"'', NULL, NULL"_s;

base::Result<std::vector<Letter>> lettersWhere(const Store& store, const QString& condition,
                                               const QString& key, const QString& document)
{
    std::vector<Letter> letters;
    const QString sql = uR"(
        SELECT id, revision, patient, visit, reference, state, recipient, copies_to, urgency, question, actions,
               history, interpretation, charts, author_name, author_role, author_registration, signed_at,
               language, kind, has_annex, medicines, plan, safety_net, left_out, replaces, %1
        FROM letters WHERE %2 ORDER BY saved_at, id)"_s;
    auto found =
        read(store, sql.arg(document, condition), {{":key", key}}, [&](Row& row) -> base::Result<void> {
            letters.push_back(letterFrom(row));
            return {};
        });
    if (!found)
        return found.error();
    return letters;
}

base::Result<Letter> oneLetter(const Store& store, const QString& id)
{
    auto letters = lettersWhere(store, u"id = :key"_s, id, itsDocument);
    if (!letters)
        return letters.error();
    if (letters->empty())
        return Error{ErrorKind::NotFound, base::said("This letter is not in the records."), {}};
    return std::move(letters->front());
}

std::vector<Binding> bindingsOf(const Letter& letter, const QDateTime& now)
{
    return {{":id", key(letter.id)},
            {":revision", letter.revision},
            {":patient", key(letter.patient)},
            {":visit", key(letter.visit)},
            {":reference", letter.reference ? key(*letter.reference) : QVariant()},
            {":recipient", text(letter.to)},
            {":copies_to", text(letter.copiesTo)},
            {":urgency", text(letter.urgency)},
            {":question", text(letter.question)},
            {":actions", text(letter.actions)},
            {":history", text(letter.history)},
            {":interpretation", text(letter.interpretation)},
            {":charts", lines(letter.charts)},
            {":author_name", text(letter.author.name)},
            {":author_role", text(letter.author.role)},
            {":author_registration", text(letter.author.registration)},
            {":now", instant(now)},
            {":body", text(letter.body)},
            {":pdf", letter.pdf},
            {":odt", letter.odt},
            {":language", text(letter.language)},
            {":kind", text(letter.kind)},
            {":has_annex", int(letter.hasAnnex)},
            {":medicines", text(letter.medicines)},
            {":plan", text(letter.plan)},
            {":safety_net", text(letter.safetyNet)},
            {":left_out", lines(letter.leftOut)},
            {":replaces", letter.replaces ? key(*letter.replaces) : QVariant()}};
}

base::Result<int> insert(const Store& store, const Letter& letter, const QDateTime& now)
{
    const QString sql = uR"(
        INSERT INTO letters (id, revision, patient, visit, reference, state, recipient, copies_to, urgency,
            question, actions, history, interpretation, charts, author_name, author_role, author_registration,
            saved_at, body, pdf, odt, language, kind, has_annex, medicines, plan, safety_net, left_out, replaces)
        VALUES (:id, :revision + 1, :patient, :visit, :reference, 'draft', :recipient, :copies_to, :urgency,
            :question, :actions, :history, :interpretation, :charts, :author_name, :author_role,
            :author_registration, :now, :body, :pdf, :odt, :language, :kind, :has_annex, :medicines, :plan,
            :safety_net, :left_out, :replaces))"_s;
    return write(store, sql, bindingsOf(letter, now));
}

/// Writes over a draft; `more` is what changes besides.
base::Result<int> update(const Store& store, const Letter& letter, const QDateTime& now, const QString& more)
{
    const QString sql = uR"(
        UPDATE letters
        SET revision = revision + 1, patient = :patient, visit = :visit, reference = :reference,
            recipient = :recipient, copies_to = :copies_to, urgency = :urgency, question = :question,
            actions = :actions, history = :history, interpretation = :interpretation, charts = :charts,
            author_name = :author_name, author_role = :author_role, author_registration = :author_registration,
            saved_at = :now, body = :body, pdf = :pdf, odt = :odt, language = :language, kind = :kind,
            has_annex = :has_annex, medicines = :medicines, plan = :plan, safety_net = :safety_net,
            left_out = :left_out, replaces = :replaces%1
        WHERE id = :id AND revision = :revision AND state = 'draft')"_s;
    return write(store, sql.arg(more), bindingsOf(letter, now));
}

/// Why an update touched no row.
Error refusal(const Store& store, const Letter& letter)
{
    const auto stored = oneLetter(store, letter.id.text);
    if (!stored)
        return stored.error();
    if (stored->state == LetterState::Signed)
        return {ErrorKind::Refused, base::said("A signed letter never changes."), {}};
    return {ErrorKind::Conflict,
            base::said("Someone else has changed this letter since; nothing was saved."),
            {}};
}

base::Result<bool> isAny(const Store& store, const QString& sql, const records::VisitId& visit)
{
    bool isThere = false;
    auto found = read(store, sql, {{":visit", key(visit)}}, [&](Row&) -> base::Result<void> {
        isThere = true;
        return {};
    });
    if (!found)
        return found.error();
    return isThere;
}

/// No letter is begun or signed about a visit that was entered in error.
base::Result<void> refuseWithdrawn(const Store& store, const Letter& letter)
{
    const QString sql = uR"(
        SELECT visits.id FROM visits JOIN visit_withdrawals ON visit_withdrawals.series = visits.series
        WHERE visits.id = :visit)"_s;
    const auto isWithdrawn = isAny(store, sql, letter.visit);
    if (!isWithdrawn)
        return isWithdrawn.error();
    if (*isWithdrawn)
        return Error{ErrorKind::Refused,
                     base::said("This visit was entered in error, so no letter about it is begun or signed."),
                     {}};
    return {};
}

/// What is corrected is a signed letter about the same patient.
base::Result<void> refuseReplacing(const Store& store, const Letter& letter)
{
    if (!letter.replaces)
        return {};
    const auto replaced = oneLetter(store, letter.replaces->text);
    if (!replaced)
        return replaced.error();
    if (replaced->state != LetterState::Signed || replaced->patient != letter.patient)
        return Error{
            ErrorKind::Refused, base::said("A letter replaces a signed one about the same patient."), {}};
    return {};
}

base::Result<void> refuseUnfinished(const Store& store, const Letter& letter)
{
    if (base::tidied(letter.author.name).isEmpty())
        return Error{ErrorKind::Refused,
                     base::said("A letter is signed by someone; the author's name is missing."),
                     {}};
    if (base::tidied(letter.body).isEmpty() || letter.pdf.isEmpty())
        return Error{
            ErrorKind::Refused, base::said("A letter is signed off with the document as it is signed."), {}};
    const auto isOfSignedVisit =
        isAny(store, u"SELECT id FROM visits WHERE id = :visit AND state <> 'draft'"_s, letter.visit);
    if (!isOfSignedVisit)
        return isOfSignedVisit.error();
    if (!*isOfSignedVisit)
        return Error{ErrorKind::Refused, base::said("Sign the visit before its letter."), {}};
    return refuseWithdrawn(store, letter);
}

} // namespace

base::Result<Letter> Letters::save(const Letter& given)
{
    if (given.state == LetterState::Signed)
        return Error{ErrorKind::Refused, base::said("A signed letter never changes."), {}};
    Letter letter = given;
    const bool isNew = letter.revision == 0;
    if (isNew && letter.id.isNull())
        letter.id = records::LetterId::make();

    return together(m_store, [&]() -> base::Result<Letter> {
        if (auto allowed = isNew ? refuseWithdrawn(m_store, letter) : base::Result<void>(); !allowed)
            return allowed.error();
        if (auto allowed = refuseReplacing(m_store, letter); !allowed)
            return allowed.error();
        const QDateTime now = m_store.access().now();
        const auto touched = isNew ? insert(m_store, letter, now) : update(m_store, letter, now, {});
        if (!touched)
            return touched.error();
        if (*touched == 0)
            return refusal(m_store, letter);
        if (auto noted = note(m_store, isNew ? u"created"_s : u"changed"_s, u"letter"_s, letter.id.text, now);
            !noted)
            return noted.error();
        return oneLetter(m_store, letter.id.text);
    });
}

base::Result<Letter> Letters::signOff(const Letter& letter)
{
    return together(m_store, [&]() -> base::Result<Letter> {
        if (auto finished = refuseUnfinished(m_store, letter); !finished)
            return finished.error();
        const QDateTime at = letter.signedAt.isValid() ? letter.signedAt : m_store.access().now();
        const auto touched = update(m_store, letter, at, u", state = 'signed', signed_at = :now"_s);
        if (!touched)
            return touched.error();
        if (*touched == 0)
            return refusal(m_store, letter);
        if (auto noted = note(m_store, u"signed"_s, u"letter"_s, letter.id.text, at); !noted)
            return noted.error();
        return oneLetter(m_store, letter.id.text);
    });
}

base::Result<std::vector<Letter>> Letters::ofPatient(const records::PatientId& patient) const
{
    return lettersWhere(m_store, u"patient = :key"_s, patient.text, noDocument);
}

base::Result<Letter> Letters::withId(const records::LetterId& id) const
{
    return oneLetter(m_store, id.text);
}

base::Result<void> Letters::noteHandover(const records::Handover& handover)
{
    if (base::tidied(handover.way).isEmpty() || !handover.day.isValid())
        return Error{
            ErrorKind::Invalid, base::said("Say on which day and how the letter was handed over."), {}};
    return together(m_store, [&]() -> base::Result<void> {
        const auto letter = oneLetter(m_store, handover.letter.text);
        if (!letter)
            return letter.error();
        if (letter->state != LetterState::Signed)
            return Error{ErrorKind::Refused, base::said("Only a signed letter is handed over."), {}};
        const QString sql = uR"(
            INSERT INTO letter_handovers (letter, number, day, way, recipient, who, noted_at)
            SELECT :letter, COALESCE(MAX(number), 0) + 1, :day, :way, :recipient, :who, :at
            FROM letter_handovers WHERE letter = :letter)"_s;
        auto added = write(m_store, sql,
                           {{":letter", key(handover.letter)},
                            {":day", day(handover.day)},
                            {":way", text(handover.way)},
                            {":recipient", text(handover.to)},
                            {":who", text(m_store.access().who)},
                            {":at", instant(m_store.access().now())}});
        if (!added)
            return added.error();
        return note(m_store, u"changed"_s, u"letter"_s, handover.letter.text);
    });
}

base::Result<std::vector<records::Handover>> Letters::handovers(const records::PatientId& patient) const
{
    const QString sql = uR"(
        SELECT letter, day, way, letter_handovers.recipient, who, noted_at FROM letter_handovers
        JOIN letters ON letters.id = letter_handovers.letter WHERE letters.patient = :key
        ORDER BY letter, number)"_s;
    std::vector<records::Handover> all;
    auto found = read(m_store, sql, {{":key", key(patient)}}, [&](Row& row) -> base::Result<void> {
        records::Handover handover;
        handover.letter = row.key<Letter>();
        handover.day = row.dayIfAny().value_or(QDate());
        handover.way = row.text();
        handover.to = row.text();
        handover.who = row.text();
        handover.notedAt = row.instant();
        all.push_back(handover);
        return {};
    });
    if (!found)
        return found.error();
    return all;
}

base::Result<std::vector<records::LetterSigned>> Letters::signedOf(const records::PatientId& patient) const
{
    const QString sql = uR"(
        SELECT firsts.id, letters.signed_at FROM letters JOIN visits ON visits.id = letters.visit
        JOIN visits firsts ON firsts.key = visits.series
        WHERE letters.patient = :key AND letters.state = 'signed')"_s;
    std::vector<records::LetterSigned> letters;
    auto found = read(m_store, sql, {{":key", key(patient)}}, [&](Row& row) -> base::Result<void> {
        const auto series = row.key<records::Visit>();
        letters.push_back({series, row.instant()});
        return {};
    });
    if (!found)
        return found.error();
    return letters;
}

} // namespace storage
