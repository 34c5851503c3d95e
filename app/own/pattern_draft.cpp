#include "app/own/pattern_draft.h"

#include "app/own/form_rows.h"
#include "app/own/own_id.h"
#include "app/own/typed.h"
#include "app/session/messages.h"
#include "core/base/text.h"
#include "core/catalogue/texts.h"
#include "core/records/wording.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Catalogue;
using catalogue::Look;
using catalogue::Measure;
using catalogue::Pattern;
using catalogue::PatternRule;

namespace
{

struct PatternWords {
    Q_DECLARE_TR_FUNCTIONS(own::PatternWords)
};

const std::vector<PatternRule>& rulesOf(const Pattern& pattern, PatternPart part)
{
    return part == PatternPart::Supports ? pattern.supports : pattern.contradicts;
}

std::vector<PatternRule>& rulesOf(Pattern& pattern, PatternPart part)
{
    return part == PatternPart::Supports ? pattern.supports : pattern.contradicts;
}

/// "smoothness or tremor"
QString oneOf(const QStringList& keys, const std::vector<catalogue::Option>& options)
{
    QString words;
    for (const QString& key : keys) {
        const catalogue::Option* option = catalogue::optionOf(options, key);
        const QString title = option == nullptr ? key : catalogue::withinSentence(*option);
        words = words.isEmpty() ? title : PatternWords::tr("%1 or %2").arg(words, title);
    }
    return words;
}

/// "at least just visible (1)", "2 to 4 steps", "at most 9 steps"
QString rangeOf(const Look& look, const Measure& measure)
{
    const auto written = [&](const std::optional<double>& end) {
        return measure.kind == catalogue::Kind::Grade && end
                   ? records::written(values::Value(values::Grade{int(*end)}), measure,
                                      session::screenPhrases())
                   : asTyped(end);
    };
    const auto [from, to] = std::pair(written(look.from), written(look.to));
    const QString range = !look.to     ? PatternWords::tr("at least %1").arg(from)
                          : !look.from ? PatternWords::tr("at most %1").arg(to)
                          : from == to ? from
                                       : PatternWords::tr("%1 to %2").arg(from, to);
    return catalogue::isNumeric(measure.kind)
               ? values::withUnit(range, measure.unit, session::screenPhrases())
               : range;
}

bool saysNothing(const Look& look)
{
    return look.options.isEmpty() && !look.from && !look.to && look.signs.isEmpty();
}

QString lookWords(const Look& look, const Catalogue& catalogue)
{
    const QString title = titleOf(look.measure, catalogue);
    const Measure* measure = catalogue.measure(look.measure);
    QStringList must;
    if (measure != nullptr && !look.options.isEmpty())
        must += oneOf(look.options, measure->options);
    if (measure != nullptr && (look.from || look.to))
        must += rangeOf(look, *measure);
    if (measure != nullptr && !look.signs.isEmpty())
        must += oneOf(look.signs, measure->watchFor);
    return PatternWords::tr("%1: %2").arg(title, must.isEmpty() ? PatternWords::tr("what must be seen?")
                                                                : must.join(u"; "_s));
}

QString wrongWith(const Look& look, const Catalogue& catalogue)
{
    const QString title = titleOf(look.measure, catalogue);
    if (saysNothing(look))
        return PatternWords::tr("Say what “%1” must be.").arg(title);
    if (look.from && look.to && *look.from > *look.to)
        return PatternWords::tr("“%1” cannot be at least %2 and at most %3.")
            .arg(title, asTyped(look.from), asTyped(look.to));
    return {};
}

QString wrongWith(const PatternRule& rule, const Catalogue& catalogue)
{
    for (const Look& look : rule.looks) {
        if (const QString wrong = wrongWith(look, catalogue); !wrong.isEmpty())
            return wrong;
    }
    if (rule.checked == catalogue::Checked::Read && rule.source.isEmpty())
        return PatternWords::tr("Choose the source in which “%1” was read.")
            .arg(lookWords(rule.looks.front(), catalogue));
    return {};
}

} // namespace

PatternDraft newPattern()
{
    PatternDraft draft;
    draft.pattern.isOwn = true;
    return draft;
}

PatternDraft draftOf(const Pattern& pattern)
{
    PatternDraft draft{pattern, pattern};
    if (pattern.isOwn)
        return draft;
    draft.pattern.isOwn = true;
    draft.pattern.id.clear();
    draft.pattern.replaces = pattern.id;
    draft.original = draft.pattern;
    return draft;
}

