#include "core/storage/visit_writing.h"

#include "core/catalogue/own.h"
#include "core/storage/condition_sets.h"
#include "core/storage/keys.h"
#include "core/storage/number_list.h"
#include "core/storage/query.h"
#include "core/storage/red_flags.h"

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

NumberList trialsOf(const Finding& finding)
{
    NumberList trials;
    for (size_t place = 0; place < finding.trials.size(); ++place) {
        trials.resize(size_t(records::trialNumber(finding, place)));
        trials.back() = finding.trials[place];
    }
    return trials;
}

/// NULL for no numbers.
QVariant list(const NumberList& numbers)
{
    return numbers.empty() ? QVariant() : QVariant(QString::fromLatin1(written(numbers)));
}

QVariant wholeOrNull(std::optional<qint64> number)
{
    return number ? QVariant(*number) : QVariant();
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

std::vector<Binding> bindingsOf(qint64 visit, const Finding& finding, std::optional<qint64> exceptions)
{
    const auto* quantity = std::get_if<values::Quantity>(&finding.value);
    const auto* grade = std::get_if<values::Grade>(&finding.value);
    const auto* choice = std::get_if<values::Choice>(&finding.value);
    const auto* missing = std::get_if<values::Missing>(&finding.value);
    return {{":visit", visit},
            {":measure", text(finding.measure)},
            {":side", code(finding.side)},
            {":state", values::stateCode(finding.value)},
            {":number", quantity != nullptr ? QVariant(quantity->number) : QVariant()},
            {":unit", quantity != nullptr ? text(values::code(quantity->unit)) : QVariant()},
            {":grade", grade != nullptr ? QVariant(grade->step) : QVariant()},
            {":choice", choice != nullptr ? text(choice->key) : QVariant()},
            {":trials", list(trialsOf(finding))},
            {":reason", text(missing != nullptr ? missing->reason : QString())},
            {":cap_reached", flag(finding.capReached)},
            {":signs", lines(finding.signs)},
            {":note", text(finding.note)},
            {":taps", list({finding.taps.begin(), finding.taps.end()})},
            {":exceptions", wholeOrNull(exceptions)}};
}

/// The set of conditions a finding refers to, if it is there and does.
base::Result<std::vector<qint64>> setOfFinding(const Store& store, qint64 visit, const QString& measure,
                                               records::Side side)
{
    const auto set = readWhole(
        store,
        u"SELECT exceptions FROM findings WHERE visit = :visit AND measure = :measure AND side = :side"_s,
        {{":visit", visit}, {":measure", text(measure)}, {":side", code(side)}});
    if (!set)
        return set.error();
    return *set ? std::vector<qint64>{**set} : std::vector<qint64>();
}

/// The key of the version a visit begins with, of which `own` is the key where it is that itself.
base::Result<qint64> keyOfSeries(const Store& store, const Visit& visit, qint64 own)
{
    if (visit.series == visit.id)
        return own;
    const auto series =
        readWhole(store, u"SELECT key FROM visits WHERE id = :id"_s, {{":id", key(visit.series)}});
    if (!series)
        return series.error();
    if (!*series)
        return Error{ErrorKind::NotFound, base::said("This visit is not in the records."), {}};
    return **series;
}

base::Result<std::optional<qint64>> keyOfForm(const Store& store, const std::optional<catalogue::Form>& form)
{
    if (!form)
        return std::optional<qint64>();
    const auto key =
        keyOfText(store, u"forms_made"_s, u"document"_s, text(catalogue::written(*form)).toString().toUtf8());
    if (!key)
        return key.error();
    return std::optional(*key);
}

/// Writes a finding of a visit that is new, so that there is none in its place.
base::Result<void> insertFinding(const Store& store, qint64 visit, const Finding& finding, int position)
{
    if (auto storable = refuseUnstorable(finding); !storable)
        return storable;
    const auto exceptions = keyOfSet(store, finding.exceptions);
    if (!exceptions)
        return exceptions.error();
    static const QString sql = uR"(
        INSERT INTO findings (visit, measure, side, position, state, number, unit, grade, choice, trials, reason,
            cap_reached, signs, note, taps, exceptions)
        VALUES (:visit, :measure, :side, :position, :state, :number, :unit, :grade, :choice, :trials, :reason,
            :cap_reached, :signs, :note, :taps, :exceptions))"_s;
    std::vector<Binding> bindings = bindingsOf(visit, finding, *exceptions);
    bindings.push_back({":position", position});
    const auto written = write(store, sql, bindings);
    return written ? base::Result<void>() : base::Result<void>(written.error());
}

} // namespace

