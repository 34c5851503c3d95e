#include "core/storage/visit_reading.h"

#include "core/catalogue/own.h"
#include "core/storage/number_list.h"
#include "core/storage/red_flags.h"

#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>
#include <numeric>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Conditions;
using records::Finding;
using records::Visit;

const Error unknownWord{
    ErrorKind::Unreadable, base::said("The records hold a word this program does not know."), {}};

const QString findingColumns = u"measure, side, findings.state, number, unit, grade, choice, reason, trials, "
                               u"cap_reached, signs, note, taps, "
                               "exceptions"_s;

/// What a code means, asked of `meaning` the first time alone.
template <class Meaning, class Ask>
std::optional<Meaning> known(QHash<QByteArray, std::optional<Meaning>>& all, QByteArrayView code, Ask meaning)
{
    const auto found = all.constFind(QByteArray::fromRawData(code.data(), code.size()));
    return found != all.constEnd() ? *found
                                   : *all.insert(code.toByteArray(), meaning(QString::fromUtf8(code)));
}

/// Whether it is a list or none.
bool takeTrials(Finding& finding, QByteArrayView words)
{
    return words.isEmpty() ||
           eachNumber(words, [&](int number, double trial) { records::addTrial(finding, number, trial); });
}

/// The same; none is left out.
bool takeTaps(Finding& finding, QByteArrayView words)
{
    return words.isEmpty() || eachNumber(words, [&](int number, double tap) {
               finding.taps.resize(size_t(number));
               finding.taps.back() = tap;
           });
}

/// In the order in which they were first entered.
void arrange(std::vector<Finding>& findings, const std::vector<int>& positions)
{
    if (std::ranges::is_sorted(positions))
        return;
    std::vector<size_t> order(positions.size());
    std::iota(order.begin(), order.end(), size_t(0));
    std::ranges::sort(order, {}, [&](size_t place) { return positions[place]; });
    std::vector<Finding> arranged;
    arranged.reserve(order.size());
    for (const size_t place : order)
        arranged.push_back(std::move(findings[place]));
    findings = std::move(arranged);
}

/// The one text of a row that is referred to by its key.
base::Result<QByteArray> referred(const Store& store, const QString& sql, qint64 key)
{
    QByteArray words;
    auto found = read(store, sql, {{":key", key}}, [&](Row& row) -> base::Result<void> {
        words = row.bytes();
        return {};
    });
    if (!found)
        return found.error();
    return words;
}

} // namespace

base::Result<std::vector<Visit>> VisitReader::where(const QString& condition, const QString& key)
{
    const QString sql = uR"(
        SELECT visits.key, visits.id, firsts.id, visits.version, visits.revision, visits.patient, visits.day, visits.state,
               visits.form, visits.form_made, visits.conditions, visits.conditions_confirmed, visits.author_name,
               visits.author_role, visits.author_registration, visits.signed_at, visits.amendment_reason,
               visit_withdrawals.reason, visit_withdrawals.author_name, visit_withdrawals.author_role,
               visit_withdrawals.author_registration, withdrawn_at
        FROM visits
        JOIN visits firsts ON firsts.key = visits.series
        LEFT JOIN visit_withdrawals ON visit_withdrawals.series = visits.series
        WHERE %1 ORDER BY visits.day, firsts.id, visits.version)"_s;
    std::vector<Visit> visits;
    std::vector<qint64> keys;
    auto found = read(m_store, sql.arg(condition), {{":key", key}}, [&](Row& row) -> base::Result<void> {
        const qint64 visitKey = row.whole64();
        auto visit = visitFrom(row);
        if (!visit)
            return visit.error();
        visits.push_back(std::move(*visit));
        keys.push_back(visitKey);
        return addFindings(visits.back(), visitKey);
    });
    if (!found)
        return found.error();
    if (auto added = addRedFlags(m_store, condition, key, keys, visits); !added)
        return added.error();
    return visits;
}

base::Result<Visit> VisitReader::visitFrom(Row& row)
{
    Visit visit;
    visit.id = row.key<Visit>();
    visit.series = row.key<Visit>();
    visit.version = row.whole();
    visit.revision = row.whole();
    visit.patient = row.key<records::Patient>();
    visit.day = row.dayIfAny().value_or(QDate());
    const auto state = records::visitStateFromCode(row.text());
    visit.form = row.text();
    auto form = formMade(row.wholeIfAny());
    auto set = conditions(row.wholeIfAny());
    if (!form || !set)
        return (form ? set.error() : form.error());
    visit.formAsMade = std::move(*form);
    visit.conditions = *set;
    visit.conditionsConfirmed = row.flag();
    visit.author = {row.text(), row.text(), row.text()};
    visit.signedAt = row.instant();
    visit.amendmentReason = row.text();
    if (const QString reason = row.text(); !reason.isEmpty())
        visit.withdrawn = {reason, {row.text(), row.text(), row.text()}, row.instant()};
    if (!state)
        return unknownWord;
    visit.state = *state;
    return visit;
}

