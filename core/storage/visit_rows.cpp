#include "core/storage/visit_rows.h"

#include "core/storage/query.h"

#include <QUuid>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Finding;
using records::Visit;
using records::VisitId;

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
    visit.conditionsConfirmed = row.flag();
    visit.author = {row.text(), row.text(), row.text()};
    visit.signedAt = row.instant();
    visit.amendmentReason = row.text();
    if (!state)
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

base::Result<void> insertTrials(const Store& store, const QString& findingId,
                                const std::vector<double>& trials)
{
    int count = 0;
    for (const double trial : trials) {
        auto written =
            write(store, u"INSERT INTO trials (finding, number, value) VALUES (:finding, :number, :value)"_s,
                  {{":finding", findingId}, {":number", ++count}, {":value", trial}});
        if (!written)
            return written.error();
    }
    return {};
}

base::Result<void> insertExceptions(const Store& store, const QString& findingId,
                                    const records::Conditions& exceptions)
{
    for (const auto& [name, value] : exceptions) {
        auto written =
            write(store,
                  u"INSERT INTO finding_conditions (finding, name, value) VALUES (:finding, :name, :value)"_s,
                  {{":finding", findingId}, {":name", text(name)}, {":value", text(value)}});
        if (!written)
            return written.error();
    }
    return {};
}

base::Result<void> refuseUnstorable(const Finding& finding)
{
    const auto* quantity = std::get_if<values::Quantity>(&finding.value);
    const bool isStorable =
        (quantity == nullptr || storage::isStorable(quantity->number)) &&
        std::ranges::all_of(finding.trials, [](double trial) { return storage::isStorable(trial); });
    if (!isStorable)
        return Error{ErrorKind::Invalid, u"A value and its trials must be numbers."_s, {}};
    return {};
}

/// The id and position the finding has in the visit, or would have.
base::Result<std::pair<QString, int>> placeOf(const Store& store, const VisitId& visit,
                                              const Finding& finding)
{
    std::pair<QString, int> place;
    auto found =
        read(store,
             u"SELECT COALESCE(MAX(CASE WHEN measure = :measure AND side = :side THEN id ELSE '' END), ''), "
             "COALESCE(MAX(position), 0) + 1 FROM findings WHERE visit = :visit"_s,
             {{":measure", text(finding.measure)}, {":side", code(finding.side)}, {":visit", key(visit)}},
             [&](Row& row) -> base::Result<void> {
                 place.first = row.text();
                 place.second = row.whole();
                 return {};
             });
    if (!found)
        return found.error();
    return place;
}

std::vector<Binding> bindingsOf(const QString& id, const VisitId& visit, int position, const Finding& finding)
{
    const auto* quantity = std::get_if<values::Quantity>(&finding.value);
    const auto* grade = std::get_if<values::Grade>(&finding.value);
    const auto* choice = std::get_if<values::Choice>(&finding.value);
    const auto* missing = std::get_if<values::Missing>(&finding.value);
    return {{":id", id},
            {":visit", key(visit)},
            {":position", position},
            {":measure", text(finding.measure)},
            {":side", code(finding.side)},
            {":state", values::stateCode(finding.value)},
            {":number", quantity != nullptr ? QVariant(quantity->number) : QVariant()},
            {":unit", quantity != nullptr ? text(values::code(quantity->unit)) : QVariant()},
            {":grade", grade != nullptr ? QVariant(grade->step) : QVariant()},
            {":choice", choice != nullptr ? text(choice->key) : QVariant()},
            {":reason", text(missing != nullptr ? missing->reason : QString())},
            {":cap_reached", flag(finding.capReached)},
            {":signs", lines(finding.signs)},
            {":note", text(finding.note)}};
}

base::Result<void> clearParts(const Store& store, const QString& findingId)
{
    for (const QString& sql : {u"DELETE FROM trials WHERE finding = :finding"_s,
                               u"DELETE FROM finding_conditions WHERE finding = :finding"_s}) {
        if (auto cleared = write(store, sql, {{":finding", findingId}}); !cleared)
            return cleared.error();
    }
    return {};
}

} // namespace

