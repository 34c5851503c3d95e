#include "core/storage/cases.h"

#include "core/base/text.h"
#include "core/storage/happenings.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"
#include "core/storage/visit_reading.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using judging::Case;
using judging::CaseSummary;
using judging::Strongest;

/// The kind "first" stands for first results, which have no strongest change.
void readStrongest(Row& row, CaseSummary& summary)
{
    Strongest strongest;
    strongest.measure = row.text();
    strongest.side = records::sideFromCode(row.text()).value_or(records::Side::None);
    const auto kind = judging::outcomeKindFromCode(row.text());
    strongest.by = judging::saysFromCode(row.text()).value_or(judging::Says::FirstVisit);
    strongest.strength = judging::strengthFromCode(row.text()).value_or(judging::Strength::None);
    strongest.isSure = row.flag();
    strongest.since = row.dayIfAny().value_or(QDate());
    summary.isFirst = kind == judging::OutcomeKind::First;
    if (!kind || summary.isFirst)
        return;
    strongest.kind = *kind;
    summary.strongest = strongest;
}

CaseSummary summaryFrom(Row& row)
{
    CaseSummary summary;
    summary.visit = row.dayIfAny();
    readStrongest(row, summary);
    summary.flags = row.whole();
    summary.expectedFalse = row.numberIfAny().value_or(0);
    summary.chanceWorse = row.numberIfAny().value_or(1);
    summary.chanceBetter = row.numberIfAny().value_or(1);
    summary.isWorse = row.flag();
    summary.isBetter = row.flag();
    summary.hasReversed = row.flag();
    summary.isUnable = row.flag();
    summary.hasWorseWord = row.flag();
    summary.hasInjury = row.flag();
    return summary;
}

Case caseFrom(Row& row, const QString& stamp)
{
    Case made;
    made.patient = row.key<records::Patient>();
    made.family = row.text();
    made.given = row.text();
    made.sortName = base::folded(made.family + u' ' + made.given);
    made.recordNumber = row.text();
    made.population = row.text();
    made.onset = row.dayIfAny();
    made.clinician = row.text();
    made.form = row.text();
    made.lastSeen = row.dayIfAny();
    made.draft = row.dayIfAny();
    made.hasUnsignedLetter = row.flag();
    if (row.text() == stamp) {
        made.workedOutAt = row.instant();
        made.summary = summaryFrom(row);
    }
    return made;
}

std::vector<Binding> bindingsOf(const WorkedOut& each, const QString& stamp, const QDateTime& now)
{
    const CaseSummary& summary = each.summary;
    const Strongest strongest = summary.strongest.value_or(Strongest());
    const bool isAny = summary.strongest.has_value();
    const QString kind = isAny             ? judging::code(strongest.kind)
                         : summary.isFirst ? judging::code(judging::OutcomeKind::First)
                                           : QString();
    return {{":patient", key(each.patient)},
            {":changes", each.changes},
            {":stamp", text(stamp)},
            {":at", instant(now)},
            {":visit_day", day(summary.visit)},
            {":measure", text(strongest.measure)},
            {":side", isAny ? text(records::code(strongest.side)) : text({})},
            {":kind", text(kind)},
            {":says", isAny ? text(judging::code(strongest.by)) : text({})},
            {":strength", isAny ? text(judging::code(strongest.strength)) : text({})},
            {":is_sure", flag(strongest.isSure)},
            {":since", day(isAny ? std::optional(strongest.since) : std::nullopt)},
            {":flags", summary.flags},
            {":expected_false", summary.expectedFalse},
            {":chance_worse", summary.chanceWorse},
            {":chance_better", summary.chanceBetter},
            {":is_worse", flag(summary.isWorse)},
            {":is_better", flag(summary.isBetter)},
            {":has_reversed", flag(summary.hasReversed)},
            {":is_unable", flag(summary.isUnable)},
            {":has_worse_word", flag(summary.hasWorseWord)},
            {":has_injury", flag(summary.hasInjury)}};
}

} // namespace

base::Result<QString> Cases::stamp(const QString& release) const
{
    const auto clinic = m_store.clinic();
    if (!clinic)
        return clinic.error();
    const auto own = readWhole(m_store, u"SELECT MAX(version) FROM clinic_catalogues"_s, {});
    if (!own)
        return own.error();
    const records::Judging& judging = clinic->judging;
    return u"%1 %2 own %3 plan %4 %5 composite %6 choices %7"_s.arg(
        QString::number(judging::summaryVersion), release, QString::number(own->value_or(0)),
        QString::number(judging.plannedVisits), records::code(judging.strictness),
        QString::number(judging.compositeWeeks.value_or(0)), QString::number(judging.choices.size()));
}

