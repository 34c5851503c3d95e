#include "app/charts/trend_points.h"

#include "app/charts/limits.h"
#include "app/charts/reference_range.h"
#include "app/charts/trend_remarks.h"
#include "app/charts/trend_slope.h"

#include "core/interpretation/change.h"
#include "core/interpretation/course_words.h"
#include "core/records/wording.h"

#include <algorithm>

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

    std::optional<double> height(const values::Value& value) const;
    QString conditionWords(const interpretation::Mismatch& mismatch) const;
    interpretation::Comparability comparability(const records::Occasion& before,
                                                const records::Occasion& now) const;
    std::vector<TrendEntry> entries(const std::vector<records::Occasion>& occasions) const;
    size_t nowAmong(const std::vector<TrendEntry>& entries) const;
    size_t referenceAmong(const std::vector<TrendEntry>& entries,
                          const std::vector<records::Occasion>& occasions) const;
    interpretation::Course course(const std::vector<records::Occasion>& occasions, size_t now) const;
    TrendLine line(records::Side side) const;
    std::optional<TrendRange> range(const std::vector<TrendLine>& lines) const;
};

/// Where a value stands on the axis; a word stands at its place among the measure's words.
std::optional<double> Maker::height(const values::Value& value) const
{
    const auto* choice = std::get_if<values::Choice>(&value);
    if (choice == nullptr)
        return values::number(value);
    const auto found = std::ranges::find(measure.options, choice->key, &catalogue::Option::key);
    if (found == measure.options.end())
        return std::nullopt;
    return double(found - measure.options.begin());
}

QString Maker::conditionWords(const interpretation::Mismatch& mismatch) const
{
    const catalogue::Condition* condition = catalogue.condition(mismatch.condition);
    const auto title = [&](const QString& recorded) {
        if (recorded.isEmpty())
            return phrases("not recorded");
        if (condition != nullptr) {
            const auto found = std::ranges::find(condition->options, recorded, &catalogue::Option::key);
            if (found != condition->options.end())
                return found->title;
            if (condition->isNumber)
                return QString(recorded + u' ' + values::symbol(condition->unit)).trimmed();
        }
        return recorded;
    };
    const QString name = condition != nullptr ? condition->title : mismatch.condition;
    if (mismatch.before.isEmpty() && mismatch.now.isEmpty())
        return phrases("%1: not recorded").arg(name);
    return phrases("%1: %2 → %3").arg(name, title(mismatch.before), title(mismatch.now));
}

interpretation::Comparability Maker::comparability(const records::Occasion& before,
                                                   const records::Occasion& now) const
{
    return interpretation::comparability(measure, catalogue, patient.population, before, now);
}

std::vector<TrendEntry> Maker::entries(const std::vector<records::Occasion>& occasions) const
{
    std::vector<TrendEntry> made;
    const records::Occasion* before = nullptr;
    bool unableBetween = false;
    int run = 0;
    for (const records::Occasion& occasion : occasions) {
        TrendEntry entry;
        entry.visit = occasion.visit;
        entry.day = occasion.day;
        entry.isDraft = occasion.state == records::VisitState::Draft;
        entry.words = records::written(occasion.finding.value, measure, phrases);
        entry.number = height(occasion.finding.value);
        if (const auto* missing = std::get_if<values::Missing>(&occasion.finding.value))
            entry.absence = missing->why;
        if (entry.number) {
            if (before != nullptr) {
                const auto fit = comparability(*before, occasion);
                for (const interpretation::Mismatch& mismatch : fit.blocking)
                    entry.changes << conditionWords(mismatch);
                run += fit.isComparable() ? 0 : 1;
                entry.joins = fit.isComparable() && !unableBetween;
            }
            before = &occasion;
            unableBetween = false;
        } else if (values::isUnable(occasion.finding.value)) {
            unableBetween = true;
        }
        entry.run = run;
        made.push_back(entry);
    }
    return made;
}

/// What this visit found, or the last one before it. The number of entries where there is none.
size_t Maker::nowAmong(const std::vector<TrendEntry>& entries) const
{
    const auto visit =
        std::ranges::find(visits, question.visit.value_or(records::VisitId{}), &records::Visit::id);
    size_t now = entries.size();
    for (size_t i = 0; i < entries.size(); ++i) {
        const bool counts = entries[i].number || entries[i].absence == values::Absence::Unable;
        if (counts && (now == entries.size() || visit == visits.end() || entries[i].day <= visit->day))
            now = i;
    }
    return now;
}

/// The reference asked for where it holds a value; else the first value comparable with what this visit
/// found. The number of entries where there is none.
size_t Maker::referenceAmong(const std::vector<TrendEntry>& entries,
                             const std::vector<records::Occasion>& occasions) const
{
    if (question.reference) {
        const auto found = std::ranges::find(entries, *question.reference, &TrendEntry::visit);
        return found != entries.end() && found->number ? size_t(found - entries.begin()) : entries.size();
    }
    const size_t now = nowAmong(entries);
    for (size_t i = 0; i < now; ++i) {
        if (now < entries.size() && entries[i].number &&
            comparability(occasions[i], occasions[now]).isComparable())
            return i;
    }
    return now < entries.size() && entries[now].number ? now : entries.size();
}

