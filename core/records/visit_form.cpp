#include "core/records/visit_form.h"

#include "core/records/history.h"

#include <algorithm>

namespace records
{

const catalogue::Form* formOf(const Visit& visit, const catalogue::Catalogue& catalogue)
{
    if (visit.formAsMade)
        return &*visit.formAsMade;
    const catalogue::Form* named = catalogue.form(visit.form);
    return named == nullptr && !catalogue.forms.empty() ? &catalogue.forms.front() : named;
}

QStringList besideForm(const Visit& visit, const catalogue::Catalogue& catalogue)
{
    const catalogue::Form* form = formOf(visit, catalogue);
    const QStringList named = form == nullptr ? QStringList() : form->measures();
    QStringList beside;
    for (const catalogue::Measure& measure : catalogue.measures) {
        const bool isFound = std::ranges::any_of(visit.findings, [&](const Finding& finding) {
            return finding.measure == measure.id && !isBlank(finding);
        });
        if (isFound && !named.contains(measure.id))
            beside += measure.id;
    }
    return beside;
}

const catalogue::Form* formFitting(const Visit& visit, const catalogue::Catalogue& catalogue)
{
    const catalogue::Form* fitting = nullptr;
    std::pair<qsizetype, qsizetype> least;
    for (const catalogue::Form& form : catalogue.forms) {
        const QStringList named = form.measures();
        const auto beside = std::ranges::count_if(visit.findings, [&](const Finding& finding) {
            return !isBlank(finding) && !named.contains(finding.measure);
        });
        const std::pair<qsizetype, qsizetype> here(beside, named.size());
        if (!form.isOwn && (fitting == nullptr || here < least)) {
            fitting = &form;
            least = here;
        }
    }
    return fitting;
}

bool isAnswered(const catalogue::Measure& test, const Visit& visit, const catalogue::Catalogue& catalogue)
{
    return std::ranges::all_of(sidesOf(test), [&](Side side) {
        const auto occasion = occasionAt(visit, catalogue, test.id, side);
        return occasion && isAnswered(occasion->finding);
    });
}

FormProgress progressOf(const Visit& visit, const catalogue::Catalogue& catalogue)
{
    const catalogue::Form* form = formOf(visit, catalogue);
    const QStringList named = form == nullptr ? QStringList() : form->measures();
    FormProgress progress;
    for (const QString& id : named) {
        const catalogue::Measure* test = catalogue.measure(id);
        if (test == nullptr || (!form->expected.isEmpty() && !form->expected.contains(id)))
            continue;
        ++progress.expected;
        progress.done += int(isAnswered(*test, visit, catalogue));
    }
    return progress;
}

bool isComplete(const Visit& visit, const catalogue::Catalogue& catalogue)
{
    const FormProgress progress = progressOf(visit, catalogue);
    return progress.done == progress.expected;
}

bool isBlank(const Finding& finding)
{
    const auto* missing = std::get_if<values::Missing>(&finding.value);
    return missing != nullptr && missing->why == values::Absence::NotAsked && finding.signs.isEmpty() &&
           finding.note.isEmpty() && finding.exceptions.empty() && finding.taps.empty();
}

} // namespace records