base::Result<std::vector<judging::Case>>
Cases::where(const QString& condition, const std::vector<Binding>& bindings, const QString& stamp) const
{
    std::vector<Case> found;
    const QString sql = uR"(
        WITH counted AS (
            SELECT patient, day, state, author_name, form,
                   ROW_NUMBER() OVER (PARTITION BY patient, state = 'draft' ORDER BY day DESC, key DESC) AS place
            FROM visits WHERE %1 AND %2),
        letters_open AS (SELECT DISTINCT patient FROM letters WHERE state = 'draft')
        SELECT patients.id, family, given, record_number, population, onset,
               COALESCE(last_signed.author_name, ''), COALESCE(last_signed.form, ''), last_signed.day, last_draft.day,
               CASE WHEN letters_open.patient IS NULL THEN 0 ELSE 1 END,
               COALESCE(stamp, ''), worked_out_at, visit_day, measure, side, kind, says, strength, is_sure, since,
               flags, expected_false, chance_worse, chance_better, is_worse, is_better, has_reversed, is_unable,
               has_worse_word, has_injury
        FROM patients
        LEFT JOIN counted last_signed
            ON last_signed.patient = patients.id AND last_signed.state <> 'draft' AND last_signed.place = 1
        LEFT JOIN counted last_draft
            ON last_draft.patient = patients.id AND last_draft.state = 'draft' AND last_draft.place = 1
        LEFT JOIN letters_open ON letters_open.patient = patients.id
        LEFT JOIN case_summaries ON case_summaries.patient = patients.id
        WHERE %3)"_s;
    const QString ofVisits = QString(condition).replace(u"patients.id"_s, u"visits.patient"_s);
    auto done = read(m_store, sql.arg(thatCounts(Drafts::Too), ofVisits, condition), bindings,
                     [&](Row& row) -> base::Result<void> {
                         found.push_back(caseFrom(row, stamp));
                         return {};
                     });
    if (!done)
        return done.error();
    return found;
}

base::Result<std::vector<judging::Case>> Cases::all(const QString& stamp) const
{
    return where(u"1 = 1"_s, {}, stamp);
}

base::Result<std::optional<judging::Case>> Cases::one(const records::PatientId& patient,
                                                      const QString& stamp) const
{
    auto found = where(u"patients.id = :patient"_s, {{":patient", key(patient)}}, stamp);
    if (!found)
        return found.error();
    return found->empty() ? std::nullopt : std::optional(std::move(found->front()));
}

base::Result<CaseRecord> Cases::record(const records::PatientId& id) const
{
    const Transaction transaction(m_store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    CaseRecord record;
    const auto changes = readWhole(m_store, u"SELECT changes FROM case_summaries WHERE patient = :patient"_s,
                                   {{":patient", key(id)}});
    if (!changes)
        return changes.error();
    record.changes = changes->value_or(0);
    const auto patient = Patients(m_store).withId(id);
    if (!patient)
        return patient.error();
    record.patient = *patient;
    const auto versions = VisitReader(m_store).where(u"visits.patient = :key"_s, id.text);
    if (!versions)
        return versions.error();
    record.visits = records::current(*versions);
    const auto happenings = Happenings(m_store).ofPatient(id);
    if (!happenings)
        return happenings.error();
    record.happenings = records::current(*happenings);
    return record;
}

base::Result<WorkedOut> Cases::workOut(const records::PatientId& patient,
                                       const catalogue::Catalogue& catalogue,
                                       const records::Judging& judging) const
{
    const auto found = record(patient);
    if (!found)
        return found.error();
    return WorkedOut{
        patient, found->changes,
        judging::caseSummary({found->visits, found->patient, catalogue, judging}, found->happenings)};
}

base::Result<void> Cases::keep(const std::vector<WorkedOut>& all, const QString& stamp)
{
    return together(m_store, [&]() -> base::Result<void> {
        for (const WorkedOut& each : all) {
            auto kept = write(m_store, uR"(
                UPDATE case_summaries
                SET stamp = :stamp, worked_out_at = :at, visit_day = :visit_day, measure = :measure, side = :side,
                    kind = :kind, says = :says, strength = :strength, is_sure = :is_sure, since = :since,
                    flags = :flags, expected_false = :expected_false, chance_worse = :chance_worse,
                    chance_better = :chance_better, is_worse = :is_worse, is_better = :is_better,
                    has_reversed = :has_reversed, is_unable = :is_unable, has_worse_word = :has_worse_word,
                    has_injury = :has_injury
                WHERE patient = :patient AND changes = :changes)"_s,
                              bindingsOf(each, stamp, m_store.access().now()));
            if (!kept)
                return kept.error();
        }
        return {};
    });
}

} // namespace storage
