#include "core/storage/visit_reading.h"

#include "core/catalogue/own.h"
#include "core/storage/query.h"

#include <QSet>

#include <algorithm>
#include <numeric>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Finding;
using records::Visit;

const Error unknownWord{
    ErrorKind::Unreadable, base::said("The records hold a word this program does not know."), {}};

/// Where the rows read so far ended up, so that later rows find what they belong to.
struct Loading {
    const RareParts* rare = nullptr;
    std::vector<Visit> visits;
    std::vector<std::vector<int>> positions; ///< of each visit's findings
    QSet<QString> measures;                  ///< one text for all findings of a measure
    QHash<QString, size_t> visitAt;
    QHash<QString, std::pair<size_t, size_t>> findingAt;

    Finding& finding(const QString& id)
    {
        const auto [visit, finding] = findingAt.value(id);
        return visits.at(visit).findings.at(finding);
    }
};

base::Result<void> takeVisit(Loading& loading, Row& row)
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
    const QString formMade = row.text();
    visit.formAsMade = catalogue::formFrom(formMade);
    visit.conditionsConfirmed = row.flag();
    visit.author = {row.text(), row.text(), row.text()};
    visit.signedAt = row.instant();
    visit.amendmentReason = row.text();
    if (const QString reason = row.text(); !reason.isEmpty())
        visit.withdrawn = {reason, {row.text(), row.text(), row.text()}, row.instant()};
    if (!state || (!formMade.isEmpty() && !visit.formAsMade))
        return unknownWord;
    visit.state = *state;
    loading.visitAt.insert(visit.id.text, loading.visits.size());
    loading.visits.push_back(std::move(visit));
    loading.positions.emplace_back();
    return {};
}

std::optional<values::Value> valueFrom(Row& row)
{
    const QString state = row.text();
    const auto number = row.numberIfAny();
    const auto unit = values::unitFromCode(row.text());
    const auto grade = row.wholeIfAny();
    const QString choice = row.text();
    const QString reason = row.text();
    if (const auto absence = values::absenceFromCode(state))
        return values::Missing{*absence, reason};
    if (number && unit)
        return values::Quantity{*number, *unit};
    if (grade)
        return values::Grade{*grade};
    if (!choice.isEmpty())
        return values::Choice{choice};
    return std::nullopt;
}

base::Result<void> takeFinding(Loading& loading, Row& row)
{
    const QString id = row.text();
    const size_t visit = loading.visitAt.value(row.text());
    const int position = row.whole();
    Finding finding;
    finding.measure = *loading.measures.insert(row.text());
    const auto side = records::sideFromCode(row.text());
    const auto value = valueFrom(row);
    if (!side || !value)
        return unknownWord;
    finding.side = *side;
    finding.value = *value;
    finding.capReached = row.flag();
    finding.signs = row.lines();
    finding.note = row.text();
    if (loading.rare != nullptr) {
        finding.taps = loading.rare->taps.value(id);
        finding.exceptions = loading.rare->exceptions.value(id);
    }
    auto& findings = loading.visits.at(visit).findings;
    loading.findingAt.insert(id, {visit, findings.size()});
    findings.push_back(std::move(finding));
    loading.positions[visit].push_back(position);
    return {};
}

/// Number `number` of a list, counted from 1.
void put(std::vector<double>& numbers, int number, double value)
{
    numbers.resize(std::max(numbers.size(), size_t(number)));
    numbers[size_t(number) - 1] = value;
}

base::Result<void> takeTrial(Loading& loading, Row& row)
{
    Finding& finding = loading.finding(row.text());
    const int number = row.whole();
    records::addTrial(finding, number, row.number());
    return {};
}

base::Result<void> takeTap(Loading& loading, Row& row)
{
    Finding& finding = loading.finding(row.text());
    const int number = row.whole();
    put(finding.taps, number, row.number());
    return {};
}

base::Result<void> takeException(Loading& loading, Row& row)
{
    Finding& finding = loading.finding(row.text());
    const QString name = row.text();
    finding.exceptions[name] = row.text();
    return {};
}

