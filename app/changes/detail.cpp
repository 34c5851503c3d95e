#include "app/changes/detail.h"

#include "app/changes/certainty_section.h"
#include "app/changes/course_section.h"
#include "app/changes/html.h"
#include "app/session/messages.h"

#include "core/records/wording.h"
#include "core/telling/condition_words.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

struct DetailTeller {
    Q_DECLARE_TR_FUNCTIONS(changes::Detail)

public:
    const Row& row;
    const catalogue::Catalogue& catalogue;
    const base::Phrasebook& phrases;
    const catalogue::Measure& measure;

    QString heading() const;
    QString arithmetic() const;
    QString source() const;
    QString important() const;
    QString conditions() const;
    QString cautions() const;
    QString notUsed() const;
    QString howMeasured() const;

private:
    QString match(const QString& condition, const QString& before, const QString& now) const;
    QString withLink(const catalogue::Threshold& threshold) const;
};

QString DetailTeller::heading() const
{
    const QString name = row.side.isEmpty() ? row.measure : tr("%1, %2").arg(row.measure, row.side);
    const QString why = row.comparison ? telling::why(*row.comparison, catalogue, phrases) : QString();
    return u"<h3>%1: %2</h3><p>%3</p>"_s.arg(name.toHtmlEscaped(), row.verdict.toHtmlEscaped(),
                                             why.toHtmlEscaped());
}

QString DetailTeller::arithmetic() const
{
    return section(tr("Arithmetic"),
                   list(escaped(telling::arithmetic(*row.comparison, catalogue, phrases)), true));
}

QString DetailTeller::withLink(const catalogue::Threshold& threshold) const
{
    QString words = telling::written(threshold, catalogue, phrases).toHtmlEscaped();
    const catalogue::Source* published = catalogue.source(threshold.source);
    if (published == nullptr)
        return words;
    words += u"<br>"_s + published->reference.toHtmlEscaped();
    if (!published->doi.isEmpty())
        words += u" <a href=\"https://doi.org/%1\">doi:%1</a>"_s.arg(published->doi.toHtmlEscaped());
    return words;
}

QString DetailTeller::source() const
{
    const auto& threshold = row.comparison->threshold;
    if (!threshold)
        return {};
    const QString why = telling::whyThisRow(*row.comparison, catalogue, phrases);
    return section(tr("Source of the threshold"),
                   u"<p>%1</p><p>%2</p>"_s.arg(withLink(threshold->row),
                                               tr("Why this row: %1.").arg(why).toHtmlEscaped()));
}

QString DetailTeller::match(const QString& condition, const QString& before, const QString& now) const
{
    const auto isThis = [&](const judging::Mismatch& each) { return each.condition == condition; };
    const bool isMissing = before.isEmpty() || now.isEmpty();
    if (std::ranges::any_of(row.comparison->comparability.blocking, isThis))
        return isMissing ? tr("not recorded: not comparable") : tr("differs: not comparable");
    if (std::ranges::any_of(row.comparison->comparability.cautions, isThis))
        return isMissing ? tr("not recorded: with caution") : tr("differs: with caution");
    if (std::ranges::any_of(row.comparison->comparability.declared, isThis))
        return tr("not recorded: declared the same");
    return isMissing ? tr("not recorded") : tr("same");
}

QString DetailTeller::conditions() const
{
    QString html;
    for (const catalogue::ConditionRule& rule : measure.conditions) {
        const catalogue::Condition* condition = catalogue.condition(rule.condition);
        const QString before = records::recorded(row.comparison->reference.conditions, rule.condition);
        const QString now = records::recorded(row.comparison->now.conditions, rule.condition);
        const QString words = match(rule.condition, before, now);
        const QString shown = words == tr("same") ? words : u"<b>"_s + words.toHtmlEscaped() + u"</b>"_s;
        html += tableLine({(condition != nullptr ? condition->title : rule.condition).toHtmlEscaped(),
                           telling::conditionValue(before, condition, phrases).toHtmlEscaped(),
                           telling::conditionValue(now, condition, phrases).toHtmlEscaped(), shown});
    }
    if (html.isEmpty())
        return {};
    const QString head = tableLine({tr("Condition"), row.referenceDay, tr("This visit"), tr("Match")}, true);
    return section(tr("Conditions"), u"<table cellspacing=0>"_s + head + html + u"</table>"_s);
}

QString DetailTeller::important() const
{
    const auto& important = row.comparison->important;
    return important ? section(tr("Important change, a second answer"),
                               u"<p>"_s + withLink(important->row) + u"</p>"_s)
                     : QString();
}

QString DetailTeller::cautions() const
{
    return section(tr("Caution"),
                   list(escaped(telling::cautions(row.change, *row.comparison, catalogue, phrases))));
}

QString DetailTeller::notUsed() const
{
    QStringList lines;
    for (const judging::NotUsed& each : row.comparison->notUsed)
        lines << u"<b>%1</b> %2"_s.arg(
            telling::sentence(telling::whyNotUsed(each, catalogue, phrases), phrases).toHtmlEscaped(),
            withLink(each.row));
    return section(tr("Evidence that fits but was not used"), list(lines));
}

QString DetailTeller::howMeasured() const
{
    QStringList lines;
    const auto tell = [&](const QString& day, const records::Occasion& occasion) {
        QStringList parts;
        if (!occasion.computedFrom.isEmpty())
            parts << tr("computed from %1").arg(occasion.computedFrom.in(phrases));
        if (occasion.finding.trials.size() > 1) {
            QStringList trials;
            for (const double trial : occasion.finding.trials)
                trials << records::writtenTrial(trial, measure);
            parts << tr("trials %1")
                         .arg(values::withUnit(session::joined("%1, %2", trials), measure.unit, phrases));
        }
        if (occasion.finding.capReached)
            parts << tr("stopped at the cap");
        if (!occasion.finding.signs.isEmpty())
            parts << telling::signsWords(occasion.finding.signs, measure, phrases);
        if (!occasion.finding.note.isEmpty())
            parts << occasion.finding.note;
        if (!parts.isEmpty())
            lines << tr("%1: %2").arg(day, session::joined("%1; %2", parts)).toHtmlEscaped();
    };
    if (row.comparison)
        tell(row.referenceDay, row.comparison->reference);
    tell(tr("This visit"), row.occasion);
    return section(tr("As it was taken"), list(lines));
}

} // namespace

QString detail(const Row& row, const judging::Ground& ground, const base::Phrasebook& phrases)
{
    const catalogue::Measure* measure = ground.catalogue.measure(row.occasion.finding.measure);
    if (measure == nullptr)
        return {};
    const DetailTeller teller{row, ground.catalogue, phrases, *measure};
    if (!row.comparison)
        return teller.heading() + courseSection(row, ground, phrases) + teller.howMeasured();
    return teller.heading() + teller.arithmetic() +
           certaintySection(row, ground.catalogue, ground.judging, phrases) +
           courseSection(row, ground, phrases) + teller.source() + teller.important() + teller.cautions() +
           teller.conditions() + teller.howMeasured() + teller.notUsed();
}

} // namespace changes
