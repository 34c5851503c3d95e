#include "core/catalogue/audit.h"

#include "core/catalogue/band_audit.h"
#include "core/catalogue/norm_audit.h"
#include "core/catalogue/reading_entries.h"
#include "core/values/quantity.h"

#include <QLocale>
#include <QRegularExpression>
#include <QSet>

#include <cmath>

namespace catalogue
{

namespace
{

template <class Row>
void auditIds(base::Messages& faults, const std::vector<Row>& rows, const base::Message& kind)
{
    QSet<QString> seen;
    for (const Row& row : rows) {
        if (row.id.isEmpty())
            faults.push_back(base::said("A %1 has no id.").arg(kind));
        else if (seen.contains(row.id))
            faults.push_back(base::said("%1: the %2 id stands twice.").arg(row.id, kind));
        seen.insert(row.id);
    }
}

/// A count, a rate or a length may be best in the middle; a grade, a score, a time or a speed never is.
bool hasBetterEnd(const Measure& measure)
{
    return measure.kind == Kind::Grade || measure.kind == Kind::Score || measure.kind == Kind::Duration ||
           measure.kind == Kind::Speed;
}

/// Whether results of this kind are recorded in this unit.
bool fits(Kind kind, values::Unit unit)
{
    using values::Unit;
    switch (kind) {
    case Kind::Grade:
    case Kind::Choice:
        return unit == Unit::One;
    case Kind::Count:
        return unit == Unit::Count || unit == Unit::Steps;
    case Kind::Duration:
        return unit == Unit::Second;
    case Kind::Distance:
        return unit == Unit::Metre || unit == Unit::Centimetre;
    case Kind::Speed:
        return unit == Unit::MetrePerSecond;
    case Kind::Rate:
        return unit == Unit::StepsPerMinute || unit == Unit::Percent;
    case Kind::Score:
        return unit == Unit::Score || unit == Unit::Percent || unit == Unit::Kilogram;
    }
    return false;
}

void auditUnits(base::Messages& faults, const Catalogue& catalogue)
{
    for (const Measure& measure : catalogue.measures) {
        if (!fits(measure.kind, measure.unit))
            faults.push_back(base::said("%1: the unit is unknown or does not fit the kind.").arg(measure.id));
    }
    for (const Condition& condition : catalogue.conditions) {
        const bool isKnown = condition.unit <= values::Unit::Kilogram;
        if (!isKnown || (!condition.isNumber && condition.unit != values::Unit::One))
            faults.push_back(
                base::said("%1: the unit is unknown or does not fit the kind.").arg(condition.id));
    }
}

void auditMeasures(base::Messages& faults, const Catalogue& catalogue, const QStringList& everKnownIds)
{
    for (const QString& id : everKnownIds) {
        if (catalogue.measure(id) == nullptr)
            faults.push_back(
                base::said("%1: the measure was released once and is gone; retire it instead.").arg(id));
    }
    for (const Measure& measure : catalogue.measures) {
        if (catalogue.section(measure.section) == nullptr)
            faults.push_back(base::said("%1: unknown section “%2”.").arg(measure.id, measure.section));
        if (hasBetterEnd(measure) && measure.better == Direction::Neither)
            faults.push_back(
                base::said("%1: it is not said whether higher or lower is better.").arg(measure.id));
        for (const ConditionRule& rule : measure.conditions) {
            if (catalogue.condition(rule.condition) == nullptr)
                faults.push_back(base::said("%1: unknown condition “%2”.").arg(measure.id, rule.condition));
            if (!rule.onlyFor.isEmpty() && catalogue.population(rule.onlyFor) == nullptr)
                faults.push_back(base::said("%1: unknown population “%2”.").arg(measure.id, rule.onlyFor));
        }
    }
    for (const Form& form : catalogue.forms) {
        for (const QString& id : form.measures()) {
            if (catalogue.measure(id) == nullptr)
                faults.push_back(base::said("%1: unknown measure “%2” in the form.").arg(form.id, id));
        }
    }
}

/// A citation has a DOI, or a reference that names at least a year or a PubMed number.
void auditCitation(base::Messages& faults, const Catalogue& catalogue, const Threshold& row)
{
    static const QRegularExpression findable(QStringLiteral("\\b(1[89]|20)[0-9]{2}\\b|PMID [0-9]+"));
    const Source* source = catalogue.source(row.source);
    if (source == nullptr) {
        faults.push_back(base::said("%1: the number has no source.").arg(row.id));
    } else if (source->reference.isEmpty() ||
               (source->doi.isEmpty() && !source->reference.contains(findable))) {
        faults.push_back(
            base::said("%1: the source “%2” has neither DOI nor full reference.").arg(row.id, source->id));
    }
    if (row.populationWords.isEmpty())
        faults.push_back(base::said("%1: it is not said in whom the number was measured.").arg(row.id));
    const bool isCountNeeded = row.basis != Basis::Empirical && row.answers == Answers::Error;
    if (isCountNeeded && !row.n)
        faults.push_back(
            base::said("%1: it is not said in how many people the number was measured.").arg(row.id));
}

/// One unit in the last decimal place a number is written with.
double lastPlace(double number)
{
    const QString written = QLocale::c().toString(number, 'f', QLocale::FloatingPointShortest);
    const auto point = written.indexOf(QLatin1Char('.'));
    return point < 0 ? 1.0 : std::pow(10.0, -double(written.size() - point - 1));
}

/// Whether z · √2 · SEM gives the published change once both were rounded. A source may have cut the last
/// place instead of rounding it.
bool fits(double sem, double change, double z)
{
    const double half = lastPlace(sem) / 2;
    const double smallest = z * std::sqrt(2.0) * (sem - half);
    const double largest = z * std::sqrt(2.0) * (sem + half);
    return largest >= change - lastPlace(change) / 2 && smallest <= change + lastPlace(change);
}

void auditErrorIdentity(base::Messages& faults, const Threshold& row)
{
    constexpr double z95 = 1.959964;
    constexpr double z90 = 1.644854;
    if (row.answers != Answers::Error || row.scale != Scale::Absolute || !row.sem || !row.confidence)
        return;
    const bool is95 = *row.confidence > 0.925;
    for (const double change : {row.improvement, row.decline}) {
        if (fits(*row.sem, change, is95 ? z95 : z90))
            continue;
        const bool fitsOther = fits(*row.sem, change, is95 ? z90 : z95);
        faults.push_back(
            fitsOther ? base::said("%1: the change is labelled %2 % but fits the standard error at %3 %.")
                            .arg(row.id, is95 ? 95 : 90, is95 ? 90 : 95)
                      : base::said("%1: the change disagrees with its own standard error.").arg(row.id));
        return;
    }
}

/// The largest change a threshold of this scale could still be exceeded by.
double widestChange(const Measure& measure, Scale scale)
{
    switch (scale) {
    case Scale::Absolute:
        return *measure.highest - *measure.lowest;
    case Scale::PercentOfReference:
        return 100;
    case Scale::ProportionalToMean:
        return 2;
    case Scale::Log:
        break;
    }
    return *measure.lowest > 0 ? std::log(*measure.highest / *measure.lowest) : HUGE_VAL;
}

/// The condition a row holds under is known, and so are the words it allows where there are any.
void auditCondition(base::Messages& faults, const Catalogue& catalogue, const Threshold& row)
{
    if (!row.condition)
        return;
    const Condition* condition = catalogue.condition(row.condition->condition);
    if (condition == nullptr) {
        faults.push_back(base::said("%1: unknown condition “%2”.").arg(row.id, row.condition->condition));
        return;
    }
    for (const QString& word : row.condition->values) {
        if (optionOf(condition->options, word) == nullptr && !condition->options.empty())
            faults.push_back(
                base::said("%1: “%2” is no word of the condition “%3”.").arg(row.id, word, condition->id));
    }
}

void auditThreshold(base::Messages& faults, const Catalogue& catalogue, const Threshold& row)
{
    auditCitation(faults, catalogue, row);
    auditErrorIdentity(faults, row);
    if (catalogue.population(row.population) == nullptr)
        faults.push_back(base::said("%1: unknown population “%2”.").arg(row.id, row.population));
    auditCondition(faults, catalogue, row);
    const bool isEmpirical = row.basis == Basis::Empirical;
    if (!row.isOwn && !row.interval.isEmpty() && row.repeats == Repeats::NotStated)
        faults.push_back(base::said("%1: the interval stands in words alone.").arg(row.id));
    if (row.answers == Answers::Error && !row.confidence && !isEmpirical)
        faults.push_back(base::said("%1: the confidence level is missing.").arg(row.id));
    const Measure* measure = catalogue.measure(row.measure);
    if (measure == nullptr) {
        faults.push_back(base::said("%1: unknown measure “%2”.").arg(row.id, row.measure));
    } else if (measure->kind == Kind::Grade || !measure->lowest || !measure->highest) {
        faults.push_back(
            base::said("%1: “%2” has no differences, so it can have no threshold.").arg(row.id, row.measure));
    } else if (values::exceeds(std::max(row.improvement, row.decline), widestChange(*measure, row.scale))) {
        faults.push_back(base::said("%1: the threshold is wider than the scale.").arg(row.id));
    }
    if (!row.hand.isEmpty() && measure != nullptr && !measure->hasSides)
        faults.push_back(base::said("%1: a hand is named, but the measure has no sides.").arg(row.id));
}

} // namespace

base::Messages audit(const Catalogue& catalogue, const QStringList& everKnownIds)
{
    base::Messages faults;
    auditIds(faults, catalogue.sections, base::said("section"));
    auditIds(faults, catalogue.measures, base::said("measure"));
    auditIds(faults, catalogue.conditions, base::said("condition"));
    auditIds(faults, catalogue.populations, base::said("population"));
    auditIds(faults, catalogue.sources, base::said("source"));
    auditIds(faults, catalogue.thresholds, base::said("threshold"));
    auditIds(faults, catalogue.forms, base::said("form"));
    auditIds(faults, catalogue.redFlags, base::said("red flag"));
    auditIds(faults, catalogue.patterns, base::said("pattern"));
    auditMeasures(faults, catalogue, everKnownIds);
    auditUnits(faults, catalogue);
    for (const Population& population : catalogue.populations) {
        if (!population.broader.isEmpty() && catalogue.population(population.broader) == nullptr)
            faults.push_back(
                base::said("%1: unknown population “%2”.").arg(population.id, population.broader));
    }
    for (const Threshold& row : catalogue.thresholds)
        auditThreshold(faults, catalogue, row);
    for (const base::Messages& more :
         {bandFaults(catalogue), normFaults(catalogue), readingFaults(catalogue)})
        faults.insert(faults.end(), more.begin(), more.end());
    return faults;
}

} // namespace catalogue
