#include "core/records/check.h"

#include "core/catalogue/catalogue.h"
#include "core/records/allowed.h"
#include "core/records/derived.h"
#include "core/records/happening.h"
#include "core/records/letter.h"
#include "core/records/patient.h"
#include "core/records/target.h"
#include "core/records/texts.h"
#include "core/records/visit.h"
#include "core/records/wording.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

namespace records
{

namespace
{

using Wrong = std::optional<base::Error>;

constexpr size_t mostTrials = 20;
constexpr qsizetype mostSigns = 40;
constexpr TextLimit conditionLimit{80, base::Breaks::Forbidden};
const QDate earliest(1880, 1, 1);

Wrong wrongWithTrials(const Finding& finding, const catalogue::Measure& measure)
{
    if (finding.trials.size() > mostTrials)
        return invalid(
            base::said("%1: at most %2 trials.").arg(base::titled(measure.title)).arg(qint64(mostTrials)));
    const std::vector<int>& numbers = finding.trialNumbers;
    const auto rises = [](int earlier, int later) { return earlier < later; };
    const bool areNumbered =
        numbers.empty() || (numbers.size() == finding.trials.size() && numbers.front() >= 1 &&
                            numbers.back() <= int(mostTrials) &&
                            std::ranges::adjacent_find(numbers, std::not_fn(rises)) == numbers.end());
    if (!areNumbered)
        return invalid(base::said("%1: the numbers of the trials must rise from 1 to at most %2.")
                           .arg(base::titled(measure.title))
                           .arg(qint64(mostTrials)));
    for (const double trial : finding.trials) {
        if (const Wrong wrong = wrongWithReading(trial, finding.capReached, measure))
            return wrong;
    }
    return std::nullopt;
}

Wrong wrongWithTaps(const Finding& finding, const catalogue::Measure& measure)
{
    const std::vector<double>& taps = finding.taps;
    if (taps.empty())
        return std::nullopt;
    if (!measure.isTapped)
        return invalid(base::said("%1 is not counted by taps.").arg(base::titled(measure.title)));
    if (values::number(finding.value) != static_cast<double>(taps.size()))
        return invalid(
            base::said("%1: the value must be the number of taps.").arg(base::titled(measure.title)));
    const auto rises = [](double earlier, double later) { return earlier < later; };
    const bool areTimes = taps.front() >= 0 && std::isfinite(taps.back()) &&
                          std::ranges::adjacent_find(taps, std::not_fn(rises)) == taps.end();
    if (!areTimes)
        return invalid(
            base::said("%1: the times of the taps must rise from 0 s.").arg(base::titled(measure.title)));
    return std::nullopt;
}

Wrong wrongWithQuantity(const values::Quantity& quantity, const Finding& finding,
                        const catalogue::Measure& measure)
{
    if (quantity.unit != measure.unit)
        return invalid(
            base::said("%1 is recorded in %2.")
                .arg(base::titled(measure.title), base::Message(values::symbol(measure.unit).toUtf8())));
    if (finding.trials.empty())
        return wrongWithReading(quantity.number, finding.capReached, measure);
    if (const Wrong wrong = wrongWithNumber(quantity.number, measure))
        return wrong;
    const double due = values::number(valueOfTrials(finding.trials, measure)).value_or(quantity.number);
    if (values::exceeds(due, quantity.number) || values::exceeds(quantity.number, due))
        return invalid(
            base::said("%1: the value must follow from the trials.").arg(base::titled(measure.title)));
    return std::nullopt;
}

Wrong wrongWithGrade(const values::Grade& grade, const catalogue::Measure& measure)
{
    if (!isWithin(grade.step, measure.lowest, measure.highest))
        return allowedOnly(measure);
    return std::nullopt;
}

Wrong wrongWithMissing(const values::Missing& missing, const Finding& finding,
                       const catalogue::Measure& measure)
{
    if (missing.why == values::Absence::NotAttempted && missing.reason.trimmed().isEmpty())
        return invalid(base::said("%1: not attempted needs a reason.").arg(base::titled(measure.title)));
    if (missing.why != values::Absence::Unable && !finding.trials.empty())
        return invalid(base::said("%1: trials are kept only of a test that was done or tried.")
                           .arg(base::titled(measure.title)));
    return std::nullopt;
}

Wrong wrongWithValue(const Finding& finding, const catalogue::Measure& measure)
{
    if (const auto* missing = std::get_if<values::Missing>(&finding.value))
        return wrongWithMissing(*missing, finding, measure);
    if (const auto* grade = std::get_if<values::Grade>(&finding.value);
        grade && measure.kind == catalogue::Kind::Grade)
        return wrongWithGrade(*grade, measure);
    if (const auto* choice = std::get_if<values::Choice>(&finding.value);
        choice && measure.kind == catalogue::Kind::Choice && isOption(measure.options, choice->key))
        return std::nullopt;
    const bool isNumber = catalogue::isNumeric(measure.kind);
    if (const auto* quantity = std::get_if<values::Quantity>(&finding.value); quantity && isNumber)
        return wrongWithQuantity(*quantity, finding, measure);
    return allowedOnly(measure);
}

Wrong wrongWithSide(Side side, const catalogue::Measure& measure)
{
    if (measure.hasSides && side == Side::None)
        return invalid(base::said("%1 is recorded right or left.").arg(base::titled(measure.title)));
    if (!measure.hasSides && side != Side::None)
        return invalid(base::said("%1 is recorded once, without a side.").arg(base::titled(measure.title)));
    return std::nullopt;
}

/// One text with what it is called and what it may be.
struct Text {
    base::Message title;
    const QString& text;
    TextLimit limit;
};

Wrong wrongWithTexts(std::initializer_list<Text> texts)
{
    for (const Text& row : texts) {
        if (const Wrong wrong = wrongWithText(row.title, row.text, row.limit))
            return wrong;
    }
    return std::nullopt;
}

Wrong wrongWithTexts(const Patient& patient)
{
    return wrongWithTexts({{base::said("Record number"), patient.recordNumber, numberLimit},
                           {base::said("Family name"), patient.family, nameLimit},
                           {base::said("Given name"), patient.given, nameLimit},
                           {base::said("Diagnosis"), patient.diagnosis, lineLimit},
                           {base::said("Referrer"), patient.referrer, lineLimit},
                           {base::said("General practitioner"), patient.generalPractitioner, lineLimit},
                           {base::said("Allergies"), patient.allergies, noteLimit},
                           {base::said("Notes"), patient.notes, textLimit}});
}

Wrong wrongWithTexts(const Finding& finding, const catalogue::Measure& measure)
{
    if (finding.signs.size() > mostSigns)
        return invalid(base::said("%1: at most %2 signs.").arg(base::titled(measure.title)).arg(mostSigns));
    const auto* missing = std::get_if<values::Missing>(&finding.value);
    const QString signs = finding.signs.join(u'\n');
    const QString reason = missing == nullptr ? QString() : missing->reason;
    return wrongWithTexts({{base::said("%1, note").arg(base::titled(measure.title)), finding.note, noteLimit},
                           {base::said("%1, signs").arg(base::titled(measure.title)), signs, noteLimit},
                           {base::said("%1, reason").arg(base::titled(measure.title)), reason, lineLimit}});
}

Wrong wrongWithBody(const Patient& patient)
{
    if (patient.heightCm && !isWithin(*patient.heightCm, 30, 250))
        return invalid(base::said("Height: 30 to 250 cm."));
    if (patient.weightKg && !isWithin(*patient.weightKg, 1, 400))
        return invalid(base::said("Weight: 1 to 400 kg."));
    return std::nullopt;
}

Wrong wrongWithDates(const Patient& patient, QDate today)
{
    if (patient.born && (!patient.born->isValid() || *patient.born < earliest || *patient.born > today))
        return invalid(base::said("Birth date: a day from 01-Jan-1880 to today."));
    if (patient.onset && (!patient.onset->isValid() || *patient.onset < earliest || *patient.onset > today))
        return invalid(base::said("Onset: a day from 01-Jan-1880 to today."));
    if (patient.onset && patient.born && *patient.onset < *patient.born)
        return invalid(base::said("Onset: not before the birth date."));
    return std::nullopt;
}

Wrong wrongWithDay(QDate day, const Patient& patient, QDate today)
{
    if (!day.isValid() || day < earliest)
        return invalid(base::said("The visit's day: a calendar day from 01-Jan-1880 to today."));
    if (day > today)
        return invalid(base::said("The visit's day lies in the future; today is the latest allowed."));
    if (patient.born && day < *patient.born)
        return invalid(base::said(
            "The visit's day lies before the birth date; the birth date is the earliest allowed."));
    return std::nullopt;
}

Wrong wrongWithDay(const base::Message& title, QDate day, const Patient& patient, QDate today)
{
    if (!day.isValid() || day < earliest || day > today)
        return invalid(base::said("%1: a day from 01-Jan-1880 to today.").arg(title));
    if (patient.born && day < *patient.born)
        return invalid(base::said("%1: not before the birth date.").arg(title));
    return std::nullopt;
}

Wrong wrongWithTargetValue(double value, const catalogue::Measure& measure)
{
    if (measure.kind == catalogue::Kind::Choice)
        return invalid(base::said("%1 is answered in words, so it can have no target.")
                           .arg(base::titled(measure.title)));
    if (measure.better == catalogue::Direction::Neither)
        return invalid(base::said("%1: neither end is better, so it can have no target.")
                           .arg(base::titled(measure.title)));
    if (catalogue::isNumeric(measure.kind))
        return wrongWithNumber(value, measure);
    if (!isWithin(value, measure.lowest, measure.highest) || value != std::floor(value))
        return allowedOnly(measure);
    return std::nullopt;
}

} // namespace

std::optional<base::Error> wrongWith(const Patient& patient, const catalogue::Catalogue& catalogue,
                                     QDate today)
{
    if (patient.family.trimmed().isEmpty() && patient.given.trimmed().isEmpty() &&
        patient.recordNumber.trimmed().isEmpty())
        return invalid(base::said("A patient needs a family name, a given name or a record number."));
    if (const Wrong wrong = wrongWithTexts(patient))
        return wrong;
    if (const Wrong wrong = wrongWithDates(patient, today))
        return wrong;
    if (const Wrong wrong = wrongWithBody(patient))
        return wrong;
    if (!patient.population.isEmpty() && catalogue.population(patient.population) == nullptr)
        return invalid(base::said("Population: one of the catalogue's, or none."));
    return std::nullopt;
}

std::optional<base::Error> wrongWith(const Finding& finding, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(finding.measure);
    if (measure == nullptr)
        return invalid(
            base::said("“%1” is not a measure of the catalogue.").arg(base::shortened(finding.measure)));
    if (const Wrong wrong = wrongWithSide(finding.side, *measure))
        return wrong;
    if (finding.capReached && !measure->cap)
        return invalid(base::said("%1 has no cap to be reached.").arg(base::titled(measure->title)));
    if (const Wrong wrong = wrongWithTrials(finding, *measure))
        return wrong;
    if (const Wrong wrong = wrongWithTaps(finding, *measure))
        return wrong;
    if (const Wrong wrong = wrongWithValue(finding, *measure))
        return wrong;
    if (const Wrong wrong = wrongWithTexts(finding, *measure))
        return wrong;
    return wrongWith(finding.exceptions, catalogue);
}

std::optional<base::Error> wrongWith(const Conditions& conditions, const catalogue::Catalogue& catalogue)
{
    for (const auto& [id, value] : conditions.asKeyValueRange()) {
        if (const Wrong wrong = wrongWithCondition(id, value, catalogue))
            return wrong;
    }
    return std::nullopt;
}

std::vector<base::Error> everythingWrongWith(const Visit& visit, const Patient& patient,
                                             const catalogue::Catalogue& catalogue, QDate today)
{
    std::vector<base::Error> all;
    const auto add = [&all](const Wrong& wrong) {
        if (wrong)
            all.push_back(*wrong);
    };
    add(wrongWithDay(visit.day, patient, today));
    if (!visit.form.isEmpty() && !visit.formAsMade && catalogue.form(visit.form) == nullptr)
        add(invalid(base::said("“%1” is not a form of the catalogue.").arg(base::shortened(visit.form))));
    for (const auto& [id, value] : visit.conditions.asKeyValueRange())
        add(wrongWithCondition(id, value, catalogue));
    add(wrongWith(visit.redFlags, visit.day, catalogue, today));
    if (visit.state != VisitState::Draft)
        add(wrongWithSigning(visit));
    add(wrongWithReason(visit.amendmentReason));
    add(wrongWith(visit.author));
    if (visit.withdrawn) {
        add(wrongWithReason(visit.withdrawn->reason));
        add(wrongWith(visit.withdrawn->author));
    }
    if (visit.state != VisitState::Draft &&
        (visit.author.name.trimmed().isEmpty() || !visit.signedAt.isValid()))
        add(invalid(base::said("It is signed without an author or an instant.")));
    std::set<std::pair<QString, Side>> seen;
    for (const Finding& finding : visit.findings) {
        if (const Wrong wrong = wrongWith(finding, catalogue)) {
            add(wrong);
            continue;
        }
        if (!seen.emplace(finding.measure, finding.side).second)
            add(invalid(base::said("%1 is recorded twice; once a side is allowed.")
                            .arg(catalogue.measure(finding.measure)->title)));
        if (wrongWithTotal(visit, finding.measure, catalogue))
            add(invalid(base::said("%1: it is not what its parts make; leave the total out, or mend a part.")
                            .arg(catalogue.measure(finding.measure)->title)));
    }
    return all;
}

std::optional<base::Error> wrongWith(const Visit& visit, const Patient& patient,
                                     const catalogue::Catalogue& catalogue, QDate today)
{
    const auto all = everythingWrongWith(visit, patient, catalogue, today);
    return all.empty() ? std::nullopt : std::optional(all.front());
}

std::optional<base::Error> wrongWith(const Visit& visit, const Finding& finding,
                                     const catalogue::Catalogue& catalogue)
{
    if (const Wrong wrong = wrongWith(finding, catalogue))
        return wrong;
    const auto isConcerned = [&](const QString& id) {
        const catalogue::Measure* total = catalogue.measure(id);
        return total != nullptr && total->computed &&
               (id == finding.measure || total->computed->parts.contains(finding.measure));
    };
    QStringList totals;
    if (isConcerned(finding.measure))
        totals += finding.measure;
    for (const Finding& kept : visit.findings) {
        if (kept.measure != finding.measure && isConcerned(kept.measure))
            totals += kept.measure;
    }
    if (totals.isEmpty())
        return std::nullopt;
    Visit wished = visit;
    std::erase_if(wished.findings, [&](const Finding& old) {
        return old.measure == finding.measure && old.side == finding.side;
    });
    wished.findings.push_back(finding);
    for (const QString& total : std::as_const(totals)) {
        if (const Wrong wrong = wrongWithTotal(wished, total, catalogue))
            return wrong;
    }
    return std::nullopt;
}

std::optional<base::Error> wrongWith(const Author& author)
{
    return wrongWithTexts({{base::said("Name"), author.name, nameLimit},
                           {base::said("Role"), author.role, nameLimit},
                           {base::said("Registration number"), author.registration, nameLimit}});
}

std::optional<base::Error> wrongWith(const Letter& letter)
{
    if (const Wrong wrong = wrongWith(letter.author))
        return wrong;
    return wrongWithTexts({{base::said("To"), letter.to, noteLimit},
                           {base::said("Copies to"), letter.copiesTo, noteLimit},
                           {base::said("Urgency"), letter.urgency, nameLimit},
                           {base::said("Question"), letter.question, noteLimit},
                           {base::said("Requested actions"), letter.actions, noteLimit},
                           {base::said("History"), letter.history, textLimit},
                           {base::said("Medicines"), letter.medicines, noteLimit},
                           {base::said("Interpretation"), letter.interpretation, textLimit},
                           {base::said("Plan"), letter.plan, textLimit},
                           {base::said("When to come back sooner"), letter.safetyNet, noteLimit},
                           {base::said("Kind of letter"), letter.kind, nameLimit},
                           {base::said("Language"), letter.language, numberLimit}});
}

std::optional<base::Error> wrongWith(const LetterKind& kind)
{
    return wrongWithTexts({{base::said("Title of the kind of letter"), kind.title, nameLimit},
                           {base::said("Page"), kind.page, textLimit}});
}

std::optional<base::Error> wrongWith(const Handover& handover)
{
    return wrongWithTexts({{base::said("How it was handed over"), handover.way, nameLimit},
                           {base::said("To"), handover.to, lineLimit}});
}

std::optional<base::Error> wrongWith(const Happening& happening, const Patient& patient, QDate today)
{
    const base::Message last = base::said("Last day of the event");
    if (const Wrong wrong =
            wrongWithDay(base::said("First day of the event"), happening.from, patient, today))
        return wrong;
    if (happening.until) {
        if (const Wrong wrong = wrongWithDay(last, *happening.until, patient, today))
            return wrong;
        if (*happening.until < happening.from)
            return invalid(base::said("%1: not before the first.").arg(last));
    }
    if (happening.injury != Injury::NotStated && happening.kind != HappeningKind::Fall)
        return invalid(base::said("Injury: stated of a fall alone."));
    if (happening.kind == HappeningKind::Other && happening.words.trimmed().isEmpty())
        return invalid(base::said("An event of another kind needs words that say what happened."));
    if (const Wrong wrong = wrongWithText(base::said("Words on the event"), happening.words, noteLimit))
        return wrong;
    return wrongWithReason(happening.takenBackFor);
}

std::optional<base::Error> wrongWith(const Target& target, const Patient& patient,
                                     const catalogue::Catalogue& catalogue, QDate today)
{
    const catalogue::Measure* measure = catalogue.measure(target.measure);
    if (measure == nullptr)
        return invalid(
            base::said("“%1” is not a measure of the catalogue.").arg(base::shortened(target.measure)));
    if (const Wrong wrong = wrongWithSide(target.side, *measure))
        return wrong;
    if (const Wrong wrong = wrongWithTargetValue(target.value, *measure))
        return wrong;
    if (const Wrong wrong =
            wrongWithDay(base::said("Day the target was agreed"), target.agreedOn, patient, today))
        return wrong;
    constexpr int longest = 10;
    if (target.by && (!target.by->isValid() || *target.by < target.agreedOn ||
                      *target.by > target.agreedOn.addYears(longest)))
        return invalid(base::said("Day of the target: from the day it was agreed to ten years later."));
    if (const Wrong wrong = wrongWithText(base::said("Words on the target"), target.words, noteLimit))
        return wrong;
    return wrongWithReason(target.droppedFor);
}

std::optional<base::Error> wrongWith(const Clinic& clinic)
{
    constexpr qsizetype mostLogoBytes = 1'000'000;
    const Judging& judging = clinic.judging;
    if (judging.plannedVisits < 3 || judging.plannedVisits > 100)
        return invalid(base::said("Planned visits: a whole number from 3 to 100."));
    if (judging.compositeWeeks && *judging.compositeWeeks != 12 && *judging.compositeWeeks != 24)
        return invalid(base::said("The composite: confirmed after 12 or 24 weeks."));
    if (clinic.logo.size() > mostLogoBytes)
        return invalid(base::said("Picture at the head of letters: at most 1 MB."));
    return wrongWithTexts({{base::said("Clinic"), clinic.name, nameLimit},
                           {base::said("Copies to"), clinic.copiesAlways, noteLimit},
                           {base::said("Address"), clinic.address, lineLimit},
                           {base::said("Telephone"), clinic.telephone, nameLimit}});
}

std::optional<base::Error> wrongWith(const RedFlags& flags, QDate visitDay,
                                     const catalogue::Catalogue& catalogue, QDate today)
{
    const base::Message done = base::said("What was done about a red flag");
    for (const auto& [id, answer] : flags) {
        if (catalogue.redFlag(id) == nullptr)
            return invalid(base::said("“%1” is not a red flag of the catalogue.").arg(base::shortened(id)));
        if (!answer.acknowledged)
            continue;
        const Acknowledgement& said = *answer.acknowledged;
        if (!answer.isYes)
            return invalid(base::said("%1: said of a yes alone.").arg(done));
        if (said.action.trimmed().isEmpty() || !said.time.isValid())
            return invalid(base::said("%1: words and a time.").arg(done));
        if (!said.day.isValid() || said.day < visitDay || said.day > today)
            return invalid(base::said("%1: on a day from that of the visit to today.").arg(done));
        if (const Wrong wrong = wrongWithText(done, said.action, lineLimit))
            return wrong;
    }
    return std::nullopt;
}

std::optional<base::Error> wrongWithSigning(const Visit& visit)
{
    if (unacknowledged(visit.redFlags).isEmpty())
        return std::nullopt;
    return invalid(base::said("A red flag was answered yes: say what was done about it, and when, before the "
                              "visit is signed."));
}

std::optional<base::Error> wrongWithReason(const QString& reason)
{
    return wrongWithText(base::said("Reason"), reason, lineLimit);
}

std::optional<base::Error> wrongWithTotal(const Visit& visit, const QString& id,
                                          const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(id);
    const Finding* total = visit.finding(id, Side::None);
    if (measure == nullptr || total == nullptr || !measure->computed ||
        (measure->computed->rule != catalogue::Computing::SumOfItems &&
         measure->computed->rule != catalogue::Computing::ShortBattery))
        return std::nullopt;
    const auto entered = values::number(total->value);
    const auto computed = derived(visit, *measure, catalogue);
    const auto due = computed ? values::number(computed->finding.value) : std::nullopt;
    if (!entered || !due || (!values::exceeds(*entered, *due) && !values::exceeds(*due, *entered)))
        return std::nullopt;
    return invalid(
        base::said("%1: the parts recorded make %2, not %3; leave the total out, or mend a part.")
            .arg(base::titled(measure->title), written(*due, *measure), written(*entered, *measure)));
}

std::optional<base::Error> wrongWithCondition(const QString& id, const QString& value,
                                              const catalogue::Catalogue& catalogue)
{
    const catalogue::Condition* condition = catalogue.condition(id);
    if (condition == nullptr)
        return invalid(base::said("“%1” is not a condition of the catalogue.").arg(base::shortened(id)));
    if (value.isEmpty())
        return std::nullopt;
    const auto allowed = [&](const base::Message& words) {
        return invalid(base::said("%1: %2.").arg(base::titled(condition->title), words));
    };
    if (condition->isNumber) {
        bool isNumber = false;
        const double number = value.toDouble(&isNumber);
        if (!isNumber || !isWithin(number, condition->lowest, condition->highest))
            return allowed(withUnit(rangeWords(condition->lowest, condition->highest), condition->unit));
        return std::nullopt;
    }
    if (condition->isClosed && !isOption(condition->options, value))
        return allowed(optionWords(condition->options));
    return wrongWithText(base::titled(condition->title), value, conditionLimit);
}

} // namespace records
