#include "app/caseload/saved_filters.h"

#include <QSettings>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace caseload
{

namespace
{

const QString key = u"caseload/filters"_s;

void write(const std::vector<SavedFilter>& filters)
{
    QSettings settings;
    settings.remove(key);
    settings.beginWriteArray(key);
    for (const SavedFilter& each : filters) {
        settings.setArrayIndex(int(&each - filters.data()));
        settings.setValue(u"name"_s, each.name);
        settings.setValue(u"group"_s, int(each.filter.group));
        settings.setValue(u"typed"_s, each.filter.typed);
        settings.setValue(u"population"_s, each.filter.population);
        settings.setValue(u"clinician"_s, each.filter.clinician);
        settings.setValue(u"sinceOnset"_s, each.filter.sinceOnset);
    }
    settings.endArray();
}

} // namespace

std::vector<SavedFilter> savedFilters()
{
    std::vector<SavedFilter> filters;
    QSettings settings;
    const int count = settings.beginReadArray(key);
    for (int place = 0; place < count; ++place) {
        settings.setArrayIndex(place);
        const auto group = settings.value(u"group"_s).toInt();
        if (group >= 0 && group < int(groups.size()))
            filters.push_back(
                {settings.value(u"name"_s).toString(),
                 {Group(group), settings.value(u"typed"_s).toString(),
                  settings.value(u"population"_s).toString(), settings.value(u"clinician"_s).toString(),
                  settings.value(u"sinceOnset"_s).toString()}});
    }
    return filters;
}

void keepFilter(const SavedFilter& filter)
{
    auto filters = savedFilters();
    std::erase_if(filters, [&](const SavedFilter& each) { return each.name == filter.name; });
    filters.push_back(filter);
    write(filters);
}

void forgetFilter(const QString& name)
{
    auto filters = savedFilters();
    std::erase_if(filters, [&](const SavedFilter& each) { return each.name == name; });
    write(filters);
}

} // namespace caseload
