#include "core/catalogue/catalogue.h"

#include <algorithm>

namespace catalogue
{

namespace
{

template <class Row>
const Row* found(const std::vector<Row>& rows, const QString& id)
{
    const auto row = std::ranges::find(rows, id, &Row::id);
    return row == rows.end() ? nullptr : &*row;
}

} // namespace

const Option* optionOf(const std::vector<Option>& options, const QString& key)
{
    const auto option = std::ranges::find(options, key, &Option::key);
    return option == options.end() ? nullptr : &*option;
}

QStringList Form::measures() const
{
    QStringList all;
    for (const FormSection& section : sections)
        all += section.measures;
    all.removeDuplicates();
    return all;
}

const Measure* Catalogue::measure(const QString& id) const
{
    return found(measures, id);
}

const Section* Catalogue::section(const QString& id) const
{
    return found(sections, id);
}

const Condition* Catalogue::condition(const QString& id) const
{
    return found(conditions, id);
}

const Population* Catalogue::population(const QString& id) const
{
    return found(populations, id);
}

const Source* Catalogue::source(const QString& id) const
{
    return found(sources, id);
}

const Form* Catalogue::form(const QString& id) const
{
    return found(forms, id);
}

const RedFlag* Catalogue::redFlag(const QString& id) const
{
    return found(redFlags, id);
}

int Catalogue::confirmAfterDays(const QString& id) const
{
    constexpr int week = 7;
    const Population* here = population(id);
    while (here != nullptr && !here->confirmAfterDays)
        here = population(here->broader);
    return here == nullptr ? week : *here->confirmAfterDays;
}

bool Catalogue::isWithin(const QString& id, const QString& wider) const
{
    if (id == wider)
        return true;
    const Population* narrower = population(id);
    return narrower != nullptr && !narrower->broader.isEmpty() && isWithin(narrower->broader, wider);
}

} // namespace catalogue
