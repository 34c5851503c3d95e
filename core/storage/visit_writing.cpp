#include "core/storage/visit_writing.h"

#include "core/catalogue/own.h"
#include "core/storage/query.h"

#include <QUuid>

#include <algorithm>

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

base::Result<void> insertTrials(const Store& store, const QString& findingId, const Finding& finding)
{
    for (size_t place = 0; place < finding.trials.size(); ++place) {
        auto written =
            write(store, u"INSERT INTO trials (finding, number, value) VALUES (:finding, :number, :value)"_s,
                  {{":finding", findingId},
                   {":number", records::trialNumber(finding, place)},
                   {":value", finding.trials[place]}});
        if (!written)
            return written.error();
    }
    return {};
}

base::Result<void> insertTaps(const Store& store, const QString& findingId, const std::vector<double>& taps)
{
    int count = 0;
    for (const double tap : taps) {
        auto written =
            write(store, u"INSERT INTO taps (finding, number, at_s) VALUES (:finding, :number, :at)"_s,
                  {{":finding", findingId}, {":number", ++count}, {":at", tap}});
        if (!written)
            return written.error();
    }
    return {};
}

base::Result<void> insertExceptions(const Store& store, const QString& findingId,
                                    const records::Conditions& exceptions)
{
    for (const auto& [name, value] : exceptions.asKeyValueRange()) {
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
    const auto areStorable = [](const std::vector<double>& numbers) {
        return std::ranges::all_of(numbers, [](double number) { return storage::isStorable(number); });
    };
    const bool isStorable = (quantity == nullptr || storage::isStorable(quantity->number)) &&
                            areStorable(finding.trials) && areStorable(finding.taps);
    if (!isStorable)
        return Error{ErrorKind::Invalid, base::said("A value, its trials and its taps must be numbers."), {}};
    return {};
}

/// The id and position the finding has in the visit, or would have.
base::Result<std::pair<QString, int>> placeOf(const Store& store, const VisitId& visit,
                                              const Finding& finding)
{
    std::pair<QString, int> place;
    const QString sql = uR"(
        SELECT COALESCE(MAX(CASE WHEN measure = :measure AND side = :side THEN id ELSE '' END), ''),
               COALESCE(MAX(position), 0) + 1
        FROM findings WHERE visit = :visit)"_s;
    auto found =
        read(store, sql,
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
    for (const QString& sql :
         {u"DELETE FROM trials WHERE finding = :finding"_s, u"DELETE FROM taps WHERE finding = :finding"_s,
          u"DELETE FROM finding_conditions WHERE finding = :finding"_s}) {
        if (auto cleared = write(store, sql, {{":finding", findingId}}); !cleared)
            return cleared.error();
    }
    return {};
}

} // namespace

base::Result<void> insertDraft(const Store& store, const Visit& visit)
{
    if (!visit.day.isValid())
        return Error{ErrorKind::Invalid, base::said("A visit needs a day of the calendar."), {}};
    const QString sql = uR"(
        INSERT INTO visits (id, revision, series, version, patient, day, state, form, form_made,
            conditions_confirmed, author_name, author_role, author_registration, amendment_reason)
        VALUES (:id, 1, :series, :version, :patient, :day, 'draft', :form, :form_made, :confirmed, '', '', '',
            :reason))"_s;
    auto written =
        write(store, sql,
              {{":id", key(visit.id)},
               {":series", key(visit.series)},
               {":version", visit.version},
               {":patient", key(visit.patient)},
               {":day", day(visit.day)},
               {":form", text(visit.form)},
               {":form_made", visit.formAsMade ? text(catalogue::written(*visit.formAsMade)) : text({})},
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

    const QString sql = uR"(
        INSERT INTO findings (id, revision, visit, position, measure, side, state, number, unit, grade, choice,
            reason, cap_reached, signs, note)
        VALUES (:id, 1, :visit, :position, :measure, :side, :state, :number, :unit, :grade, :choice,
            :reason, :cap_reached, :signs, :note)
        ON CONFLICT (visit, measure, side) DO UPDATE
        SET revision = findings.revision + 1, state = excluded.state, number = excluded.number,
            unit = excluded.unit, grade = excluded.grade, choice = excluded.choice, reason = excluded.reason,
            cap_reached = excluded.cap_reached, signs = excluded.signs, note = excluded.note)"_s;
    auto written = write(store, sql, bindingsOf(id, visit, position, finding));
    if (!written)
        return written.error();
    if (auto trials = insertTrials(store, id, finding); !trials)
        return trials;
    if (auto taps = insertTaps(store, id, finding.taps); !taps)
        return taps;
    return insertExceptions(store, id, finding.exceptions);
}

base::Result<void> putConditions(const Store& store, const VisitId& visit,
                                 const records::Conditions& conditions)
{
    if (auto cleared =
            write(store, u"DELETE FROM visit_conditions WHERE visit = :visit"_s, {{":visit", key(visit)}});
        !cleared)
        return cleared.error();
    for (const auto& [name, value] : conditions.asKeyValueRange()) {
        auto written = write(
            store, u"INSERT INTO visit_conditions (visit, name, value) VALUES (:visit, :name, :value)"_s,
            {{":visit", key(visit)}, {":name", text(name)}, {":value", text(value)}});
        if (!written)
            return written.error();
    }
    return {};
}

} // namespace storage
