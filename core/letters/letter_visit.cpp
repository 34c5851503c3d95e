#include "core/letters/letter_visit.h"
#include "core/records/history.h"

#include "core/judging/composite.h"
#include "core/records/visit_form.h"
#include "core/records/wording.h"
#include "core/telling/course_words.h"
#include "core/telling/terms.h"

#include <QMap>
#include <QSet>

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

/// Those that a test done at the visit depends on.
QSet<QString> conditionsOfTests(const records::Visit& visit, const catalogue::Catalogue& catalogue)
{
    QSet<QString> ids;
    for (const records::Finding& finding : visit.findings) {
        const catalogue::Measure* measure = catalogue.measure(finding.measure);
        if (measure == nullptr || isLeftOut(&finding))
            continue;
        for (const catalogue::ConditionRule& rule : measure->conditions)
            ids.insert(rule.condition);
    }
    return ids;
}

/// Those that kept something from being compared.
QSet<QString> preventing(const std::vector<Change>& changes)
{
    QSet<QString> ids;
    for (const Change& change : changes) {
        for (const auto& comparison : {change.previous, change.chosen, change.baseline}) {
            if (!comparison)
                continue;
            for (const judging::Mismatch& mismatch : comparison->comparability.blocking)
                ids.insert(mismatch.condition);
        }
    }
    return ids;
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
    QStringList reasons = {QString()}; // those without one first
    QMap<QString, QStringList> testsOf;
    const auto add = [&](const QString& title, const QString& reason) {
        if (!reasons.contains(reason))
            reasons += reason;
        testsOf[reason] += title;
    };
    const QStringList asked = form->expected.isEmpty() ? form->measures() : form->expected;
    const QStringList all = form->measures() + records::besideForm(*visit, catalogue);
    for (const QString& id : all) {
        const catalogue::Measure* measure = catalogue.measure(id);
        if (measure == nullptr)
            continue;
        const std::vector<Side> sides = records::sidesOf(*measure);
        const auto reasonOf = [&](Side side) -> std::optional<QString> {
            const records::Finding* finding = visit->finding(id, side);
            if (isNotAsked(finding) && changeOf(changes, id, side) == nullptr)
                return QString();
            return isLeftOut(finding) ? std::optional(records::written(finding->value, *measure, phrases))
                                      : std::nullopt;
        };
        const auto first = reasonOf(sides.front());
        const bool isAlike = std::ranges::all_of(sides, [&](Side side) { return reasonOf(side) == first; });
        if (isAlike && first && (!first->isEmpty() || asked.contains(id)))
            add(records::titled(*measure, phrases), *first);
        for (const Side side : sides) {
            if (const auto reason = reasonOf(side); !isAlike && reason)
                add(records::sidedTitle(*measure, side, phrases), *reason);
        }
    }
    QStringList told;
    for (const QString& reason : reasons) {
        const QString tests = phrases.joined("%1, %2", testsOf[reason]);
        if (!tests.isEmpty())
            told += reason.isEmpty() ? tests : phrases("%1 (%2)").arg(tests, reason);
    }
    return told;
}

QStringList conditionLines(const Material& material, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases)
{
    const records::Visit* visit = material.record.visit();
    if (visit == nullptr)
        return {};
    QStringList lines, notRecorded;
    const QSet<QString> needed = conditionsOfTests(*visit, catalogue);
    const QSet<QString> missed = preventing(changesOf(material, catalogue));
    for (const catalogue::Condition& condition : catalogue.conditions) {
        const QString value = records::recorded(visit->conditions, condition.id);
        if (value.isEmpty() && missed.contains(condition.id))
            notRecorded += telling::conditionInSentence(condition.id, catalogue);
        else if (!value.isEmpty() && (condition.isTold || needed.contains(condition.id)))
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
