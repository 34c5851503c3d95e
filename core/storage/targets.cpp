#include "core/storage/targets.h"

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
using records::Target;

Target targetFrom(Row& row)
{
    Target target;
    target.measure = row.text();
    target.side = records::sideFromCode(row.text()).value_or(records::Side::None);
    target.value = row.numberIfAny().value_or(0);
    target.by = row.dayIfAny();
    target.words = row.text();
    target.agreedOn = row.dayIfAny().value_or(QDate());
    target.droppedFor = row.text();
    target.who = row.text();
    target.enteredAt = row.instant();
    return target;
}

} // namespace

base::Result<void> Targets::save(const records::PatientId& patient, const Target& given)
{
    if (!isStorable(given.value))
        return Error{ErrorKind::Invalid, base::said("A target must be a number."), {}};
    if (!given.agreedOn.isValid() || (given.by && !given.by->isValid()))
        return Error{
            ErrorKind::Invalid, base::said("The days of a target must be days of the calendar."), {}};
    Target target = given;
    target.droppedFor.clear();
    return together(m_store, [&] { return add(patient, target); });
}

base::Result<void> Targets::drop(const records::PatientId& patient, const QString& measure,
                                 records::Side side, const QString& reason)
{
    if (base::tidied(reason).isEmpty())
        return Error{ErrorKind::Refused, base::said("Say why the target is no longer looked at."), {}};
    return together(m_store, [&]() -> base::Result<void> {
        const auto targets = ofPatient(patient);
        if (!targets)
            return targets.error();
        const Target* newest = records::newestOf(*targets, measure, side);
        if (newest == nullptr)
            return Error{ErrorKind::NotFound, base::said("This target is not in the records."), {}};
        if (!newest->droppedFor.isEmpty())
            return Error{ErrorKind::Refused, base::said("This target is no longer looked at already."), {}};
        Target dropped = *newest;
        dropped.droppedFor = reason;
        return add(patient, dropped);
    });
}

base::Result<void> Targets::add(const records::PatientId& patient, Target target)
{
    if (auto there = Patients(m_store).withId(patient); !there)
        return there.error();
    target.who = m_store.access().who;
    target.enteredAt = m_store.access().now();
    if (auto added = bring(patient, target); !added)
        return added;
    return note(m_store, u"changed"_s, u"patient"_s, patient.text);
}

base::Result<void> Targets::bring(const records::PatientId& patient, const Target& target)
{
    const QString sql = uR"(
        INSERT INTO targets (patient, number, measure, side, value, by_day, words, agreed_on, dropped_for, who,
            entered_at)
        SELECT :patient, COALESCE(MAX(number), 0) + 1, :measure, :side, :value, :by_day, :words, :agreed_on,
            :dropped_for, :who, :at
        FROM targets WHERE patient = :owner)"_s;
    auto added = write(m_store, sql,
                       {{":patient", key(patient)},
                        {":measure", text(target.measure)},
                        {":side", code(target.side)},
                        {":value", target.value},
                        {":by_day", day(target.by)},
                        {":words", text(target.words)},
                        {":agreed_on", day(target.agreedOn)},
                        {":dropped_for", text(target.droppedFor)},
                        {":who", text(target.who)},
                        {":at", instant(target.enteredAt)},
                        {":owner", key(patient)}});
    return added ? base::Result<void>() : base::Result<void>(added.error());
}

base::Result<std::vector<Target>> Targets::ofPatient(const records::PatientId& patient) const
{
    std::vector<Target> targets;
    const QString sql = uR"(
        SELECT measure, side, value, by_day, words, agreed_on, dropped_for, who, entered_at FROM targets
        WHERE patient = :patient ORDER BY number)"_s;
    auto found = read(m_store, sql, {{":patient", key(patient)}}, [&](Row& row) -> base::Result<void> {
        targets.push_back(targetFrom(row));
        return {};
    });
    if (!found)
        return found.error();
    return targets;
}

} // namespace storage
