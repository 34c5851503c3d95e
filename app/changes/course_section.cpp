#include "app/changes/course_section.h"

#include "app/changes/html.h"
#include "app/session/messages.h"

#include "core/judging/events.h"
#include "core/judging/run_trend.h"
#include "core/records/wording.h"
#include "core/telling/course_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

using judging::Comparison;

struct CourseSectionTeller {
    Q_DECLARE_TR_FUNCTIONS(changes::CourseSection)

public:
    const Row& row;
    const judging::Ground& ground;
    const base::Phrasebook& phrases;
    const catalogue::Measure& measure;

    QString run() const;
    QString references() const;
    QStringList confirmations() const;
    QStringList events() const;

private:
    QString referenceLine(const QString& name, const std::optional<Comparison>& held,
                          const QString& absent) const;
    QString meanLine(const Comparison& held) const;
};

QString CourseSectionTeller::run() const
{
    const auto& points = row.change.course.run;
    if (points.size() < 2)
        return tr("No earlier visit is comparable with this one.");
    return tr("%n comparable visit(s) since %1.", nullptr, int(points.size()))
        .arg(session::dayInWords(points.front().day));
}

QString CourseSectionTeller::referenceLine(const QString& name, const std::optional<Comparison>& held,
                                           const QString& absent) const
{
    if (!held)
        return tableLine({name.toHtmlEscaped(), {}, {}, {}, absent.toHtmlEscaped()});
    const QString verdict = telling::verdictWords(*held, phrases);
    const QString strength = strengthWord(*held, row.change.course);
    return tableLine(
        escaped({name, session::dayInWords(held->reference.day),
                 records::written(held->reference.finding.value, measure, phrases),
                 held->difference ? telling::signedAmount(*held->difference, measure, phrases) : QString(),
                 strength.isEmpty() ? verdict : verdict + u" · "_s + strength}));
}

/// A mean lies between what can be measured, and on no day.
QString CourseSectionTeller::meanLine(const Comparison& held) const
{
    const auto mean = values::number(held.reference.finding.value);
    return tableLine(
        escaped({tr("mean of the first two"),
                 {},
                 mean ? telling::amount(*mean, measure, phrases, 1) : QString(),
                 held.difference ? telling::signedAmount(*held.difference, measure, phrases, 1) : QString(),
                 telling::verdictWords(held, phrases)}));
}

QString CourseSectionTeller::references() const
{
    const judging::Change& change = row.change;
    if (!change.previous)
        return {};
    QString lines =
        tableLine({tr("Reference visit"), tr("Day"), tr("Result"), tr("Difference"), tr("Against error")},
                  true) +
        referenceLine(tr("previous"), change.previous, {}) +
        referenceLine(tr("baseline"), change.baseline, {}) +
        referenceLine(tr("best"), change.best, tr("no earlier number to be the best")) +
        referenceLine(tr("last confirmed"), change.lastConfirmed, tr("none confirmed yet"));
    if (change.firstTwo)
        lines += meanLine(*change.firstTwo);
    return u"<table cellspacing=0>"_s + lines + u"</table>"_s;
}

QStringList CourseSectionTeller::confirmations() const
{
    QStringList lines;
    for (const judging::Confirmation& each : row.change.course.confirmations) {
        const QString seen = session::dayInWords(each.seen.day);
        const QString confirmed = session::dayInWords(each.confirmed.day);
        lines << (each.verdict == judging::Verdict::Better
                      ? tr("Improvement seen on %1 and confirmed on %2, which is the new level.")
                      : tr("Decline seen on %1 and confirmed on %2, which is the new level."))
                     .arg(seen, confirmed);
    }
    return lines;
}

QStringList CourseSectionTeller::events() const
{
    QStringList lines;
    for (const judging::Event& event :
         judging::events(measure.id, ground.visits, ground.patient, ground.catalogue)) {
        const bool isOurs = event.side == records::Side::None || event.side == row.change.side;
        if (isOurs && event.day <= row.occasion.day)
            lines << telling::eventWords(event, phrases);
    }
    return lines;
}

} // namespace

QString courseSection(const Row& row, const judging::Ground& ground, const base::Phrasebook& phrases)
{
    const catalogue::Measure* measure = ground.catalogue.measure(row.change.measure);
    if (measure == nullptr || !row.change.previous)
        return {};
    const CourseSectionTeller teller{row, ground, phrases, *measure};
    const QStringList lines =
        telling::trendWords(row.change.course, judging::robustSlope(row.change.course, *measure), *measure,
                            phrases) +
        teller.confirmations() + teller.events();
    return section(CourseSectionTeller::tr("Over the visits"), u"<p>"_s + teller.run().toHtmlEscaped() +
                                                                   u"</p>"_s + teller.references() +
                                                                   list(escaped(lines)));
}

} // namespace changes