base::Result<void> VisitReader::addFindings(Visit& visit, qint64 key)
{
    const QString sql = u"SELECT position, %1 FROM findings WHERE visit = :visit"_s.arg(findingColumns);
    std::vector<int> positions;
    visit.findings.reserve(m_findings);
    auto found = read(m_store, sql, {{":visit", key}}, [&](Row& row) -> base::Result<void> {
        positions.push_back(row.whole());
        return take(row, visit.findings.emplace_back());
    });
    arrange(visit.findings, positions);
    m_findings = visit.findings.size();
    return found;
}

base::Result<records::FindingRead> VisitReader::finding(const records::VisitId& visit, const QString& measure,
                                                        records::Side side)
{
    const QString sql = uR"(
        SELECT visits.revision, findings.position, %1
        FROM visits LEFT JOIN findings ON findings.visit = visits.key AND measure = :measure AND side = :side
        WHERE visits.id = :id)"_s.arg(findingColumns);
    std::optional<records::FindingRead> finding;
    auto found = read(m_store, sql, {{":id", key(visit)}, {":measure", text(measure)}, {":side", code(side)}},
                      [&](Row& row) -> base::Result<void> {
                          finding = {row.whole(), std::nullopt};
                          if (!row.wholeIfAny())
                              return {};
                          return take(row, finding->finding.emplace());
                      });
    if (!found)
        return found.error();
    if (!finding)
        return Error{ErrorKind::NotFound, base::said("This visit is not in the records."), {}};
    return std::move(*finding);
}

base::Result<void> VisitReader::take(Row& row, Finding& finding)
{
    finding.measure = *known<QString>(m_measures, row.view(), [](const QString& id) { return id; });
    const auto side = known<records::Side>(m_sides, row.view(), &records::sideFromCode);
    auto value = valueFrom(row);
    const bool areTrials = takeTrials(finding, row.view());
    finding.capReached = row.flag();
    finding.signs = row.lines();
    finding.note = row.text();
    const bool areTaps = takeTaps(finding, row.view());
    auto exceptions = conditions(row.wholeIfAny());
    if (!exceptions)
        return exceptions.error();
    if (!side || !value || !areTrials || !areTaps)
        return unknownWord;
    finding.side = *side;
    finding.value = std::move(*value);
    finding.exceptions = *exceptions;
    return {};
}

std::optional<values::Value> VisitReader::valueFrom(Row& row)
{
    const QByteArrayView state = row.view();
    const auto absence = state == "done" ? std::nullopt : values::absenceFromCode(QString::fromUtf8(state));
    const auto number = row.numberIfAny();
    const auto unit = known<values::Unit>(m_units, row.view(), &values::unitFromCode);
    const auto grade = row.wholeIfAny();
    const QString choice = row.text();
    const QString reason = row.text();
    if (absence)
        return values::Missing{*absence, reason};
    if (number && unit)
        return values::Quantity{*number, *unit};
    if (grade)
        return values::Grade{int(*grade)};
    if (!choice.isEmpty())
        return values::Choice{choice};
    return std::nullopt;
}

base::Result<Conditions> VisitReader::conditions(std::optional<qint64> set)
{
    if (!set)
        return Conditions();
    if (const auto found = m_sets.constFind(*set); found != m_sets.constEnd())
        return *found;
    const auto words = referred(m_store, u"SELECT conditions FROM condition_sets WHERE key = :key"_s, *set);
    if (!words)
        return words.error();
    const QJsonObject all = QJsonDocument::fromJson(*words).object();
    Conditions conditions;
    for (auto one = all.begin(); one != all.end(); ++one)
        conditions[one.key()] = one.value().toString();
    if (conditions.isEmpty())
        return unknownWord;
    m_sets.insert(*set, conditions);
    return conditions;
}

base::Result<std::optional<catalogue::Form>> VisitReader::formMade(std::optional<qint64> key)
{
    if (!key)
        return std::optional<catalogue::Form>();
    if (const auto found = m_forms.constFind(*key); found != m_forms.constEnd())
        return std::optional(*found);
    const auto words = referred(m_store, u"SELECT document FROM forms_made WHERE key = :key"_s, *key);
    if (!words)
        return words.error();
    const auto form = catalogue::formFrom(QString::fromUtf8(*words));
    if (!form)
        return unknownWord;
    m_forms.insert(*key, *form);
    return form;
}

QString thatCounts(Drafts drafts)
{
    const QString mayCount =
        drafts == Drafts::Too ? u"1 = 1"_s : u"(%1.state <> 'draft' OR %1.version = 1)"_s;
    return uR"(%1
        AND NOT EXISTS (SELECT 1 FROM visits newer WHERE newer.series = visits.series
                        AND newer.version > visits.version AND %2)
        AND NOT EXISTS (SELECT 1 FROM visit_withdrawals WHERE visit_withdrawals.series = visits.series))"_s
        .arg(QString(mayCount).replace(u"%1"_s, u"visits"_s), QString(mayCount).replace(u"%1"_s, u"newer"_s));
}

} // namespace storage
