#include "core/judging/standing.h"

#include "core/statistics/distributions.h"
#include "core/values/age.h"
#include "core/values/quantity.h"

#include <algorithm>

namespace judging
{

namespace
{

using catalogue::Band;
using catalogue::BandKind;
using catalogue::Catalogue;
using catalogue::Direction;
using catalogue::Equation;
using catalogue::Measure;
using catalogue::Norm;
using catalogue::NormSex;
using catalogue::TrialRule;
using catalogue::Whom;
using records::Hand;
using records::Sex;
using records::Side;

constexpr int adultAge = 18;

struct Asked {
    const records::Occasion& occasion;
    const records::Patient& patient;
    const Catalogue& catalogue;
    const Measure& measure;
    double value = 0;
    bool isAtLeast = false;
    std::optional<int> age;
};

/// Whether a row is about this person at all, and what keeps it from answering.
struct Fit {
    bool isFor = true;
    std::vector<Obstacle> obstacles;

    bool answers() const { return isFor && obstacles.empty(); }
};

void fitSex(Fit& fit, const Whom& whom, Sex sex)
{
    if (whom.sex == NormSex::Any)
        return;
    if (sex != Sex::Female && sex != Sex::Male)
        fit.obstacles.push_back(Obstacle::SexUnknown);
    else if ((whom.sex == NormSex::Female) != (sex == Sex::Female))
        fit.isFor = false;
}

void fitAge(Fit& fit, const Whom& whom, std::optional<int> age)
{
    const bool isNeeded = whom.ageLow || whom.ageHigh;
    if (!age && isNeeded)
        fit.obstacles.push_back(Obstacle::AgeUnknown);
    else if (age && (*age < whom.ageLow.value_or(adultAge) || *age > whom.ageHigh.value_or(*age)))
        fit.obstacles.push_back(Obstacle::AgeOutside);
}

void fitSide(Fit& fit, const Whom& whom, Side side, Hand dominant)
{
    if (whom.side.isEmpty())
        return;
    if (whom.side == records::code(Side::Right) || whom.side == records::code(Side::Left)) {
        fit.isFor = fit.isFor && whom.side == records::code(side);
        return;
    }
    if (dominant != Hand::Right && dominant != Hand::Left) {
        fit.obstacles.push_back(Obstacle::HandUnknown);
        return;
    }
    const bool isDominant = (side == Side::Right) == (dominant == Hand::Right);
    fit.isFor = fit.isFor && isDominant == (whom.side == QLatin1String("dominant"));
}

/// A condition that was not recorded speaks against no row.
bool fitsCondition(const std::optional<catalogue::Requirement>& asked, const records::Conditions& conditions)
{
    if (!asked)
        return true;
    const QString recorded = records::recorded(conditions, asked->condition).trimmed();
    return recorded.isEmpty() || asked->allows(recorded);
}

Fit fitOf(const Whom& whom, const Asked& asked)
{
    Fit fit;
    fit.isFor =
        whom.population.isEmpty() || asked.catalogue.isWithin(asked.patient.population, whom.population);
    fitAge(fit, whom, asked.age);
    fitSex(fit, whom, asked.patient.sex);
    fitSide(fit, whom, asked.occasion.finding.side, asked.patient.dominantHand);
    if (!fitsCondition(whom.condition, asked.occasion.conditions))
        fit.obstacles.push_back(Obstacle::OtherCondition);
    return fit;
}

/// A single trial stands for the mean of several, not for the best of them.
bool fitsRule(std::optional<TrialRule> rule, TrialRule ours)
{
    return !rule || *rule == ours || (*rule == TrialRule::Mean && ours == TrialRule::Single);
}

/// What is known of a trial that was stopped: the result lies at or above its cap.
bool isCertain(const Norm& norm, const Asked& asked)
{
    const double most = std::max(norm.mean.value_or(asked.value), norm.rangeHigh.value_or(asked.value));
    return !asked.isAtLeast || !values::exceeds(most, asked.value);
}

Fit fitOf(const Norm& norm, const Asked& asked)
{
    Fit fit = fitOf(norm.whom, asked);
    if (!fitsRule(norm.rule, asked.measure.rule))
        fit.obstacles.push_back(Obstacle::OtherRule);
    if (!isCertain(norm, asked))
        fit.obstacles.push_back(Obstacle::StoppedEarly);
    return fit;
}

Fit fitOf(const Equation& equation, const Asked& asked)
{
    Fit fit = fitOf(equation.whom, asked);
    if (equation.perYear != 0 && !asked.age && !equation.whom.ageLow && !equation.whom.ageHigh)
        fit.obstacles.push_back(Obstacle::AgeUnknown);
    if (equation.perCm != 0 && !asked.patient.heightCm)
        fit.obstacles.push_back(Obstacle::HeightUnknown);
    if (equation.perKg != 0 && !asked.patient.weightKg)
        fit.obstacles.push_back(Obstacle::WeightUnknown);
    if (asked.isAtLeast)
        fit.obstacles.push_back(Obstacle::StoppedEarly);
    return fit;
}

Fit fitOf(const Band& band, const Asked& asked)
{
    Fit fit = fitOf(band.whom, asked);
    const bool isCertain = band.high ? values::exceeds(asked.value, *band.high) : band.contains(asked.value);
    if (asked.isAtLeast && !isCertain)
        fit.obstacles.push_back(Obstacle::StoppedEarly);
    return fit;
}

AgainstNorm against(const Norm& norm, const Asked& asked)
{
    AgainstNorm answer{norm, {}, {}};
    if (!norm.mean || !norm.sd)
        return answer;
    answer.z = (asked.value - *norm.mean) / *norm.sd;
    const double better = asked.measure.better == Direction::LowerIsBetter ? -*answer.z : *answer.z;
    answer.percentile = 100 * statistics::normalShareBelow(better);
    return answer;
}

AgainstPrediction against(const Equation& equation, const Asked& asked)
{
    AgainstPrediction answer{equation, 0, 0, {}};
    answer.predicted = equation.predicted(asked.age.value_or(0), asked.patient.heightCm.value_or(0),
                                          asked.patient.weightKg.value_or(0));
    answer.percent = 100 * asked.value / answer.predicted;
    if (equation.lowerLimitBelow)
        answer.lowerLimit = answer.predicted - *equation.lowerLimitBelow;
    return answer;
}

AgainstBand against(const Band& band, const Asked& asked)
{
    return {band, band.contains(asked.value)};
}

/// A level is an answer where the result lies in it; a cut-off is one on either side.
bool isAnswer(const Norm&, const Asked&)
{
    return true;
}

bool isAnswer(const Equation& equation, const Asked& asked)
{
    return equation.predicted(asked.age.value_or(0), asked.patient.heightCm.value_or(0),
                              asked.patient.weightKg.value_or(0)) > 0;
}

bool isAnswer(const Band& band, const Asked& asked)
{
    return band.kind == BandKind::Risk || band.contains(asked.value);
}

struct Found {
    std::vector<Standing> answers;
    std::vector<Standing> without;
};

/// Which rows are one table: where none of them answers, that is said once.
QString table(const Norm& row)
{
    return row.origin.source;
}

QString table(const Equation& row)
{
    return row.origin.source;
}

QString table(const Band& row)
{
    return row.series;
}

/// Takes another row of the same table in: fewest obstacles, all ages, both sexes.
void widen(NoReference& known, const Whom& whom, const std::vector<Obstacle>& obstacles)
{
    if (obstacles.size() < known.obstacles.size())
        known.obstacles = obstacles;
    const auto wider = [](std::optional<int> a, std::optional<int> b, auto choose) {
        return a && b ? std::optional<int>(choose(*a, *b)) : std::nullopt;
    };
    known.whom.ageLow = wider(known.whom.ageLow, whom.ageLow, [](int a, int b) { return std::min(a, b); });
    known.whom.ageHigh = wider(known.whom.ageHigh, whom.ageHigh, [](int a, int b) { return std::max(a, b); });
    if (known.whom.sex != whom.sex)
        known.whom.sex = NormSex::Any;
    if (known.whom.side != whom.side)
        known.whom.side.clear();
}

template <class Row>
void stand(Found& found, const std::vector<Row>& rows, const Asked& asked)
{
    QStringList answered;
    std::vector<std::pair<QString, NoReference>> silent;
    for (const Row& row : rows) {
        if (row.measure != asked.measure.id)
            continue;
        const Fit fit = fitOf(row, asked);
        const QString name = table(row);
        if (fit.answers()) {
            answered += name;
            if (isAnswer(row, asked))
                found.answers.push_back({asked.value, asked.isAtLeast, against(row, asked)});
        } else if (fit.isFor) {
            const auto isSame = [&](const auto& known) { return known.first == name; };
            const auto known = std::ranges::find_if(silent, isSame);
            if (known == silent.end())
                silent.emplace_back(name, NoReference{row.whom, row.origin, fit.obstacles, asked.age});
            else
                widen(known->second, row.whom, fit.obstacles);
        }
    }
    for (const auto& [name, reason] : silent) {
        if (!answered.contains(name))
            found.without.push_back({asked.value, asked.isAtLeast, reason});
    }
}

} // namespace

std::vector<Standing> standings(const records::Occasion& occasion, const records::Patient& patient,
                                const Catalogue& catalogue)
{
    const Measure* measure = catalogue.measure(occasion.finding.measure);
    const auto* quantity = std::get_if<values::Quantity>(&occasion.finding.value);
    if (measure == nullptr || quantity == nullptr)
        return {};
    const auto value = quantity->in(measure->unit);
    if (!value)
        return {};
    const Asked asked{occasion,
                      patient,
                      catalogue,
                      *measure,
                      value->number,
                      occasion.finding.capReached,
                      patient.born ? values::ageInYears(*patient.born, occasion.day) : std::nullopt};
    Found found;
    stand(found, catalogue.norms, asked);
    stand(found, catalogue.equations, asked);
    stand(found, catalogue.bands, asked);
    found.answers.insert(found.answers.end(), found.without.begin(), found.without.end());
    return found.answers;
}

} // namespace judging