interpretation::Course Maker::course(const std::vector<records::Occasion>& occasions, size_t now) const
{
    std::vector<const records::Occasion*> run;
    for (size_t i = 0; i <= now && now < occasions.size(); ++i) {
        const values::Value& value = occasions[i].finding.value;
        const bool counts = values::isDone(value) || values::isUnable(value);
        if (counts && comparability(occasions[i], occasions[now]).isComparable())
            run.push_back(&occasions[i]);
    }
    return interpretation::courseOf(run, {visits, patient, catalogue, judging});
}

TrendLine Maker::line(records::Side side) const
{
    TrendLine line;
    line.side = side;
    line.name = records::written(side, phrases);
    const auto occasions = records::history(visits, catalogue, measure.id, side, patient.declared);
    line.entries = entries(occasions);
    const interpretation::Course run = course(occasions, nowAmong(line.entries));
    line.slope = trendSlope(run);
    line.trend = interpretation::trendWords(run, measure, phrases);
    const size_t place = referenceAmong(line.entries, occasions);
    if (place == line.entries.size())
        return line;
    const records::Occasion& reference = occasions[place];
    const auto levels = interpretation::levelsAt(reference.visit, measure.id, side, visits, catalogue);
    line.entries[place].isReference = true;
    for (size_t i = place + 1; i < occasions.size(); ++i) {
        const values::Value& value = occasions[i].finding.value;
        if (values::isDone(value) || values::isUnable(value))
            line.entries[i].verdict =
                interpretation::comparison(catalogue, patient, reference, occasions[i], levels).verdict;
    }
    const auto itself = interpretation::comparison(catalogue, patient, reference, reference, levels);
    if (!itself.threshold || measure.better == catalogue::Direction::Neither)
        return line;
    line.limits = limitsAround(reference, *itself.threshold, measure, catalogue, phrases);
    line.standardError = interpretation::standardErrorOf(itself.threshold->row);
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
std::vector<TrendStep> stepsOf(const catalogue::Measure& measure)
{
    std::vector<TrendStep> steps;
    if (measure.kind == catalogue::Kind::Choice) {
        for (const catalogue::Option& option : measure.options)
            steps.push_back({double(steps.size()), option.title});
    } else if (measure.kind == catalogue::Kind::Grade && measure.lowest && measure.highest) {
        for (double at = *measure.lowest; at <= *measure.highest; at += 1) {
            const QString key = QString::number(at);
            const auto word = std::ranges::find(measure.options, key, &catalogue::Option::key);
            steps.push_back({at, word == measure.options.end() ? key : key + u' ' + word->title});
        }
    }
    return steps;
}

/// As it stands on the time line, where its place says the day.
QString shortly(const interpretation::Event& event, const base::Phrasebook& phrases)
{
    using Kind = interpretation::Event::Kind;
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
    for (const interpretation::Event& event :
         interpretation::events(question.measure, visits, patient, catalogue)) {
        if (!question.side || event.side == *question.side)
            made.push_back({event.visit, event.day, event.kind, shortly(event, phrases),
                            interpretation::eventWords(event, phrases)});
    }
    return made;
}

std::optional<QDate> dayOf(const std::vector<records::Visit>& visits,
                           const std::optional<records::VisitId>& id)
{
    const auto found =
        std::ranges::find_if(visits, [&](const records::Visit& visit) { return visit.id == id; });
    return found == visits.end() ? std::nullopt : std::optional(found->day);
}

} // namespace

const TrendEntry* TrendLine::latest() const
{
    const auto found = std::find_if(entries.rbegin(), entries.rend(), [](const TrendEntry& entry) {
        return entry.number || entry.absence == values::Absence::Unable;
    });
    return found == entries.rend() ? nullptr : &*found;
}

const TrendEntry* TrendLine::previous() const
{
    const TrendEntry* last = latest();
    if (last == nullptr)
        return nullptr;
    for (const TrendEntry* entry = last; entry != entries.data();) {
        --entry;
        if (entry->number || entry->absence == values::Absence::Unable)
            return entry;
    }
    return nullptr;
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

QString TrendPoints::written(double number) const
{
    catalogue::Measure rounding;
    rounding.step = finest;
    return (records::written(number, rounding) + u' ' + unit).trimmed();
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
    points.unit = values::symbol(measure->unit);
    points.direction = records::directionWords(*measure, phrases);
    points.better = measure->better;
    points.isOrdinal = measure->kind == catalogue::Kind::Grade || measure->kind == catalogue::Kind::Choice;
    points.steps = stepsOf(*measure);
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
    points.remarks = remarksOn(points, phrases);
    points.range = maker.range(points.lines);
    if (points.range)
        points.remarks << points.range->words;
    if (question.reference && std::ranges::none_of(points.lines, &TrendLine::reference))
        points.remarks.prepend(
            phrases("The reference visit holds no value of this test, so no thresholds are drawn."));
    return points;
}

} // namespace charts