std::vector<PatternRow> rows(const Pattern& pattern)
{
    std::vector<PatternRow> all = {{PatternPart::Needs}};
    for (int entry = 0; entry < int(pattern.needs.size()); ++entry)
        all.push_back({PatternPart::Needs, entry});
    for (const PatternPart part : {PatternPart::Supports, PatternPart::Contradicts}) {
        all.push_back({part});
        const auto& rules = rulesOf(pattern, part);
        for (int entry = 0; entry < int(rules.size()); ++entry) {
            for (int look = 0; look < int(rules[size_t(entry)].looks.size()); ++look)
                all.push_back({part, entry, look});
        }
    }
    return all;
}

PatternRow add(Pattern& pattern, const QString& measure, const PatternRow& behind)
{
    const int place = behind.entry + 1;
    if (behind.part == PatternPart::Needs) {
        if (const auto there = pattern.needs.indexOf(measure); there >= 0)
            return {PatternPart::Needs, int(there)};
        pattern.needs.insert(place, measure);
        return {PatternPart::Needs, place};
    }
    PatternRule rule;
    rule.looks.push_back({measure, {}, {}, {}, {}});
    auto& rules = rulesOf(pattern, behind.part);
    rules.insert(rules.begin() + place, rule);
    return {behind.part, place};
}

PatternRow addTogether(Pattern& pattern, const QString& measure, const PatternRow& row)
{
    auto& looks = ruleAt(pattern, row).looks;
    looks.push_back({measure, {}, {}, {}, {}});
    return {row.part, row.entry, int(looks.size()) - 1};
}

void remove(Pattern& pattern, const PatternRow& row)
{
    if (row.part == PatternPart::Needs) {
        pattern.needs.removeAt(row.entry);
        return;
    }
    auto& looks = ruleAt(pattern, row).looks;
    looks.erase(looks.begin() + row.look);
    if (looks.empty()) {
        auto& rules = rulesOf(pattern, row.part);
        rules.erase(rules.begin() + row.entry);
    }
}

PatternRule& ruleAt(Pattern& pattern, const PatternRow& row)
{
    return rulesOf(pattern, row.part)[size_t(row.entry)];
}

Look& lookAt(Pattern& pattern, const PatternRow& row)
{
    return ruleAt(pattern, row).looks[size_t(row.look)];
}

QString words(PatternPart part)
{
    switch (part) {
    case PatternPart::Supports:
        return PatternWords::tr("Supports it");
    case PatternPart::Contradicts:
        return PatternWords::tr("Contradicts it");
    case PatternPart::Needs:
        break;
    }
    return PatternWords::tr("Tests without which nothing is said");
}

QString words(const Pattern& pattern, const PatternRow& row, const Catalogue& catalogue)
{
    if (row.isHead())
        return words(row.part);
    if (!row.isFinding())
        return titleOf(pattern.needs.at(row.entry), catalogue);
    const PatternRule& rule = rulesOf(pattern, row.part)[size_t(row.entry)];
    const QString finding = lookWords(rule.looks[size_t(row.look)], catalogue);
    return row.look == 0 ? finding : PatternWords::tr("and %1").arg(finding);
}

QString wrongWith(const PatternDraft& draft, const Catalogue& catalogue)
{
    const Pattern& pattern = draft.pattern;
    const QString title = base::tidied(pattern.title);
    if (title.isEmpty())
        return PatternWords::tr("Give the pattern a title.");
    const bool isTaken = std::ranges::any_of(catalogue.patterns, [&](const Pattern& other) {
        return other.id != pattern.id && other.id != pattern.replaces &&
               base::folded(other.title) == base::folded(title);
    });
    if (isTaken)
        return PatternWords::tr("Another pattern is called “%1”; choose another title.").arg(title);
    if (pattern.needs.isEmpty())
        return PatternWords::tr("Add at least one test without which nothing is said.");
    if (pattern.supports.empty())
        return PatternWords::tr("Add at least one finding that supports the pattern.");
    for (const PatternPart part : {PatternPart::Supports, PatternPart::Contradicts}) {
        for (const PatternRule& rule : rulesOf(pattern, part)) {
            if (const QString wrong = wrongWith(rule, catalogue); !wrong.isEmpty())
                return wrong;
        }
    }
    return {};
}

Pattern finished(const PatternDraft& draft, const Catalogue& catalogue)
{
    Pattern pattern = draft.pattern;
    pattern.title = base::tidied(pattern.title);
    pattern.note = pattern.note.trimmed();
    if (pattern.id.isEmpty())
        pattern.id = ownId(pattern.title, catalogue.patterns);
    return pattern;
}

} // namespace own