base::Result<void> insertDraft(const Store& store, const Visit& visit)
{
    if (!visit.day.isValid())
        return Error{ErrorKind::Invalid, base::said("A visit needs a day of the calendar."), {}};
    const auto own = nextKey(store, u"visits"_s);
    if (!own)
        return own.error();
    const auto series = keyOfSeries(store, visit, *own);
    const auto form = series ? keyOfForm(store, visit.formAsMade) : series.error();
    const auto conditions = form ? keyOfSet(store, visit.conditions) : form.error();
    if (!conditions)
        return conditions.error();
    static const QString sql = uR"(
        INSERT INTO visits (key, id, revision, series, version, patient, day, state, form, form_made, conditions,
            conditions_confirmed, author_name, author_role, author_registration, amendment_reason)
        VALUES (:key, :id, 1, :series, :version, :patient, :day, 'draft', :form, :form_made, :conditions,
            :confirmed, '', '', '', :reason))"_s;
    auto written = write(store, sql,
                         {{":key", *own},
                          {":id", key(visit.id)},
                          {":series", *series},
                          {":version", visit.version},
                          {":patient", key(visit.patient)},
                          {":day", day(visit.day)},
                          {":form", text(visit.form)},
                          {":form_made", wholeOrNull(*form)},
                          {":conditions", wholeOrNull(*conditions)},
                          {":confirmed", flag(visit.conditionsConfirmed)},
                          {":reason", text(visit.amendmentReason)}});
    if (!written)
        return written.error();
    int position = 0;
    for (const Finding& finding : visit.findings) {
        if (auto inserted = insertFinding(store, *own, finding, ++position); !inserted)
            return inserted;
    }
    return putRedFlags(store, *own, visit.redFlags);
}

base::Result<void> putFinding(const Store& store, qint64 visit, const Finding& finding)
{
    if (auto storable = refuseUnstorable(finding); !storable)
        return storable;
    const auto before = setOfFinding(store, visit, finding.measure, finding.side);
    const auto exceptions = before ? keyOfSet(store, finding.exceptions) : before.error();
    if (!exceptions)
        return exceptions.error();
    const QString sql = uR"(
        INSERT INTO findings (visit, measure, side, position, state, number, unit, grade, choice, trials, reason,
            cap_reached, signs, note, taps, exceptions)
        SELECT :visit, :measure, :side, COALESCE(MAX(position), 0) + 1, :state, :number, :unit, :grade, :choice, :trials,
            :reason, :cap_reached, :signs, :note, :taps, :exceptions
        FROM findings WHERE visit = :visit
        ON CONFLICT (visit, measure, side) DO UPDATE
        SET state = excluded.state, number = excluded.number, unit = excluded.unit, grade = excluded.grade,
            choice = excluded.choice, trials = excluded.trials, reason = excluded.reason,
            cap_reached = excluded.cap_reached, signs = excluded.signs, note = excluded.note, taps = excluded.taps,
            exceptions = excluded.exceptions)"_s;
    if (auto written = write(store, sql, bindingsOf(visit, finding, *exceptions)); !written)
        return written.error();
    return dropUnused(store, *before);
}

base::Result<int> removeFinding(const Store& store, qint64 visit, const QString& measure, records::Side side)
{
    const auto before = setOfFinding(store, visit, measure, side);
    if (!before)
        return before.error();
    auto removed =
        write(store, u"DELETE FROM findings WHERE visit = :visit AND measure = :measure AND side = :side"_s,
              {{":visit", visit}, {":measure", text(measure)}, {":side", code(side)}});
    if (!removed)
        return removed;
    if (auto dropped = dropUnused(store, *before); !dropped)
        return dropped.error();
    return removed;
}

base::Result<void> putConditions(const Store& store, qint64 visit, const records::Conditions& conditions)
{
    const auto before = setsOfVisit(store, visit);
    const auto set = before ? keyOfSet(store, conditions) : before.error();
    if (!set)
        return set.error();
    auto written = write(store, u"UPDATE visits SET conditions = :conditions WHERE key = :visit"_s,
                         {{":conditions", wholeOrNull(*set)}, {":visit", visit}});
    if (!written)
        return written.error();
    return dropUnused(store, *before);
}

} // namespace storage
