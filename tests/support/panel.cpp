#include "tests/support/panel.h"

#include "core/judging/glance.h"
#include "core/judging/weight.h"
#include "core/telling/summary.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

using namespace Qt::StringLiterals;

namespace panel
{

namespace
{

using records::Side;
using values::Quantity;

constexpr int visitsOfAPerson = 8;
constexpr int daysBetween = 91;
constexpr double correlation = 0.3;
constexpr int unableFrom = 5; ///< the sixth visit

/// Where a number begins, and what it errs by.
struct Level {
    QString measure;
    double start = 0;
    double sem = 0;
};

/// The standard error that the program judges by: of a comparison of the level with itself.
std::optional<double> semOf(const catalogue::Measure& measure, double start,
                            const catalogue::Catalogue& catalogue, const records::Patient& patient)
{
    const auto occasion = [&](const QString& visit, QDate day) {
        records::Occasion made;
        made.visit = {visit};
        made.day = day;
        made.finding.measure = measure.id;
        made.finding.value = Quantity{start, measure.unit};
        for (const catalogue::ConditionRule& rule : measure.conditions)
            made.conditions[rule.condition] = u"none"_s;
        return made;
    };
    const QDate day(2023, 1, 9);
    const judging::Comparison held = judging::comparison(catalogue, patient, occasion(u"a"_s, day),
                                                         occasion(u"b"_s, day.addDays(daysBetween)), {});
    return held.threshold ? judging::standardErrorOf(held.threshold->row) : std::nullopt;
}

/// Levels of people with Parkinson disease who walk by themselves.
std::vector<Level> levels(const catalogue::Catalogue& catalogue, const records::Patient& patient)
{
    static const std::vector<std::pair<QString, double>> starts = {{u"berg-balance"_s, 42},
                                                                   {u"functional-gait-assessment"_s, 18},
                                                                   {u"dynamic-gait-index"_s, 15},
                                                                   {u"mini-balance-evaluation"_s, 18},
                                                                   {u"balance-confidence"_s, 65},
                                                                   {u"gait-speed-fast"_s, 1.5},
                                                                   {u"timed-up-and-go"_s, 40},
                                                                   {u"six-minute-walk"_s, 450},
                                                                   {u"chair-stand-30s"_s, 15},
                                                                   {u"functional-reach-forward"_s, 40},
                                                                   {u"five-times-sit-to-stand"_s, 40},
                                                                   {u"romberg-eyes-open"_s, 35}};
    std::vector<Level> made;
    for (const auto& [id, start] : starts) {
        const catalogue::Measure* measure = catalogue.measure(id);
        const auto sem = measure != nullptr ? semOf(*measure, start, catalogue, patient) : std::nullopt;
        if (sem)
            made.push_back({id, start, *sem});
    }
    return made;
}

/// What of the effect is there at a visit, in its share.
double share(Truth truth, int visit)
{
    const double along = double(visit) / (visitsOfAPerson - 1);
    switch (truth) {
    case Truth::Declining:
    case Truth::Improving:
        return along;
    case Truth::Relapsing:
        return visit < unableFrom ? std::min(1.0, visit / 3.0) : 0;
    case Truth::ThereAndBack:
        return 1 - std::abs(2 * along - 1);
    case Truth::Practice:
        return visit == 0 ? 0 : 1;
    case Truth::Stable:
    case Truth::TurnedUnable:
    case Truth::Ceiling:
    case Truth::ConditionChanged:
        break;
    }
    return 0;
}

bool changes(Truth truth)
{
    return truth == Truth::Declining || truth == Truth::Improving || truth == Truth::Relapsing ||
           truth == Truth::ThereAndBack || truth == Truth::TurnedUnable;
}

class Maker
{
public:
    Maker(Truth truth, double effect, std::uint32_t seed, const catalogue::Catalogue& catalogue)
        : m_catalogue(catalogue), m_random(seed), m_effect(effect)
    {
        m_person.truth = truth;
        m_person.effect = effect;
        m_person.patient.family = u"Panel"_s;
        m_person.patient.population = u"parkinson"_s;
        m_levels = levels(catalogue, m_person.patient);
        std::ranges::shuffle(m_levels, m_random);
        if (truth == Truth::TurnedUnable)
            m_person.changing = {m_levels.front().measure};
        if (changes(truth) && truth != Truth::TurnedUnable) {
            for (size_t place = 0; place < m_levels.size() / 3; ++place)
                m_person.changing += m_levels[place].measure;
        }
    }

    Person made()
    {
        for (int visit = 0; visit < visitsOfAPerson; ++visit)
            add(visit);
        return m_person;
    }

private:
    double normal() { return m_normal(m_random); }

