#include "app/visits/gaps.h"

#include "app/visits/examination.h"

namespace visits
{

namespace
{

/// The hard conditions of an answered test that neither it nor the visit has.
QStringList lackingOf(const records::Finding& finding, const records::Visit& visit,
                      const records::Patient& patient, const catalogue::Catalogue& catalogue)
{
    QStringList lacking;
    const catalogue::Measure* measure = catalogue.measure(finding.measure);
    if (measure == nullptr || !isAnswered(&finding))
        return lacking;
    const records::Conditions held = records::withExceptions(visit.conditions, finding.exceptions);
    for (const catalogue::ConditionRule& rule : measure->conditions) {
        const bool counts = rule.strictness == catalogue::Strictness::Hard &&
                            (rule.onlyFor.isEmpty() || catalogue.isWithin(patient.population, rule.onlyFor));
        if (counts && records::recorded(held, rule.condition).isEmpty())
            lacking += rule.condition;
    }
    return lacking;
}

} // namespace

Gaps gapsOf(const records::Visit& visit, const records::Patient& patient,
            const catalogue::Catalogue& catalogue)
{
    Gaps gaps;
    gaps.isEmpty = visit.findings.empty();
    gaps.isUnconfirmed = !visit.conditions.empty() && !visit.conditionsConfirmed;
    for (const FormSection& section : formSections(catalogue, visit)) {
        for (const catalogue::Measure* test : section.tests) {
            if (section.expected.contains(test->id) && !isAnswered(*test, visit, catalogue))
                gaps.blank.push_back(test);
        }
    }
    QStringList lacking;
    for (const records::Finding& finding : visit.findings)
        lacking += lackingOf(finding, visit, patient, catalogue);
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (lacking.contains(condition.id))
            gaps.conditions.push_back(&condition);
    }
    const QStringList open = records::unacknowledged(visit.redFlags);
    for (const catalogue::RedFlag& flag : catalogue.redFlags) {
        if (open.contains(flag.id))
            gaps.redFlags.push_back(&flag);
    }
    return gaps;
}

} // namespace visits