base::Result<void> takeCondition(Loading& loading, Row& row)
{
    Visit& visit = loading.visits.at(loading.visitAt.value(row.text()));
    const QString name = row.text();
    visit.conditions[name] = row.text();
    return {};
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

/// Most visits repeat the conditions of the one before; then both share one map.
void shareConditions(std::vector<Visit>& visits)
{
    for (size_t i = 1; i < visits.size(); ++i) {
        if (visits[i].conditions == visits[i - 1].conditions)
            visits[i].conditions = visits[i - 1].conditions;
    }
}

} // namespace

base::Result<RareParts> rareParts(const Store& store)
{
    RareParts rare;
    const auto takeTaps = [&](Row& row) -> base::Result<void> {
        std::vector<double>& taps = rare.taps[row.text()];
        const int number = row.whole();
        put(taps, number, row.number());
        return {};
    };
    const auto takeExceptions = [&](Row& row) -> base::Result<void> {
        records::Conditions& exceptions = rare.exceptions[row.text()];
        const QString name = row.text();
        exceptions[name] = row.text();
        return {};
    };
    if (auto taken = read(store, u"SELECT finding, number, at_s FROM taps"_s, {}, takeTaps); !taken)
        return taken.error();
    if (auto taken =
            read(store, u"SELECT finding, name, value FROM finding_conditions"_s, {}, takeExceptions);
        !taken)
        return taken.error();
    return rare;
}

base::Result<std::vector<Visit>> visitsWhere(const Store& store, const QString& condition, const QString& key,
                                             const RareParts* rare)
{
    const QString visits = uR"(
        SELECT visits.id, visits.series, version, revision, patient, day, state, form, form_made,
               conditions_confirmed, visits.author_name, visits.author_role, visits.author_registration, signed_at,
               amendment_reason, visit_withdrawals.reason, visit_withdrawals.author_name,
               visit_withdrawals.author_role, visit_withdrawals.author_registration, withdrawn_at
        FROM visits LEFT JOIN visit_withdrawals ON visit_withdrawals.series = visits.series
        WHERE %1 ORDER BY day, visits.series, version)"_s;
    const QString findings = uR"(
        SELECT findings.id, findings.visit, position, measure, side, findings.state, number, unit, grade, choice, reason,
               cap_reached, signs, note
        FROM findings JOIN visits ON visits.id = findings.visit WHERE %1)"_s;
    const QString trials = uR"(
        SELECT finding, trials.number, trials.value FROM trials
        JOIN findings ON findings.id = finding JOIN visits ON visits.id = findings.visit
        WHERE %1)"_s;
    const QString taps = uR"(
        SELECT finding, taps.number, taps.at_s FROM taps
        JOIN findings ON findings.id = finding JOIN visits ON visits.id = findings.visit
        WHERE %1)"_s;
    const QString exceptions = uR"(
        SELECT finding, name, value FROM finding_conditions
        JOIN findings ON findings.id = finding JOIN visits ON visits.id = findings.visit WHERE %1)"_s;
    const QString conditions = uR"(
        SELECT visit, name, value FROM visit_conditions JOIN visits ON visits.id = visit WHERE %1)"_s;

    Loading loading;
    loading.rare = rare;
    std::vector<std::pair<QString, base::Result<void> (*)(Loading&, Row&)>> parts = {
        {visits, &takeVisit}, {findings, &takeFinding}, {trials, &takeTrial}, {conditions, &takeCondition}};
    if (rare == nullptr)
        parts.insert(parts.end(), {{taps, &takeTap}, {exceptions, &takeException}});
    for (const auto& part : parts) {
        auto loaded = read(store, part.first.arg(condition), {{":key", key}},
                           [&](Row& row) { return part.second(loading, row); });
        if (!loaded)
            return loaded.error();
    }
    for (size_t visit = 0; visit < loading.visits.size(); ++visit)
        arrange(loading.visits[visit].findings, loading.positions[visit]);
    shareConditions(loading.visits);
    return std::move(loading.visits);
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