    void add(int number)
    {
        records::Visit visit;
        visit.id = {u"v%1"_s.arg(number)};
        visit.series = visit.id;
        visit.day = QDate(2023, 1, 9).addDays(qint64(number) * daysBetween);
        visit.state = records::VisitState::Signed;
        visit.form = u"core-set"_s;
        visit.conditions = {
            {u"aid"_s, u"none"_s},        {u"orthosis"_s, u"none"_s},      {u"footwear"_s, u"own-shoes"_s},
            {u"assistance"_s, u"none"_s}, {u"medication"_s, u"on"_s},      {u"start"_s, u"moving"_s},
            {u"distance_m"_s, u"10"_s},   {u"surface"_s, u"hard-floor"_s}, {u"chair_height_cm"_s, u"45"_s}};
        if (m_person.truth == Truth::ConditionChanged && number >= unableFrom)
            visit.conditions[u"aid"_s] = u"stick"_s;
        const double ofTheDay = std::sqrt(correlation) * normal();
        for (const Level& level : m_levels)
            visit.findings.push_back(finding(level, number, ofTheDay));
        for (const QString& graded : {u"finger-nose"_s, u"heel-shin"_s}) {
            for (const Side side : {Side::Right, Side::Left})
                visit.findings.push_back(grade(graded, side));
        }
        m_person.visits.push_back(std::move(visit));
    }

    records::Finding finding(const Level& level, int number, double ofTheDay)
    {
        const catalogue::Measure& measure = *m_catalogue.measure(level.measure);
        records::Finding made;
        made.measure = level.measure;
        const bool isChanging = m_person.changing.contains(level.measure);
        if (m_person.truth == Truth::TurnedUnable && isChanging && number >= unableFrom) {
            made.value = values::Missing{values::Absence::Unable, {}};
            return made;
        }
        const double better = measure.better == catalogue::Direction::HigherIsBetter ? 1 : -1;
        double truth = level.start;
        if (m_person.truth == Truth::Ceiling && measure.highest && better > 0)
            truth = *measure.highest - level.sem / 2;
        if (m_person.truth == Truth::Practice || isChanging) {
            const double way = m_person.truth == Truth::Declining ? -better : better;
            truth += way * m_effect * level.sem * share(m_person.truth, number);
        }
        const double error = level.sem * (ofTheDay + std::sqrt(1 - correlation) * normal());
        const double step = measure.step.value_or(0.01);
        double value = std::round((truth + error) / step) * step;
        value = std::clamp(value, measure.lowest.value_or(value), measure.highest.value_or(value));
        made.value = Quantity{value, measure.unit};
        return made;
    }

    records::Finding grade(const QString& id, Side side)
    {
        constexpr double misread = 1.0 / visitsOfAPerson;
        const double draw = std::uniform_real_distribution<double>(0, 1)(m_random);
        records::Finding made;
        made.measure = id;
        made.side = side;
        made.value = values::Grade{draw < misread / 2 ? 0 : draw < misread ? 2 : 1};
        return made;
    }

    const catalogue::Catalogue& m_catalogue;
    std::mt19937 m_random;
    std::normal_distribution<double> m_normal;
    double m_effect;
    std::vector<Level> m_levels;
    Person m_person;
};

} // namespace

const char* name(Truth truth)
{
    switch (truth) {
    case Truth::Stable:
        break;
    case Truth::Declining:
        return "declining";
    case Truth::Improving:
        return "improving";
    case Truth::Relapsing:
        return "relapsing";
    case Truth::ThereAndBack:
        return "there and back";
    case Truth::TurnedUnable:
        return "turned unable";
    case Truth::Ceiling:
        return "at the ceiling";
    case Truth::ConditionChanged:
        return "condition changed";
    case Truth::Practice:
        return "practice";
    }
    return "stable";
}

Person person(Truth truth, double effect, std::uint32_t seed, const catalogue::Catalogue& catalogue)
{
    return Maker(truth, effect, seed, catalogue).made();
}

Reading read(const Person& person, const catalogue::Catalogue& catalogue)
{
    const records::Judging judging;
    const auto glance =
        judging::glanceAt(person.visits.back().id, {}, {person.visits, person.patient, catalogue, judging});
    const auto lines = telling::summary(*glance, catalogue, {});
    const auto names = [&](telling::LineKind kind) {
        const auto line = std::ranges::find(lines, kind, &telling::SummaryLine::kind);
        return line != lines.end() && std::ranges::any_of(person.changing, [&](const QString& id) {
                   return line->measures.contains(id);
               });
    };
    Reading reading;
    const bool isWorse = person.truth == Truth::Declining || person.truth == Truth::Relapsing ||
                         person.truth == Truth::ThereAndBack;
    reading.isTrue = person.truth == Truth::TurnedUnable ? names(telling::LineKind::Changed)
                     : isWorse                           ? names(telling::LineKind::Worse)
                                                         : names(telling::LineKind::Better);
    for (size_t place = 0; place < glance->outcomes.size(); ++place) {
        const judging::Outcome& outcome = glance->outcomes[place];
        const bool isTrulyChanging = person.changing.contains(glance->changes[place].measure);
        if (outcome.claim && outcome.isSure && !isTrulyChanging &&
            outcome.claim->strength != judging::Strength::SeenOnce)
            reading.isFalselySure = true;
    }
    if (person.changing.isEmpty())
        reading.isTrue = !reading.isFalselySure;
    return reading;
}

} // namespace panel
