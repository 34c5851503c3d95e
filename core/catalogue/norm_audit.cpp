#include "core/catalogue/norm_audit.h"

#include "core/values/quantity.h"

#include <QRegularExpression>
#include <QSet>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace catalogue
{

namespace
{

constexpr int oldest = 150;

QString wholeKey(const Whom& whom)
{
    return QStringList{QString::number(int(whom.sex)), whom.population, whom.side, written(whom.condition)}
        .join(QLatin1Char('\n'));
}

template <class Row>
void auditIds(base::Messages& faults, const std::vector<Row>& rows, QSet<QString>& seen)
{
    for (const Row& row : rows) {
        if (row.id.isEmpty())
            faults.push_back(base::said("A reference value has no id."));
        else if (seen.contains(row.id))
            faults.push_back(base::said("%1: the id of a reference value stands twice.").arg(row.id));
        seen.insert(row.id);
    }
}

/// Whom, in what, and from where: what every reference value must say.
template <class Row>
void auditOrigin(base::Messages& faults, const Catalogue& catalogue, const Row& row)
{
    static const QRegularExpression findable(QStringLiteral("\\b(1[89]|20)[0-9]{2}\\b|PMID [0-9]+"));
    const Source* source = catalogue.source(row.origin.source);
    if (source == nullptr)
        faults.push_back(base::said("%1: the number has no source.").arg(row.id));
    else if (source->reference.isEmpty() || (source->doi.isEmpty() && !source->reference.contains(findable)))
        faults.push_back(
            base::said("%1: the source “%2” has neither DOI nor full reference.").arg(row.id, source->id));
    if (row.whom.populationWords.isEmpty())
        faults.push_back(base::said("%1: it is not said in whom the number was measured.").arg(row.id));
    if (!row.whom.population.isEmpty() && catalogue.population(row.whom.population) == nullptr)
        faults.push_back(base::said("%1: unknown population “%2”.").arg(row.id, row.whom.population));
    const Measure* measure = catalogue.measure(row.measure);
    if (measure == nullptr)
        faults.push_back(base::said("%1: unknown measure “%2”.").arg(row.id, row.measure));
    else if (!row.whom.side.isEmpty() && !measure->hasSides)
        faults.push_back(base::said("%1: a hand is named, but the measure has no sides.").arg(row.id));
}

void auditScale(base::Messages& faults, const Catalogue& catalogue, const QString& id,
                const QString& measureId, std::initializer_list<std::optional<double>> numbers)
{
    const Measure* measure = catalogue.measure(measureId);
    for (const auto& number : numbers) {
        const bool isOutside =
            measure != nullptr && number &&
            (*number < measure->lowest.value_or(*number) || *number > measure->highest.value_or(*number));
        if (isOutside) {
            faults.push_back(base::said("%1: a number lies outside the scale of “%2”.").arg(id, measureId));
            return;
        }
    }
}

bool namesTheGap(const Origin& origin)
{
    return origin.note.contains(QLatin1String("gap"), Qt::CaseInsensitive);
}

/// The rows of one table, by age.
template <class Row>
void auditAges(base::Messages& faults, std::vector<const Row*> rows)
{
    const auto low = [](const Row* row) { return row->whom.ageLow.value_or(0); };
    const auto high = [](const Row* row) { return row->whom.ageHigh.value_or(oldest); };
    std::ranges::sort(rows, {}, low);
    for (size_t index = 1; index < rows.size(); ++index) {
        const Row* younger = rows[index - 1];
        const Row* older = rows[index];
        if (low(older) <= high(younger))
            faults.push_back(base::said("%1: its ages overlap those of %2.").arg(older->id, younger->id));
        else if (low(older) > high(younger) + 1 && !namesTheGap(younger->origin) &&
                 !namesTheGap(older->origin))
            faults.push_back(base::said("%1: there is a silent gap between its ages and those of %2.")
                                 .arg(older->id, younger->id));
    }
}

template <class Row>
void auditTables(base::Messages& faults, const std::vector<Row>& rows,
                 const std::function<QString(const Row&)>& key)
{
    std::map<QString, std::vector<const Row*>> tables;
    for (const Row& row : rows)
        tables[key(row)].push_back(&row);
    for (const auto& [name, table] : tables)
        auditAges(faults, table);
}

bool mayMeet(const Whom& a, const Whom& b)
{
    const bool agesMeet = a.ageLow.value_or(0) <= b.ageHigh.value_or(oldest) &&
                          b.ageLow.value_or(0) <= a.ageHigh.value_or(oldest);
    const bool sexesMeet = a.sex == b.sex || a.sex == NormSex::Any || b.sex == NormSex::Any;
    return agesMeet && sexesMeet && a.population == b.population && a.side == b.side &&
           a.condition == b.condition;
}

bool overlap(const Band& a, const Band& b)
{
    const auto endsBefore = [](const Band& lower, const Band& upper) {
        if (!lower.high || !upper.low)
            return false;
        const bool touches = lower.highIncluded && upper.lowIncluded;
        return touches ? values::exceeds(*upper.low, *lower.high) : !values::exceeds(*lower.high, *upper.low);
    };
    return !endsBefore(a, b) && !endsBefore(b, a);
}

/// Bands of whole steps (0 to 3, 4 to 6) touch.
bool leaveAGap(const Band& lower, const Band& upper, double step)
{
    const double next = lower.highIncluded && upper.lowIncluded ? *lower.high + step : *lower.high;
    const bool isPointMissing = !lower.highIncluded && !upper.lowIncluded;
    return isPointMissing || values::exceeds(*upper.low, next);
}

void auditSeries(base::Messages& faults, const Catalogue& catalogue, std::vector<const Band*> bands)
{
    std::ranges::sort(bands, {}, [](const Band* band) { return band->low.value_or(-HUGE_VAL); });
    for (size_t index = 0; index < bands.size(); ++index) {
        const Band* next = nullptr;
        for (size_t later = index + 1; later < bands.size(); ++later) {
            if (!mayMeet(bands[index]->whom, bands[later]->whom))
                continue;
            if (overlap(*bands[index], *bands[later]))
                faults.push_back(
                    base::said("%1: the band overlaps that of %2.").arg(bands[later]->id, bands[index]->id));
            else if (next == nullptr)
                next = bands[later];
        }
        const Measure* measure = catalogue.measure(bands[index]->measure);
        if (next != nullptr && bands[index]->high && next->low &&
            leaveAGap(*bands[index], *next, measure != nullptr ? measure->step.value_or(0) : 0) &&
            !namesTheGap(bands[index]->origin) && !namesTheGap(next->origin))
            faults.push_back(base::said("%1: there is a silent gap between its band and that of %2.")
                                 .arg(next->id, bands[index]->id));
    }
}

void auditNorm(base::Messages& faults, const Catalogue& catalogue, const Norm& row)
{
    auditOrigin(faults, catalogue, row);
    if (row.sd && *row.sd <= 0)
        faults.push_back(base::said("%1: the standard deviation is not above 0.").arg(row.id));
    auditScale(faults, catalogue, row.id, row.measure,
               {row.mean, row.meanLow, row.meanHigh, row.rangeLow, row.rangeHigh});
    const bool isOff = row.mean && ((row.meanLow && *row.meanLow > *row.mean) ||
                                    (row.meanHigh && *row.meanHigh < *row.mean));
    if (isOff)
        faults.push_back(base::said("%1: the mean lies outside its own interval.").arg(row.id));
}

} // namespace

base::Messages normFaults(const Catalogue& catalogue)
{
    base::Messages faults;
    QSet<QString> seen;
    auditIds(faults, catalogue.norms, seen);
    auditIds(faults, catalogue.equations, seen);
    auditIds(faults, catalogue.bands, seen);
    for (const Norm& row : catalogue.norms)
        auditNorm(faults, catalogue, row);
    for (const Equation& row : catalogue.equations)
        auditOrigin(faults, catalogue, row);
    std::map<QString, std::vector<const Band*>> series;
    for (const Band& row : catalogue.bands) {
        auditOrigin(faults, catalogue, row);
        auditScale(faults, catalogue, row.id, row.measure, {row.low, row.high});
        series[row.measure + QLatin1Char('\n') + row.series].push_back(&row);
    }
    auditTables<Norm>(faults, catalogue.norms, [](const Norm& row) {
        return QStringList{row.measure, row.origin.source, wholeKey(row.whom),
                           row.rule ? QString::number(int(*row.rule)) : QString()}
            .join(QLatin1Char('\n'));
    });
    auditTables<Equation>(faults, catalogue.equations, [](const Equation& row) {
        return QStringList{row.measure, row.origin.source, wholeKey(row.whom)}.join(QLatin1Char('\n'));
    });
    for (const auto& [name, bands] : series)
        auditSeries(faults, catalogue, bands);
    return faults;
}

} // namespace catalogue
