#include "app/visits/examination.h"

#include "core/records/history.h"
#include "core/records/normal.h"
#include "core/records/visit_form.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace visits
{

using catalogue::Kind;
using catalogue::Measure;
using records::Finding;
using records::Side;

namespace
{

struct ExaminationWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

/// The items of a total, in the catalogue's order.
QStringList itemsOf(const Measure& total, const catalogue::Catalogue& catalogue)
{
    QStringList items;
    for (const Measure& measure : catalogue.measures) {
        if (measure.partOf == total.id)
            items += measure.id;
    }
    return items;
}

/// The measures the catalogue knows and that are not taken yet, all of them expected. Items follow their
/// total.
FormSection sectionOf(const QStringList& measures, QStringList& taken, const catalogue::Catalogue& catalogue)
{
    FormSection section;
    for (const QString& id : measures) {
        const Measure* measure = catalogue.measure(id);
        if (measure == nullptr || taken.contains(id))
            continue;
        taken += id;
        section.tests.push_back(measure);
        section.expected += id;
        for (const QString& item : itemsOf(*measure, catalogue)) {
            if (taken.contains(item))
                continue;
            taken += item;
            section.tests.push_back(catalogue.measure(item));
        }
    }
    return section;
}

/// "balance", then "balance-2" …
QString firstFree(const QString& id, QStringList& used)
{
    used += id;
    const auto times = used.count(id);
    return times == 1 ? id : u"%1-%2"_s.arg(id).arg(times);
}

} // namespace

QString Place::name() const
{
    return side == Side::None ? measure : measure + u'.' + records::code(side);
}

std::vector<FormSection> formSections(const catalogue::Catalogue& catalogue, const catalogue::Form& form)
{
    std::vector<FormSection> sections;
    QStringList used;
    QStringList taken;
    for (const catalogue::FormSection& part : form.sections) {
        FormSection section = sectionOf(part.measures, taken, catalogue);
        if (section.tests.empty())
            continue;
        section.title = part.title;
        section.id = firstFree(section.tests.front()->section, used);
        if (!form.expected.isEmpty())
            section.expected.removeIf([&](const QString& id) { return !form.expected.contains(id); });
        sections.push_back(std::move(section));
    }
    return sections;
}

std::vector<FormSection> formSections(const catalogue::Catalogue& catalogue, const records::Visit& visit)
{
    std::vector<FormSection> sections;
    if (const catalogue::Form* form = records::formOf(visit, catalogue))
        sections = formSections(catalogue, *form);
    QStringList taken;
    for (const FormSection& section : sections) {
        for (const Measure* test : section.tests)
            taken += test->id;
    }
    FormSection others = sectionOf(records::besideForm(visit, catalogue), taken, catalogue);
    if (!others.tests.empty()) {
        others.id = u"other-findings"_s;
        others.title = ExaminationWords::tr("Other findings");
        others.expected.clear();
        sections.push_back(std::move(others));
    }
    return sections;
}

bool isAnswered(const Finding* finding)
{
    return finding != nullptr && records::isAnswered(*finding);
}

Progress progress(const FormSection& section, const records::Visit& visit,
                  const catalogue::Catalogue& catalogue)
{
    Progress progress{0, int(section.expected.size())};
    for (const Measure* test : section.tests) {
        if (section.expected.contains(test->id) && !isAnswered(*test, visit, catalogue))
            progress.open += test->id;
    }
    progress.done = progress.expected - int(progress.open.size());
    return progress;
}

std::vector<Finding> normalFindings(const FormSection& section, const records::Visit& visit)
{
    std::vector<Finding> findings;
    for (const Measure* test : section.tests) {
        const auto normal = section.expected.contains(test->id) ? records::normalValue(*test) : std::nullopt;
        for (const Side side : records::sidesOf(*test)) {
            const Finding* there = visit.finding(test->id, side);
            if (normal && (there == nullptr || records::isBlank(*there)))
                findings.push_back(withValue(visit, {test->id, side}, *normal));
        }
    }
    return findings;
}

std::optional<Place> nextOpen(const std::vector<FormSection>& form, const Place& from,
                              const records::Visit& visit, const catalogue::Catalogue& catalogue)
{
    std::optional<Place> first, next;
    bool isBehind = false;
    for (const FormSection& section : form) {
        for (const Measure* test : section.tests) {
            const bool isAsked = section.expected.contains(test->id) && !isAnswered(*test, visit, catalogue);
            for (const Side side : records::sidesOf(*test)) {
                const Place place{test->id, side};
                if (place == from)
                    isBehind = true;
                else if (isAsked && !isAnswered(visit.finding(test->id, side)) && !(isBehind ? next : first))
                    (isBehind ? next : first) = place;
            }
        }
    }
    return next ? next : first;
}

QStringList walkThrough(const std::vector<FormSection>& form, const records::Visit& visit)
{
    QStringList tests;
    for (const FormSection& section : form) {
        for (const Measure* test : section.tests) {
            const auto isSaid = [&](Side side) { return isAnswered(visit.finding(test->id, side)); };
            if (section.expected.contains(test->id) || std::ranges::any_of(records::sidesOf(*test), isSaid))
                tests += test->id;
        }
    }
    return tests;
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
    finding.trialNumbers.clear();
    finding.taps.clear();
    finding.capReached = false;
    return finding;
}

} // namespace visits
