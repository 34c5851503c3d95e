#include "app/own/own_edit_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace own
{

namespace
{

struct OwnEditWords {
    Q_DECLARE_TR_FUNCTIONS(own::OwnEditWords)

public:
    static QString form(const QString& title) { return tr("form “%1”").arg(title); }
    static QString measure(const QString& title) { return tr("test “%1”").arg(title); }
    static QString pattern(const QString& title) { return tr("pattern “%1”").arg(title); }
    static QString threshold() { return tr("a threshold"); }
    static QString entries(int count) { return tr("%n entry(s) of the clinic's own", nullptr, count); }
};

/// The document of an entry alone, by which entries without an equality are told apart.
QByteArray documentOf(const catalogue::Form& form)
{
    catalogue::Own alone;
    alone.forms = {form};
    return catalogue::written(alone);
}

QByteArray documentOf(const catalogue::Measure& measure)
{
    catalogue::Own alone;
    alone.measures = {measure};
    return catalogue::written(alone);
}

QByteArray documentOf(const catalogue::Threshold& threshold)
{
    catalogue::Own alone;
    alone.thresholds = {threshold};
    return catalogue::written(alone);
}

QByteArray documentOf(const catalogue::Pattern& pattern)
{
    catalogue::Own alone;
    alone.patterns = {pattern};
    return catalogue::written(alone);
}

/// The entries that came, went or changed; of a changed one as it is now.
template <class Entry>
std::vector<Entry> changedIn(const std::vector<Entry>& before, const std::vector<Entry>& after)
{
    const auto isIn = [](const std::vector<Entry>& all, const Entry& entry) {
        return std::ranges::any_of(all,
                                   [&](const Entry& each) { return documentOf(each) == documentOf(entry); });
    };
    std::vector<Entry> changed;
    for (const Entry& each : after) {
        if (!isIn(before, each))
            changed.push_back(each);
    }
    for (const Entry& each : before) {
        if (std::ranges::find(after, each.id, &Entry::id) == after.end())
            changed.push_back(each);
    }
    return changed;
}

} // namespace

QString ownEditWords(const catalogue::Own& before, const catalogue::Own& after)
{
    const auto forms = changedIn(before.forms, after.forms);
    const auto measures = changedIn(before.measures, after.measures);
    const auto thresholds = changedIn(before.thresholds, after.thresholds);
    const auto patterns = changedIn(before.patterns, after.patterns);
    const size_t count = forms.size() + measures.size() + thresholds.size() + patterns.size();
    if (count != 1)
        return OwnEditWords::entries(int(count));
    return !forms.empty()      ? OwnEditWords::form(forms.front().title)
           : !measures.empty() ? OwnEditWords::measure(measures.front().title)
           : !patterns.empty() ? OwnEditWords::pattern(patterns.front().title)
                               : OwnEditWords::threshold();
}

} // namespace own
