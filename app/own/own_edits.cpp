#include "app/own/own_edits.h"

#include <algorithm>

namespace own
{

using catalogue::Own;

namespace
{

template <class Entry>
void put(std::vector<Entry>& entries, const Entry& entry)
{
    const auto place = std::ranges::find(entries, entry.id, &Entry::id);
    if (place == entries.end())
        entries.push_back(entry);
    else
        *place = entry;
}

bool isNamed(const QString& source, const catalogue::Pattern& pattern)
{
    const auto names = [&](const catalogue::PatternRule& rule) { return rule.source == source; };
    return std::ranges::any_of(pattern.supports, names) || std::ranges::any_of(pattern.contradicts, names);
}

void dropUnusedSources(Own& own)
{
    std::erase_if(own.sources, [&](const catalogue::Source& source) {
        return std::ranges::find(own.thresholds, source.id, &catalogue::Threshold::source) ==
                   own.thresholds.end() &&
               std::ranges::none_of(own.patterns, [&](const auto& each) { return isNamed(source.id, each); });
    });
}

} // namespace

Own with(Own own, const catalogue::Form& form)
{
    put(own.forms, form);
    return own;
}

Own with(Own own, const catalogue::Measure& measure)
{
    put(own.measures, measure);
    return own;
}

Own with(Own own, const catalogue::Pattern& pattern)
{
    put(own.patterns, pattern);
    dropUnusedSources(own);
    return own;
}

Own with(Own own, const catalogue::Threshold& row, const catalogue::Source& source,
         const catalogue::Catalogue& all)
{
    put(own.thresholds, row);
    const bool isOwn = std::ranges::find(own.sources, source.id, &catalogue::Source::id) != own.sources.end();
    if (isOwn || all.source(source.id) == nullptr)
        put(own.sources, source);
    dropUnusedSources(own);
    return own;
}

Own withoutForm(Own own, const QString& id)
{
    std::erase_if(own.forms, [&](const catalogue::Form& form) { return form.id == id; });
    return own;
}

Own withoutPattern(Own own, const QString& id)
{
    std::erase_if(own.patterns, [&](const catalogue::Pattern& pattern) { return pattern.id == id; });
    dropUnusedSources(own);
    return own;
}

Own withoutThreshold(Own own, const QString& id)
{
    std::erase_if(own.thresholds, [&](const catalogue::Threshold& row) { return row.id == id; });
    dropUnusedSources(own);
    return own;
}

} // namespace own
