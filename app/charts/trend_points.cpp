#include "app/charts/trend_points.h"

#include "app/charts/happening_row.h"
#include "app/charts/reference_range.h"
#include "app/charts/trend_remarks.h"
#include "app/charts/trend_slope.h"
#include "app/charts/trend_words.h"

#include "core/judging/change.h"
#include "core/judging/room.h"
#include "core/judging/run_trend.h"
#include "core/records/visit.h"
#include "core/records/wording.h"
#include "core/telling/condition_words.h"
#include "core/telling/course_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <algorithm>
#include <cmath>
#include <map>

using namespace Qt::StringLiterals;

namespace charts
{

namespace
{

struct Maker {
    const TrendQuestion& question;
    const std::vector<records::Visit>& visits;
    const records::Patient& patient;
    const catalogue::Catalogue& catalogue;
    const catalogue::Measure& measure;
    const base::Phrasebook& phrases;
    const records::Judging& judging;

    QString conditionWords(const judging::Mismatch& mismatch) const;
    QString valueWords(const records::Finding& finding) const;
    QString plain(const values::Value& value) const;
    void addDifference(TrendEntry& entry, const judging::Comparison& held) const;
    void addConditions(TrendEntry& entry, const records::Occasion& occasion) const;
    std::vector<TrendEntry> entries(const judging::Progress& progress) const;
    std::optional<TrendLimits> limits(const judging::Comparison& held) const;
    TrendLine line(records::Side side) const;
    std::optional<TrendRange> range(const std::vector<TrendLine>& lines) const;
};

QString Maker::conditionWords(const judging::Mismatch& mismatch) const
{
    const catalogue::Condition* condition = catalogue.condition(mismatch.condition);
    const QString name = condition != nullptr ? condition->title : mismatch.condition;
    if (mismatch.before.isEmpty() && mismatch.now.isEmpty())
        return phrases("%1: not recorded").arg(name);
    return phrases("%1: %2 → %3")
        .arg(name, telling::conditionValue(mismatch.before, condition, phrases),
             telling::conditionValue(mismatch.now, condition, phrases));
}

std::vector<TrendEntry> Maker::entries(const judging::Progress& progress) const
{
    std::vector<TrendEntry> made;
    bool unableBetween = false;
    int run = 0;
    for (const judging::Stage& stage : progress.stages) {
        const records::Occasion& occasion = stage.occasion;
        TrendEntry entry;
        entry.visit = occasion.visit;
        entry.day = occasion.day;
        entry.isDraft = occasion.state == records::VisitState::Draft;
        entry.words = valueWords(occasion.finding);
        entry.number = heightOf(occasion.finding.value, measure);
        entry.isAtCap = judging::isAtCap(occasion.finding, measure);
        entry.fewerWords = entry.words;
        if (const auto* missing = std::get_if<values::Missing>(&occasion.finding.value)) {
            entry.absence = missing->why;
            entry.fewerWords = records::written(values::Missing{missing->why, {}}, measure, phrases);
        }
        if (stage.sinceBefore) {
            for (const judging::Mismatch& mismatch : stage.sinceBefore->blocking)
                entry.changes << conditionWords(mismatch);
            run += stage.sinceBefore->isComparable() ? 0 : 1;
            entry.joins = stage.sinceBefore->isComparable() && !unableBetween;
        }
        if (entry.number)
            unableBetween = false;
        else if (values::isUnable(occasion.finding.value))
            unableBetween = true;
        entry.run = run;
        if (stage.held)
            addDifference(entry, *stage.held);
        entry.plain = plain(occasion.finding.value);
        addConditions(entry, occasion);
        if (progress.change) {
            const auto& comparable = progress.change->course.run;
            entry.isComparable =
                std::ranges::find(comparable, occasion.visit, &judging::RunPoint::visit) != comparable.end();
        }
        entry.isNow = progress.change && progress.change->now.visit == occasion.visit;
        entry.isPrevious = progress.change && progress.change->previous &&
                           progress.change->previous->comparability.isComparable() &&
                           progress.change->previous->reference.visit == occasion.visit;
        entry.isReference = progress.held && progress.held->reference.visit == occasion.visit;
        made.push_back(entry);
    }
    return made;
}

QString Maker::plain(const values::Value& value) const
{
    const auto* choice = std::get_if<values::Choice>(&value);
    const auto number = values::number(value);
    return choice != nullptr ? choice->key : number ? records::written(*number, measure) : QString();
}

void Maker::addDifference(TrendEntry& entry, const judging::Comparison& held) const
{
    entry.verdict = held.verdict;
    entry.verdictWords = telling::verdictWords(held, phrases);
    const auto difference = held.difference ? held.difference
                            : held.steps    ? std::optional(double(*held.steps))
                                            : std::nullopt;
    if (!difference)
        return;
    entry.difference = records::written(*difference, measure);
    entry.differenceWords = telling::signedAmount(*difference, measure, phrases);
}

void Maker::addConditions(TrendEntry& entry, const records::Occasion& occasion) const
{
    for (const catalogue::ConditionRule& rule : measure.conditions) {
        const QString value = records::recorded(occasion.conditions, rule.condition);
        if (value.isEmpty())
            continue;
        const catalogue::Condition* condition = catalogue.condition(rule.condition);
        entry.recorded[rule.condition] = value;
        entry.conditions << phrases("%1: %2").arg(condition != nullptr ? condition->title : rule.condition,
                                                  telling::conditionValue(value, condition, phrases));
    }
}

/// A result at the cap is at least that.
QString Maker::valueWords(const records::Finding& finding) const
{
    const QString words = records::written(finding.value, measure, phrases);
    return judging::isAtCap(finding, measure) ? phrases("%1, stopped at the cap").arg(words) : words;
}

/// Empty where the comparison has no threshold, and so no limit.
std::optional<TrendLimits> Maker::limits(const judging::Comparison& held) const
{
    const auto reference = values::number(held.reference.finding.value);
    if (!held.threshold || !reference)
        return std::nullopt;
    TrendLimits made;
    made.day = held.reference.day;
    made.reference = *reference;
    made.source = telling::sourceWords(held.threshold->row, catalogue, phrases);
    if (held.threshold->row.scale == catalogue::Scale::ProportionalToMean) {
        const double limit = held.threshold->limitFor(*held.difference, measure.better);
        const int decimals = telling::tellingDecimals(std::abs(*held.difference), limit, measure);
        made.atThisVisit = telling::amount(limit, measure, phrases, decimals);
    }
    if (!held.cannotShow.better)
        made.improved = judging::valueAtLimit(*held.threshold, *reference, true, measure.better);
    if (!held.cannotShow.worse)
        made.declined = judging::valueAtLimit(*held.threshold, *reference, false, measure.better);
    return made;
}

TrendLine Maker::line(records::Side side) const
{
    TrendLine line;
    line.side = side;
    line.name = records::written(side, phrases);
    const judging::Progress progress = judging::progress(
        {measure.id, side, question.visit, question.reference}, {visits, patient, catalogue, judging});
    line.entries = entries(progress);
    line.heading = headingRows(line, phrases);
    if (progress.change) {
        line.slopes = trendSlopes(progress.change->course, measure);
        line.trend =
            telling::trendWords(progress.change->course,
                                judging::robustSlope(progress.change->course, measure), measure, phrases);
    }
    if (!progress.held)
        return line;
    line.limits = limits(*progress.held);
    if (line.limits)
        line.standardError = judging::standardErrorOf(progress.held->threshold->row);
    return line;
}

std::optional<TrendRange> Maker::range(const std::vector<TrendLine>& lines) const
{
    std::optional<TrendRange> common;
    for (const TrendLine& line : lines) {
        const auto occasions = records::history(visits, catalogue, measure.id, line.side, patient.declared);
        const auto newest = std::find_if(occasions.rbegin(), occasions.rend(), [](const auto& occasion) {
            return values::isDone(occasion.finding.value);
        });
        if (newest == occasions.rend())
            continue;
        const auto range = referenceRange(*newest, patient, catalogue, phrases);
        if (!range || (common && *common != *range))
            return std::nullopt;
        common = range;
    }
    return common;
}

/// Steps from the lowest to the highest grade, or the words in the catalogue's order.
std::vector<TrendStep> stepsOf(const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    std::vector<TrendStep> steps;
    if (measure.kind == catalogue::Kind::Choice) {
        for (const catalogue::Option& option : measure.options)
            steps.push_back({double(steps.size()), option.title});
    } else if (measure.kind == catalogue::Kind::Grade && measure.lowest && measure.highest) {
        for (double at = *measure.lowest; at <= *measure.highest; at += 1) {
            const QString key = QString::number(at);
            const catalogue::Option* word = catalogue::optionOf(measure.options, key);
            steps.push_back({at, word == nullptr ? key : phrases("%1 %2").arg(key, word->title)});
        }
    }
    return steps;
}

/// As it stands on the time line, where its place says the day.
QString shortly(const judging::Event& event, const base::Phrasebook& phrases)
{
    using Kind = judging::Event::Kind;
    switch (event.kind) {
    case Kind::SidesDiffer:
        return phrases("sides differ");
    case Kind::SidesAlike:
        return phrases("sides alike");
    case Kind::BecameUnable:
    case Kind::BecameAble:
        break;
    }
    const QString turn = event.kind == Kind::BecameUnable ? phrases("became unable") : phrases("became able");
    return event.side == records::Side::None
               ? turn
               : phrases("%1 %2").arg(records::written(event.side, phrases), turn);
}

std::vector<TrendEvent> eventsFor(const TrendQuestion& question, const std::vector<records::Visit>& visits,
                                  const records::Patient& patient, const catalogue::Catalogue& catalogue,
                                  const base::Phrasebook& phrases)
{
    std::vector<TrendEvent> made;
    for (const judging::Event& event : judging::events(question.measure, visits, patient, catalogue)) {
        if (!question.side || event.side == *question.side)
            made.push_back({event.visit, event.day, event.kind, shortly(event, phrases),
                            telling::eventWords(event, phrases)});
    }
    return made;
}

std::vector<TrendTarget> targetsFor(const TrendQuestion& question, const TrendPoints& points,
                                    const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    std::vector<TrendTarget> made;
    for (const records::Target& target : question.targets) {
        if (target.measure != question.measure || (question.side && *question.side != target.side))
            continue;
        const QString value = catalogue::isNumeric(measure.kind) ? points.written(target.value, phrases)
                                                                 : QString::number(target.value);
        made.push_back({target.side, target.value, phrases("target %1").arg(value)});
    }
    return made;
}

/// Between the same two days once, whichever side.
std::vector<TrendBreak> breaksOf(const std::vector<TrendLine>& lines)
{
    std::map<std::pair<QDate, QDate>, QStringList> found;
    for (const TrendLine& line : lines) {
        const TrendEntry* before = nullptr;
        for (const TrendEntry& entry : line.entries) {
            if (!entry.number)
                continue;
            if (before != nullptr && !entry.changes.isEmpty())
                found[{before->day, entry.day}] += entry.changes;
            before = &entry;
        }
    }
    std::vector<TrendBreak> breaks;
    for (auto& [days, changes] : found) {
        changes.removeDuplicates();
        breaks.push_back({days.first, days.second, changes});
    }
    return breaks;
}

std::optional<QDate> dayOf(const std::vector<records::Visit>& visits,
                           const std::optional<records::VisitId>& id)
{
    const auto found =
        std::ranges::find_if(visits, [&](const records::Visit& visit) { return visit.id == id; });
    return found == visits.end() ? std::nullopt : std::optional(found->day);
}

} // namespace

const TrendEntry* TrendLine::now() const
{
    const auto found = std::ranges::find(entries, true, &TrendEntry::isNow);
    return found == entries.end() ? nullptr : &*found;
}

const TrendEntry* TrendLine::previous() const
{
    const auto found = std::ranges::find(entries, true, &TrendEntry::isPrevious);
    return found == entries.end() ? nullptr : &*found;
}

const TrendEntry* TrendLine::reference() const
{
    const auto found = std::ranges::find(entries, true, &TrendEntry::isReference);
    return found == entries.end() ? nullptr : &*found;
}

bool TrendPoints::isEmpty() const
{
    return std::ranges::all_of(lines, [](const TrendLine& line) { return line.entries.empty(); });
}

QString TrendPoints::written(double number, const base::Phrasebook& phrases) const
{
    catalogue::Measure rounding;
    rounding.step = finest;
    return values::withUnit(records::written(number, rounding), unit, phrases);
}

std::optional<double> heightOf(const values::Value& value, const catalogue::Measure& measure)
{
    const auto* choice = std::get_if<values::Choice>(&value);
    if (choice == nullptr)
        return values::number(value);
    const auto found = std::ranges::find(measure.options, choice->key, &catalogue::Option::key);
    if (found == measure.options.end())
        return std::nullopt;
    return double(found - measure.options.begin());
}

std::vector<records::VisitId> visitsOf(const TrendPoints& points)
{
    std::vector<std::pair<QDate, records::VisitId>> found;
    for (const TrendLine& line : points.lines) {
        for (const TrendEntry& entry : line.entries) {
            if (std::ranges::find(found, entry.visit, &std::pair<QDate, records::VisitId>::second) ==
                found.end())
                found.emplace_back(entry.day, entry.visit);
        }
    }
    std::ranges::stable_sort(found, {}, &std::pair<QDate, records::VisitId>::first);
    std::vector<records::VisitId> visits;
    visits.reserve(found.size());
    for (auto& [day, visit] : found)
        visits.push_back(std::move(visit));
    return visits;
}

std::optional<QDate> dayOf(const TrendPoints& points, const records::VisitId& visit)
{
    for (const TrendLine& line : points.lines) {
        const auto entry = std::ranges::find(line.entries, visit, &TrendEntry::visit);
        if (entry != line.entries.end())
            return entry->day;
    }
    return std::nullopt;
}

TrendPoints trendPoints(const TrendQuestion& question, const std::vector<records::Visit>& visits,
                        const records::Patient& patient, const catalogue::Catalogue& catalogue,
                        const base::Phrasebook& phrases, const records::Judging& judging)
{
    TrendPoints points;
    points.measure = question.measure;
    const catalogue::Measure* measure = catalogue.measure(question.measure);
    if (measure == nullptr || visits.empty())
        return points;
    points.title = records::titled(*measure, phrases);
    points.unit = measure->unit;
    points.unitWords = values::unitWords(measure->unit, phrases);
    points.direction = records::directionWords(*measure, phrases);
    points.better = measure->better;
    points.isOrdinal = !catalogue::isNumeric(measure->kind);
    points.steps = stepsOf(*measure, phrases);
    points.lowest = measure->lowest;
    points.highest = measure->highest;
    points.finest = measure->step;
    points.from = std::ranges::min(visits, {}, &records::Visit::day).day;
    points.to = std::ranges::max(visits, {}, &records::Visit::day).day;
    points.visitDay = dayOf(visits, question.visit);
    points.referenceDay = dayOf(visits, question.reference);
    points.isBaseline = !question.reference;

    const Maker maker{question, visits, patient, catalogue, *measure, phrases, judging};
    for (const records::Side side : {records::Side::None, records::Side::Right, records::Side::Left}) {
        if (question.side && question.side != side)
            continue;
        TrendLine line = maker.line(side);
        if (!line.entries.empty())
            points.lines.push_back(std::move(line));
    }
    for (const TrendLine& line : points.lines) {
        const TrendEntry* reference = line.reference();
        if (!points.referenceDay && reference != nullptr)
            points.referenceDay = reference->day;
    }
    points.events = eventsFor(question, visits, patient, catalogue, phrases);
    points.breaks = breaksOf(points.lines);
    points.happenings = happeningsWithin(question.happenings, points.from, points.to, phrases);
    points.targets = targetsFor(question, points, *measure, phrases);
    points.remarks = remarksOn(points, phrases);
    points.range = maker.range(points.lines);
    if (points.range)
        points.remarks << points.range->words;
    const auto hasNumber = [](const TrendLine& line) {
        return line.reference() != nullptr && line.reference()->number;
    };
    if (question.reference && std::ranges::none_of(points.lines, hasNumber))
        points.remarks.prepend(
            phrases("The reference visit holds no value of this test, so no thresholds are drawn."));
    return points;
}

} // namespace charts
