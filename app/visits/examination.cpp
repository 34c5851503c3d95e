#include "app/visits/examination.h"

#include "core/records/history.h"

#include <algorithm>

namespace visits
{

using catalogue::Kind;
using catalogue::Measure;
using records::Finding;
using records::Side;

QString Place::name() const
{
    return side == Side::None ? measure : measure + u'.' + records::code(side);
}

std::vector<Side> sidesOf(const Measure& measure)
{
    return measure.hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
}

std::vector<FormSection> formSections(const catalogue::Catalogue& catalogue, const QString& id)
{
    const catalogue::Form* form = catalogue.form(id);
    if (form == nullptr && !catalogue.forms.empty())
        form = &catalogue.forms.front();
    std::vector<FormSection> sections;
    for (const QString& test : form == nullptr ? QStringList() : form->measures()) {
        const Measure* measure = catalogue.measure(test);
        if (measure == nullptr)
            continue;
        auto place = std::ranges::find(sections, measure->section, &FormSection::id);
        if (place == sections.end()) {
            const catalogue::Section* section = catalogue.section(measure->section);
            sections.push_back(
                {measure->section, section == nullptr ? measure->section : section->title, {}});
            place = std::prev(sections.end());
        }
        place->tests.push_back(measure);
    }
    return sections;
}

bool isAnswered(const Finding* finding)
{
    if (finding == nullptr)
        return false;
    const auto* missing = std::get_if<values::Missing>(&finding->value);
    return missing == nullptr || missing->why != values::Absence::NotAsked;
}

bool isAnswered(const Measure& test, const records::Visit& visit, const catalogue::Catalogue& catalogue)
{
    return std::ranges::all_of(sidesOf(test), [&](Side side) {
        return isAnswered(visit.finding(test.id, side)) ||
               (test.kind == Kind::Speed && !records::history({visit}, catalogue, test.id, side).empty());
    });
}

Progress progress(const FormSection& section, const records::Visit& visit,
                  const catalogue::Catalogue& catalogue)
{
    const auto done = std::ranges::count_if(
        section.tests, [&](const Measure* test) { return isAnswered(*test, visit, catalogue); });
    return {int(done), int(section.tests.size())};
}

std::optional<values::Value> normalValue(const Measure& measure)
{
    if (measure.kind == Kind::Grade && measure.lowest && measure.highest) {
        if (measure.better == catalogue::Direction::Neither)
            return std::nullopt;
        const bool lowIsBest = measure.better == catalogue::Direction::LowerIsBetter;
        return values::Grade{int(lowIsBest ? *measure.lowest : *measure.highest)};
    }
    if (measure.kind == Kind::Choice) {
        static const QStringList normal = {QStringLiteral("normal"), QStringLiteral("none"),
                                           QStringLiteral("negative")};
        const auto found = std::ranges::find_if(
            measure.options, [](const catalogue::Option& option) { return normal.contains(option.key); });
        if (found != measure.options.end())
            return values::Choice{found->key};
    }
    return std::nullopt;
}

std::vector<Finding> normalFindings(const FormSection& section, const records::Visit& visit)
{
    std::vector<Finding> findings;
    for (const Measure* test : section.tests) {
        const auto normal = normalValue(*test);
        for (const Side side : sidesOf(*test)) {
            const Finding* there = visit.finding(test->id, side);
            if (normal && (there == nullptr || isBlank(*there)))
                findings.push_back(withValue(visit, {test->id, side}, *normal));
        }
    }
    return findings;
}

Finding withValue(const records::Visit& visit, const Place& place, const values::Value& value)
{
    const Finding* there = visit.finding(place.measure, place.side);
    Finding finding;
    if (there != nullptr)
        finding = *there;
    finding.measure = place.measure;
    finding.side = place.side;
    finding.value = value;
    finding.trials.clear();
    finding.capReached = false;
    return finding;
}

bool isBlank(const Finding& finding)
{
    return !isAnswered(&finding) && finding.signs.isEmpty() && finding.note.isEmpty() &&
           finding.exceptions.empty();
}

} // namespace visits
