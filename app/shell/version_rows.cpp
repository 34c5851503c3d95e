#include "app/shell/version_rows.h"
#include "app/session/messages.h"

#include "core/records/history.h"
#include "core/records/wording.h"
#include "core/telling/condition_words.h"
#include "core/telling/red_flag_words.h"

#include <algorithm>
#include <iterator>

namespace shell
{

namespace
{

VersionRow row(const QString& name, const QStringList& values)
{
    const bool isChanged =
        std::ranges::any_of(values, [&values](const QString& value) { return value != values.front(); });
    return {name, values, isChanged};
}

QString valueWords(const records::Finding* finding, const catalogue::Measure& measure)
{
    if (finding == nullptr)
        return {};
    const QString value = records::written(finding->value, measure, session::screenPhrases());
    return finding->note.isEmpty() ? value : session::joined("%1 (%2)", {value, finding->note});
}

QString conditionWords(const QString& value, const catalogue::Condition& condition)
{
    return value.isEmpty() ? value : telling::conditionValue(value, &condition, session::screenPhrases());
}

} // namespace

std::vector<records::Visit> versionsOf(const records::VisitId& series, const std::vector<records::Visit>& all)
{
    std::vector<records::Visit> versions;
    std::ranges::copy_if(all, std::back_inserter(versions),
                         [&series](const records::Visit& visit) { return visit.series == series; });
    std::ranges::sort(versions, {}, &records::Visit::version);
    return versions;
}

std::vector<VersionRow> versionRows(const std::vector<records::Visit>& versions,
                                    const catalogue::Catalogue& catalogue)
{
    std::vector<VersionRow> rows;
    for (const auto& [id, side] : records::recordedPairs(versions, catalogue)) {
        const catalogue::Measure* measure = catalogue.measure(id);
        if (measure == nullptr)
            continue;
        QStringList values;
        for (const records::Visit& version : versions)
            values += valueWords(version.finding(id, side), *measure);
        rows.push_back(row(records::sidedTitle(measure->title, side, session::screenPhrases()), values));
    }
    for (const catalogue::Condition& condition : catalogue.conditions) {
        QStringList values;
        for (const records::Visit& version : versions)
            values += conditionWords(records::recorded(version.conditions, condition.id), condition);
        if (!values.join(QString()).isEmpty())
            rows.push_back(row(condition.title, values));
    }
    for (const catalogue::RedFlag& flag : catalogue.redFlags) {
        if (std::ranges::none_of(versions, [&](const auto& each) { return each.redFlags.contains(flag.id); }))
            continue;
        QStringList values;
        for (const records::Visit& version : versions)
            values +=
                telling::answered(telling::answerOf(version.redFlags, flag.id), session::screenPhrases());
        rows.push_back(row(flag.question, values));
    }
    return rows;
}

} // namespace shell
