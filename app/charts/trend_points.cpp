#include "app/charts/trend_points.h"

#include "app/charts/limits.h"
#include "app/charts/reference_range.h"

#include "core/interpretation/change.h"
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

    std::optional<double> height(const values::Value& value) const;
    QString conditionWords(const interpretation::Mismatch& mismatch) const;
    interpretation::Comparability comparability(const records::Occasion& before,
                                                const records::Occasion& now) const;
    std::vector<TrendEntry> entries(const std::vector<records::Occasion>& occasions) const;
    size_t referenceAmong(const std::vector<TrendEntry>& entries,
                          const std::vector<records::Occasion>& occasions) const;
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

/// The reference asked for where it holds a value; else the first value comparable with what this visit
/// found. The number of entries where there is none.
size_t Maker::referenceAmong(const std::vector<TrendEntry>& entries,
                             const std::vector<records::Occasion>& occasions) const
{
    if (question.reference) {
        const auto found = std::ranges::find(entries, *question.reference, &TrendEntry::visit);
        return found != entries.end() && found->number ? size_t(found - entries.begin()) : entries.size();
    }
    const auto visit =
        std::ranges::find(visits, question.visit.value_or(records::VisitId{}), &records::Visit::id);
    size_t now = entries.size();
    for (size_t i = 0; i < entries.size(); ++i) {
        const bool counts = entries[i].number || entries[i].absence == values::Absence::Unable;
        if (counts && (now == entries.size() || visit == visits.end() || entries[i].day <= visit->day))
            now = i;
    }
    for (size_t i = 0; i < now; ++i) {
        if (now < entries.size() && entries[i].number &&
            comparability(occasions[i], occasions[now]).isComparable())
            return i;
    }
    return now < entries.size() && entries[now].number ? now : entries.size();
}

TrendLine Maker::line(records::Side side) const
{
    TrendLine line;
    line.side = side;
    line.name = records::written(side, phrases);
    const auto occasions = records::history(visits, catalogue, measure.id, side, patient.declared);
    line.entries = entries(occasions);
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

QString sided(const TrendLine& line, const QString& sentence, const base::Phrasebook& phrases)
{
    return line.name.isEmpty() ? sentence : phrases("%1: %2").arg(line.name, sentence);
}

QStringList remarksOnLimits(const TrendPoints& points, const TrendLine& line, const base::Phrasebook& phrases)
{
    const TrendLimits& limits = *line.limits;
    QStringList remarks{
        sided(line,
              phrases("Limits of measurement error (95 %) around %1 of %2: %3.")
                  .arg(points.written(limits.reference), records::dayInWords(limits.day), limits.source),
              phrases)};
    if (!limits.improved)
        remarks << sided(line, phrases("The scale ends before an improvement could show."), phrases);
    if (!limits.declined)
        remarks << sided(line, phrases("The scale ends before a decline could show."), phrases);
    return remarks;
}

QStringList remarksOn(const TrendPoints& points, const base::Phrasebook& phrases)
{
    QStringList remarks;
    std::map<QString, QStringList> shaded; // the sides of each sentence
    for (const TrendLine& line : points.lines) {
        if (line.limits)
            remarks << remarksOnLimits(points, line, phrases);
        if (line.standardError)
            shaded[phrases("Shaded: value ± 1.96 × standard error of measurement (%1), same source.")
                       .arg(points.written(*line.standardError))]
                << line.name;
    }
    for (const auto& [sentence, sides] : shaded)
        remarks << (shaded.size() > 1 ? phrases("%1: %2").arg(sides.join(u", "_s), sentence) : sentence);
    return remarks;
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
                        const base::Phrasebook& phrases)
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

    const Maker maker{question, visits, patient, catalogue, *measure, phrases};
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
    points.remarks = remarksOn(points, phrases);
    points.range = maker.range(points.lines);
    if (points.range)
        points.remarks << points.range->words;
    if (question.reference && std::ranges::none_of(points.lines, &TrendLine::reference))
        points.remarks.prepend(
            phrases("The reference visit holds no value of this test, so no limits are drawn."));
    return points;
}

} // namespace charts