base::Result<std::vector<Visit>> visitsWhere(const Store& store, const QString& condition, const QString& key)
{
    Loading loading;
    const QString ofVisits = u" JOIN visits ON visits.id = findings.visit WHERE "_s + condition;
    const std::vector<Binding> bindings{{":key", key}};

    auto loaded = read(
        store,
        u"SELECT id, series, version, revision, patient, day, state, form, conditions_confirmed, "
        "author_name, author_role, author_registration, signed_at, amendment_reason FROM visits WHERE "_s +
            condition + u" ORDER BY day, series, version"_s,
        bindings, [&](Row& row) { return takeVisit(loading, row); });
    if (loaded)
        loaded =
            read(store,
                 u"SELECT findings.id, findings.visit, measure, side, findings.state, number, unit, grade, "
                 "choice, reason, cap_reached, signs, note FROM findings"_s +
                     ofVisits + u" ORDER BY findings.visit, position"_s,
                 bindings, [&](Row& row) { return takeFinding(loading, row); });
    if (loaded)
        loaded = read(
            store,
            u"SELECT trials.finding, trials.value FROM trials JOIN findings ON findings.id = trials.finding"_s +
                ofVisits + u" ORDER BY trials.finding, trials.number"_s,
            bindings, [&](Row& row) -> base::Result<void> {
                Finding& finding = loading.finding(row.text());
                finding.trials.push_back(row.number());
                return {};
            });
    if (loaded)
        loaded = read(store,
                      u"SELECT exceptions.finding, exceptions.name, exceptions.value FROM finding_conditions "
                      u"exceptions "
                      "JOIN findings ON findings.id = exceptions.finding"_s +
                          ofVisits,
                      bindings, [&](Row& row) -> base::Result<void> {
                          Finding& finding = loading.finding(row.text());
                          const QString name = row.text();
                          finding.exceptions[name] = row.text();
                          return {};
                      });
    if (loaded)
        loaded = read(
            store,
            u"SELECT visit, name, value FROM visit_conditions JOIN visits ON visits.id = visit WHERE "_s +
                condition,
            bindings, [&](Row& row) -> base::Result<void> {
                Visit& visit = loading.visits.at(loading.visitAt.value(row.text()));
                const QString name = row.text();
                visit.conditions[name] = row.text();
                return {};
            });
    if (!loaded)
        return loaded.error();
    return std::move(loading.visits);
}

base::Result<void> insertDraft(const Store& store, const Visit& visit)
{
    if (!visit.day.isValid())
        return Error{ErrorKind::Invalid, u"A visit needs a day of the calendar."_s, {}};
    auto written =
        write(store,
              u"INSERT INTO visits (id, revision, series, version, patient, day, state, form, "
              "conditions_confirmed, author_name, author_role, author_registration, amendment_reason) "
              "VALUES (:id, 1, :series, :version, :patient, :day, 'draft', :form, :confirmed, '', '', '', "
              ":reason)"_s,
              {{":id", key(visit.id)},
               {":series", key(visit.series)},
               {":version", visit.version},
               {":patient", key(visit.patient)},
               {":day", day(visit.day)},
               {":form", text(visit.form)},
               {":confirmed", flag(visit.conditionsConfirmed)},
               {":reason", text(visit.amendmentReason)}});
    if (!written)
        return written.error();
    for (const Finding& finding : visit.findings) {
        if (auto put = putFinding(store, visit.id, finding); !put)
            return put;
    }
    return putConditions(store, visit.id, visit.conditions);
}

base::Result<void> putFinding(const Store& store, const VisitId& visit, const Finding& finding)
{
    if (auto storable = refuseUnstorable(finding); !storable)
        return storable;
    auto place = placeOf(store, visit, finding);
    if (!place)
        return place.error();
    auto& [id, position] = *place;
    const bool isNew = id.isEmpty();
    if (isNew)
        id = QUuid::createUuid().toString(QUuid::WithoutBraces);
    else if (auto cleared = clearParts(store, id); !cleared)
        return cleared;

    auto written =
        write(store,
              u"INSERT INTO findings (id, revision, visit, position, measure, side, state, number, unit, "
              "grade, choice, reason, cap_reached, signs, note) VALUES (:id, 1, :visit, :position, "
              ":measure, :side, :state, :number, :unit, :grade, :choice, :reason, :cap_reached, :signs, "
              ":note) ON CONFLICT (visit, measure, side) DO UPDATE SET revision = findings.revision + 1, "
              "state = excluded.state, number = excluded.number, unit = excluded.unit, "
              "grade = excluded.grade, choice = excluded.choice, reason = excluded.reason, "
              "cap_reached = excluded.cap_reached, signs = excluded.signs, note = excluded.note"_s,
              bindingsOf(id, visit, position, finding));
    if (!written)
        return written.error();
    if (auto trials = insertTrials(store, id, finding.trials); !trials)
        return trials;
    return insertExceptions(store, id, finding.exceptions);
}

base::Result<void> putConditions(const Store& store, const VisitId& visit,
                                 const records::Conditions& conditions)
{
    if (auto cleared =
            write(store, u"DELETE FROM visit_conditions WHERE visit = :visit"_s, {{":visit", key(visit)}});
        !cleared)
        return cleared.error();
    for (const auto& [name, value] : conditions) {
        auto written = write(
            store, u"INSERT INTO visit_conditions (visit, name, value) VALUES (:visit, :name, :value)"_s,
            {{":visit", key(visit)}, {":name", text(name)}, {":value", text(value)}});
        if (!written)
            return written.error();
    }
    return {};
}

} // namespace storage
