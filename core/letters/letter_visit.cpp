#include "core/letters/letter_visit.h"
#include "core/records/history.h"

#include "core/judging/composite.h"
#include "core/records/visit_form.h"
#include "core/records/wording.h"
#include "core/telling/course_words.h"
#include "core/telling/terms.h"

#include <algorithm>

namespace letters
{

namespace
{

using judging::Change;
using records::Side;

bool isLeftOut(const records::Finding* finding)
{
    return finding != nullptr && !values::isDone(finding->value) && !values::isUnable(finding->value);
}

QStringList exceptionLines(const records::Finding& finding, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases)
{
    QStringList lines;
    const catalogue::Measure* measure = catalogue.measure(finding.measure);
    for (const auto& [id, value] : finding.exceptions.asKeyValueRange()) {
        const catalogue::Condition* condition = catalogue.condition(id);
        if (measure == nullptr || condition == nullptr)
            continue;
        lines += phrases("%1 only: %2 %3")
                     .arg(records::sidedTitle(*measure, finding.side, phrases),
                          telling::conditionInSentence(id, catalogue),
                          telling::conditionValue(value, condition, phrases));
    }
    return lines;
}

} // namespace

std::vector<Change> changesOf(const Material& material, const catalogue::Catalogue& catalogue)
{
    const records::Visit* visit = material.record.visit();
    if (visit == nullptr)
        return {};
    return judging::changesAt(visit->id, material.letter.reference, material.record.visits(),
                              material.patient, catalogue, material.clinic.judging);
}

const Change* changeOf(const std::vector<Change>& changes, const QString& measure, Side side)
{
    const auto found = std::ranges::find_if(
        changes, [&](const Change& change) { return change.measure == measure && change.side == side; });
    return found == changes.end() ? nullptr : &*found;
}

const std::optional<judging::Comparison>& earlierOf(const Change& change)
{
    return change.chosen ? change.chosen : change.previous;
}

QString whyNotComparable(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                         const base::Phrasebook& phrases)
{
    QStringList reasons;
    for (const judging::Mismatch& mismatch : comparison.comparability.blocking)
        reasons += telling::mismatchWords(mismatch, comparison, catalogue, phrases);
    return phrases.joined("%1; %2", reasons);
}

bool isNotAsked(const records::Finding* finding)
{
    if (finding == nullptr)
        return true;
    const auto* missing = std::get_if<values::Missing>(&finding->value);
    return missing != nullptr && missing->why == values::Absence::NotAsked;
}

QStringList notDone(const Material& material, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases)
{
    const records::Visit* visit = material.record.visit();
    const catalogue::Form* form = visit != nullptr ? records::formOf(*visit, catalogue) : nullptr;
    if (form == nullptr)
        return {};
    const std::vector<Change> changes = changesOf(material, catalogue);
    QStringList tests;
    const QStringList asked = form->expected.isEmpty() ? form->measures() : form->expected;
    const QStringList all = form->measures() + records::besideForm(*visit, catalogue);
    for (const QString& id : all) {
        const catalogue::Measure* measure = catalogue.measure(id);
        if (measure == nullptr)
            continue;
        const auto isOpen = [&](Side side) {
            return isNotAsked(visit->finding(id, side)) && changeOf(changes, id, side) == nullptr;
        };
        const std::vector<Side> sides = records::sidesOf(*measure);
        if (std::ranges::all_of(sides, isOpen)) {
            if (asked.contains(id))
                tests += records::titled(*measure, phrases);
            continue;
        }
        for (const Side side : sides) {
            const QString title = records::sidedTitle(*measure, side, phrases);
            const records::Finding* finding = visit->finding(id, side);
            if (isOpen(side))
                tests += title;
            else if (isLeftOut(finding))
                tests += phrases("%1 (%2)").arg(title, records::written(finding->value, *measure, phrases));
        }
    }
    return tests;
}

QStringList conditionLines(const Material& material, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases)
{
    const records::Visit* visit = material.record.visit();
    if (visit == nullptr)
        return {};
    QStringList lines, notRecorded;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        const QString value = records::recorded(visit->conditions, condition.id);
        if (value.isEmpty())
            notRecorded += telling::conditionInSentence(condition.id, catalogue);
        else
            lines +=
                phrases("%1: %2").arg(condition.title, telling::conditionValue(value, &condition, phrases));
    }
    for (const records::Finding& finding : visit->findings)
        lines += exceptionLines(finding, catalogue, phrases);
    if (!notRecorded.isEmpty())
        lines += phrases("Not recorded: %1").arg(phrases.joined("%1, %2", notRecorded));
    return lines;
}

QStringList compositeLines(const Material& material, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases)
{
    QStringList lines;
    for (const judging::CompositeWorsening& worsening : judging::compositeWorsenings(
             {material.record.visits(), material.patient, catalogue, material.clinic.judging}))
        lines += telling::compositeWords(worsening, catalogue, phrases);
    return lines;
}

} // namespace letters
