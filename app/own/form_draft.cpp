#include "app/own/form_draft.h"

#include "app/own/own_id.h"
#include "core/base/text.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Catalogue;
using catalogue::Form;
using catalogue::FormSection;

namespace
{

struct FormDraftWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

FormSection& sectionAt(Form& form, const Row& row)
{
    return form.sections[size_t(row.section)];
}

bool isTaken(const QString& title, const FormDraft& draft, const Catalogue& catalogue)
{
    return std::ranges::any_of(catalogue.forms, [&](const Form& other) {
        return other.id != draft.form.id && base::folded(other.title) == base::folded(title);
    });
}

QString freeTitle(const QString& title, const Catalogue& catalogue)
{
    QString free = FormDraftWords::tr("%1 (copy)").arg(title);
    for (int number = 2; isTaken(free, {}, catalogue); ++number)
        free = FormDraftWords::tr("%1 (copy %2)").arg(title).arg(number);
    return free;
}

} // namespace

FormDraft newForm()
{
    FormDraft draft;
    draft.form.isOwn = true;
    draft.form.sections = {{FormDraftWords::tr("First section"), {}}};
    return draft;
}

FormDraft copyOf(const Form& form, const Catalogue& catalogue)
{
    FormDraft draft;
    draft.form = form;
    draft.form.id.clear();
    draft.form.isOwn = true;
    draft.form.title = freeTitle(form.title, catalogue);
    const auto isGone = [&](const QString& id) {
        const catalogue::Measure* measure = catalogue.measure(id);
        return measure == nullptr || measure->retired;
    };
    for (FormSection& section : draft.form.sections)
        section.measures.removeIf(isGone);
    std::erase_if(draft.form.sections, [](const FormSection& section) { return section.measures.isEmpty(); });
    draft.form.expected.removeIf(isGone);
    return draft;
}

FormDraft draftOf(const Form& form)
{
    return {form, form};
}

std::vector<Row> rows(const Form& form)
{
    std::vector<Row> all;
    for (int section = 0; section < int(form.sections.size()); ++section) {
        all.push_back({section});
        for (int measure = 0; measure < int(form.sections[size_t(section)].measures.size()); ++measure)
            all.push_back({section, measure});
    }
    return all;
}

Row add(Form& form, const QString& measure, const Row& behind)
{
    for (int section = 0; section < int(form.sections.size()); ++section) {
        const auto place = form.sections[size_t(section)].measures.indexOf(measure);
        if (place >= 0)
            return {section, int(place)};
    }
    sectionAt(form, behind).measures.insert(behind.measure + 1, measure);
    return {behind.section, behind.measure + 1};
}

Row addSection(Form& form, const QString& title, const Row& behind)
{
    const int place = form.sections.empty() ? 0 : behind.section + 1;
    form.sections.insert(form.sections.begin() + place, FormSection{title, {}});
    return {place};
}

void remove(Form& form, const Row& row)
{
    const QStringList gone = row.isHead() ? sectionAt(form, row).measures
                                          : QStringList{sectionAt(form, row).measures.at(row.measure)};
    if (row.isHead())
        form.sections.erase(form.sections.begin() + row.section);
    else
        sectionAt(form, row).measures.removeAt(row.measure);
    form.expected.removeIf([&](const QString& id) { return gone.contains(id); });
}

std::optional<Row> moved(Form& form, const Row& row, int step)
{
    const int next = row.section + step;
    const bool hasNext = next >= 0 && next < int(form.sections.size());
    if (row.isHead()) {
        if (!hasNext)
            return std::nullopt;
        std::swap(form.sections[size_t(row.section)], form.sections[size_t(next)]);
        return Row{next};
    }
    QStringList& here = sectionAt(form, row).measures;
    const int place = row.measure + step;
    if (place >= 0 && place < int(here.size())) {
        here.swapItemsAt(row.measure, place);
        return Row{row.section, place};
    }
    if (!hasNext)
        return std::nullopt;
    const QString measure = here.takeAt(row.measure);
    QStringList& there = form.sections[size_t(next)].measures;
    const int end = step < 0 ? int(there.size()) : 0;
    there.insert(end, measure);
    return Row{next, end};
}

void setExpected(Form& form, const QString& measure, bool isExpected)
{
    form.expected.removeAll(measure);
    if (isExpected)
        form.expected += measure;
}

QString wrongWith(const FormDraft& draft, const Catalogue& catalogue)
{
    const QString title = base::tidied(draft.form.title);
    if (title.isEmpty())
        return FormDraftWords::tr("Give the form a title.");
    if (isTaken(title, draft, catalogue))
        return FormDraftWords::tr("Another form is called “%1”; choose another title.").arg(title);
    for (const FormSection& section : draft.form.sections) {
        if (base::tidied(section.title).isEmpty())
            return FormDraftWords::tr("Give every section a title.");
        if (section.measures.isEmpty())
            return FormDraftWords::tr("“%1” holds no test; add one or remove the section.")
                .arg(section.title);
    }
    return draft.form.sections.empty() ? FormDraftWords::tr("Add a section with at least one test.")
                                       : QString();
}

Form finished(const FormDraft& draft, const Catalogue& catalogue)
{
    Form form = draft.form;
    form.title = base::tidied(form.title);
    for (FormSection& section : form.sections)
        section.title = base::tidied(section.title);
    form.expected = form.measures();
    form.expected.removeIf([&](const QString& id) { return !draft.form.expected.contains(id); });
    if (form.id.isEmpty())
        form.id = ownId(form.title, catalogue.forms);
    return form;
}

} // namespace own
