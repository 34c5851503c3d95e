#include "core/storage/visit_reading.h"

#include "core/catalogue/own.h"
#include "core/storage/query.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Finding;
using records::Visit;

const Error unknownWord{ErrorKind::Unreadable, u"The records hold a word this program does not know."_s, {}};

/// Where the rows read so far ended up, so that later rows find what they belong to.
struct Loading {
    std::vector<Visit> visits;
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
    if (!state || (!formMade.isEmpty() && !visit.formAsMade))
        return unknownWord;
    visit.state = *state;
    loading.visitAt.insert(visit.id.text, loading.visits.size());
    loading.visits.push_back(std::move(visit));
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
    Finding finding;
    finding.measure = row.text();
    const auto side = records::sideFromCode(row.text());
    const auto value = valueFrom(row);
    if (!side || !value)
        return unknownWord;
    finding.side = *side;
    finding.value = *value;
    finding.capReached = row.flag();
    finding.signs = row.lines();
    finding.note = row.text();
    auto& findings = loading.visits.at(visit).findings;
    loading.findingAt.insert(id, {visit, findings.size()});
    findings.push_back(std::move(finding));
    return {};
}

base::Result<void> takeTrial(Loading& loading, Row& row)
{
    Finding& finding = loading.finding(row.text());
    finding.trials.push_back(row.number());
    return {};
}

base::Result<void> takeTap(Loading& loading, Row& row)
{
    Finding& finding = loading.finding(row.text());
    finding.taps.push_back(row.number());
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

} // namespace

base::Result<std::vector<Visit>> visitsWhere(const Store& store, const QString& condition, const QString& key)
{
    const QString visits = uR"(
        SELECT id, series, version, revision, patient, day, state, form, form_made, conditions_confirmed,
               author_name, author_role, author_registration, signed_at, amendment_reason
        FROM visits WHERE %1 ORDER BY day, series, version)"_s;
    const QString findings = uR"(
        SELECT findings.id, findings.visit, measure, side, findings.state, number, unit, grade, choice, reason,
               cap_reached, signs, note
        FROM findings JOIN visits ON visits.id = findings.visit WHERE %1 ORDER BY findings.visit, position)"_s;
    const QString trials = uR"(
        SELECT finding, trials.value FROM trials
        JOIN findings ON findings.id = finding JOIN visits ON visits.id = findings.visit
        WHERE %1 ORDER BY finding, trials.number)"_s;
    const QString taps = uR"(
        SELECT finding, taps.at_s FROM taps
        JOIN findings ON findings.id = finding JOIN visits ON visits.id = findings.visit
        WHERE %1 ORDER BY finding, taps.number)"_s;
    const QString exceptions = uR"(
        SELECT finding, name, value FROM finding_conditions
        JOIN findings ON findings.id = finding JOIN visits ON visits.id = findings.visit WHERE %1)"_s;
    const QString conditions = uR"(
        SELECT visit, name, value FROM visit_conditions JOIN visits ON visits.id = visit WHERE %1)"_s;

    Loading loading;
    for (const auto& part : {std::pair(visits, &takeVisit), std::pair(findings, &takeFinding),
                             std::pair(trials, &takeTrial), std::pair(taps, &takeTap),
                             std::pair(exceptions, &takeException), std::pair(conditions, &takeCondition)}) {
        auto loaded = read(store, part.first.arg(condition), {{":key", key}},
                           [&](Row& row) { return part.second(loading, row); });
        if (!loaded)
            return loaded.error();
    }
    return std::move(loading.visits);
}

} // namespace storage
