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

void dropUnusedSources(Own& own)
{
    std::erase_if(own.sources, [&](const catalogue::Source& source) {
        return std::ranges::find(own.thresholds, source.id, &catalogue::Threshold::source) ==
               own.thresholds.end();
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

Own withoutThreshold(Own own, const QString& id)
{
    std::erase_if(own.thresholds, [&](const catalogue::Threshold& row) { return row.id == id; });
    dropUnusedSources(own);
    return own;
}

} // namespace own
