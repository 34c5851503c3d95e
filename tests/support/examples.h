#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

/// A small catalogue built by hand, and records that go with it. Thresholds are those of the publications
/// named.
namespace examples
{

using namespace Qt::StringLiterals;
using catalogue::Direction;
using catalogue::Kind;
using catalogue::Strictness;
using catalogue::TrialRule;
using values::Unit;

inline catalogue::Measure measure(const QString& id, const QString& title, Kind kind, Unit unit,
                                  Direction better, double lowest, double highest, double step)
{
    catalogue::Measure measure;
    measure.id = id;
    measure.title = title;
    measure.kind = kind;
    measure.unit = unit;
    measure.better = better;
    measure.lowest = lowest;
    measure.highest = highest;
    measure.step = step;
    return measure;
}

inline std::vector<catalogue::Measure> measures()
{
    const auto higher = Direction::HigherIsBetter;
    const auto lower = Direction::LowerIsBetter;
    auto fingerNose = measure(u"finger-nose"_s, u"Finger to nose"_s, Kind::Grade, Unit::One, lower, 0, 4, 1);
    fingerNose.hasSides = true;
    fingerNose.options = {{u"0"_s, u"as expected"_s},
                          {u"1"_s, u"just visible"_s},
                          {u"2"_s, u"clear, task done"_s},
                          {u"3"_s, u"marked, task done in part"_s},
                          {u"4"_s, u"extreme, goal hardly reached"_s}};
    catalogue::Measure drift;
    drift.id = u"pronator-drift"_s;
    drift.title = u"Pronator drift"_s;
    drift.kind = Kind::Choice;
    drift.hasSides = true;
    drift.options = {{u"none"_s, u"none"_s}, {u"pronation"_s, u"pronation and sinking"_s}};
    auto peg = measure(u"nine-hole-peg"_s, u"Nine-hole peg test"_s, Kind::Duration, Unit::Second, lower, 5,
                       300, 0.1);
    peg.hasSides = true;
    peg.trials = 2;
    peg.rule = TrialRule::Mean;
    peg.cap = 300;
    auto romberg = measure(u"romberg-eyes-closed"_s, u"Romberg hold: eyes closed"_s, Kind::Duration,
                           Unit::Second, higher, 0, 60, 0.1);
    romberg.rule = TrialRule::Best;
    romberg.cap = 60;
    auto turn = measure(u"turn-180-steps"_s, u"Steps to turn 180 degrees"_s, Kind::Count, Unit::Steps, lower,
                        1, 30, 1);
    turn.rule = TrialRule::Best;
    auto tandem = measure(u"tandem-steps"_s, u"Tandem steps achieved of 10"_s, Kind::Count, Unit::Steps,
                          higher, 0, 10, 1);
    auto speed = measure(u"gait-speed-comfortable"_s, u"Gait speed: comfortable pace"_s, Kind::Speed,
                         Unit::MetrePerSecond, higher, 0, 3.5, 0.01);
    speed.rule = TrialRule::Mean;
    speed.conditions = {{u"aid"_s, Strictness::Hard, {}},
                        {u"footwear"_s, Strictness::IfRecorded, {}},
                        {u"distance_m"_s, Strictness::Soft, {}},
                        {u"medication"_s, Strictness::Hard, u"parkinson"_s}};
    speed.computed = {catalogue::Computing::Speed, {u"ten-metre-walk-time-comfortable"_s}};
    auto walk = measure(u"ten-metre-walk-time-comfortable"_s, u"10-metre walk time: comfortable pace"_s,
                        Kind::Duration, Unit::Second, lower, 1, 300, 0.01);
    walk.rule = TrialRule::Mean;
    walk.conditions = {{u"aid"_s, Strictness::Hard, {}}, {u"distance_m"_s, Strictness::Hard, {}}};
    auto upAndGo =
        measure(u"timed-up-and-go"_s, u"Timed up and go"_s, Kind::Duration, Unit::Second, lower, 2, 300, 0.1);
    auto feet = measure(u"timed-25-foot-walk"_s, u"Timed 25-foot walk"_s, Kind::Duration, Unit::Second, lower,
                        1, 180, 0.1);
    feet.rule = TrialRule::Mean;
    feet.cap = 180;
    auto sixMinutes = measure(u"six-minute-walk"_s, u"6-minute walk distance"_s, Kind::Distance, Unit::Metre,
                              higher, 0, 1000, 1);
    auto cadence =
        measure(u"cadence"_s, u"Cadence"_s, Kind::Rate, Unit::StepsPerMinute, Direction::Neither, 0, 240, 1);
    auto berg = measure(u"berg-balance"_s, u"Berg balance scale: total"_s, Kind::Score, Unit::Score, higher,
                        0, 56, 1);
    auto sara = measure(u"sara"_s, u"Scale for the assessment and rating of ataxia"_s, Kind::Score,
                        Unit::Score, lower, 0, 40, 0.5);
    return {fingerNose, drift,   peg,  romberg,    turn,    tandem, speed,
            walk,       upAndGo, feet, sixMinutes, cadence, berg,   sara};
}

inline catalogue::Threshold threshold(const QString& id, const QString& measure, const QString& population,
                                      double limit, const QString& source, int n)
{
    catalogue::Threshold row;
    row.id = id;
    row.measure = measure;
    row.population = population;
    row.improvement = limit;
    row.decline = limit;
    row.confidence = 0.95;
    row.basis = catalogue::Basis::Stated;
    row.source = source;
    row.n = n;
    return row;
}

inline catalogue::Threshold banded(catalogue::Threshold row, const QString& of, double low,
                                   std::optional<double> high, bool highIncluded)
{
    row.bandOf = of;
    row.bandLow = low;
    row.bandHigh = high;
    row.bandHighIncluded = highIncluded;
    return row;
}

inline std::vector<catalogue::Threshold> thresholds()
{
    const QString speed = u"gait-speed-comfortable"_s;
    const QString berg = u"berg-balance"_s;
    const QString older = u"older-adults"_s;
    std::vector<catalogue::Threshold> rows;
    // Steffen & Seney 2008, Phys Ther 88:733, parkinsonism, n 37.
    rows.push_back(threshold(u"speed-pd"_s, speed, u"parkinson"_s, 0.18, u"steffen"_s, 37));
    rows.back().populationWords = u"Parkinson disease"_s;
    rows.push_back(
        threshold(u"romberg-pd"_s, u"romberg-eyes-closed"_s, u"parkinson"_s, 19, u"steffen"_s, 37));
    rows.back().checked = catalogue::Checked::Memory;
    rows.push_back(threshold(u"berg-pd"_s, berg, u"parkinson"_s, 5, u"steffen"_s, 37));
    // Hosoi 2023, Front Neurol 14:1219505, stroke, by comfortable speed.
    for (const auto& [low, high, ofSpeed, ofTime, n] :
         {std::tuple(0.0, std::optional(0.4), 0.05, 5.25, 19),
          std::tuple(0.4, std::optional(0.8), 0.11, 2.83, 29),
          std::tuple(0.8, std::optional<double>(), 0.21, 1.58, 36)}) {
        const QString level = QString::number(low);
        rows.push_back(
            banded(threshold(u"speed-stroke-"_s + level, speed, u"stroke"_s, ofSpeed, u"hosoi"_s, n), speed,
                   low, high, false));
        rows.push_back(banded(threshold(u"walk-stroke-"_s + level, u"ten-metre-walk-time-comfortable"_s,
                                        u"stroke"_s, ofTime, u"hosoi"_s, n),
                              speed, low, high, false));
    }
    // Donoghue & Stokes 2009, J Rehabil Med 41:343, older adults.
    for (const auto& [low, high, limit] : {std::tuple(0.0, 24.0, 5.0), std::tuple(25.0, 34.0, 7.0),
                                           std::tuple(35.0, 44.0, 5.0), std::tuple(45.0, 56.0, 4.0)})
        rows.push_back(
            banded(threshold(u"berg-older-"_s + QString::number(low), berg, older, limit, u"donoghue"_s, 118),
                   berg, low, high, true));
    // Fulk 2008, Physiother Theory Pract 24:195, stroke in inpatient rehabilitation: MDC90.
    rows.push_back(
        threshold(u"six-stroke"_s, u"six-minute-walk"_s, u"stroke-subacute"_s, 54.1, u"fulk"_s, 37));
    rows.back().confidence = 0.90;
    // Schwid 2002, Neurology 58:1294, multiple sclerosis: stable variation below 20 %.
    rows.push_back(
        threshold(u"feet-ms"_s, u"timed-25-foot-walk"_s, u"multiple-sclerosis"_s, 20, u"schwid"_s, 63));
    rows.back().scale = catalogue::Scale::PercentOfReference;
    rows.back().confidence = {};
    rows.back().basis = catalogue::Basis::Empirical;
    // Tilson 2010, Phys Ther 90:196, subacute stroke: important change.
    rows.push_back(threshold(u"speed-important"_s, speed, u"stroke-subacute"_s, 0.16, u"tilson"_s, 283));
    rows.back().answers = catalogue::Answers::Important;
    rows.back().confidence = {};
    // Multiple sclerosis, dominant 19.4 % and non-dominant 29.1 % (n 69).
    for (const auto& [hand, limit] : {std::pair(u"dominant"_s, 19.4), std::pair(u"non-dominant"_s, 29.1)}) {
        rows.push_back(
            threshold(u"peg-ms-"_s + hand, u"nine-hole-peg"_s, u"multiple-sclerosis"_s, limit, u"peg"_s, 69));
        rows.back().scale = catalogue::Scale::PercentOfReference;
        rows.back().hand = hand;
    }
    // Review table, J Neurol 2022;269:1282, multiple sclerosis: better 23 %, worse 30 %.
    rows.push_back(threshold(u"up-ms"_s, u"timed-up-and-go"_s, u"multiple-sclerosis"_s, 23, u"review"_s, 60));
    rows.back().scale = catalogue::Scale::PercentOfReference;
    rows.back().decline = 30;
    rows.push_back(threshold(u"up-stroke"_s, u"timed-up-and-go"_s, u"stroke"_s, 8, u"hiengkaew"_s, 61));
    return rows;
}

inline catalogue::Catalogue catalogue()
{
    catalogue::Catalogue made;
    made.measures = measures();
    made.thresholds = thresholds();
    made.populations = {{u"mixed-neurological"_s, u"Mixed neurological"_s, {}},
                        {u"stroke"_s, u"Stroke"_s, u"mixed-neurological"_s},
                        {u"stroke-subacute"_s, u"Stroke, subacute"_s, u"stroke"_s},
                        {u"stroke-chronic"_s, u"Stroke, chronic"_s, u"stroke"_s},
                        {u"parkinson"_s, u"Parkinson disease"_s, u"mixed-neurological"_s},
                        {u"multiple-sclerosis"_s, u"Multiple sclerosis"_s, u"mixed-neurological"_s},
                        {u"cerebellar-ataxia"_s, u"Cerebellar ataxia"_s, u"mixed-neurological"_s},
                        {u"older-adults"_s, u"Older adults"_s, {}}};
    for (const auto& [id, words] :
         {std::pair(u"steffen"_s, u"Steffen & Seney 2008"_s), std::pair(u"hosoi"_s, u"Hosoi 2023"_s),
          std::pair(u"donoghue"_s, u"Donoghue & Stokes 2009"_s), std::pair(u"fulk"_s, u"Fulk 2008"_s),
          std::pair(u"schwid"_s, u"Schwid 2002"_s), std::pair(u"tilson"_s, u"Tilson 2010"_s)})
        made.sources.push_back({id, words, {}, words});
    catalogue::Condition aid{u"aid"_s, u"Walking aid"_s, Unit::One, false, false, {}, {}, {}};
    catalogue::Condition footwear{u"footwear"_s, u"Footwear"_s, Unit::One, false, false, {}, {}, {}};
    catalogue::Condition distance{
        u"distance_m"_s, u"Timed distance"_s, Unit::Metre, true, false, {}, 1, 1000};
    catalogue::Condition start{u"start"_s, u"Start"_s, Unit::One, false, true, {}, {}, {}};
    start.options = {{u"static"_s, u"static"_s}, {u"moving"_s, u"moving"_s}};
    catalogue::Condition medication{u"medication"_s, u"Medication"_s, Unit::One, false, true, {}, {}, {}};
    medication.options = {{u"on"_s, u"on"_s}, {u"off"_s, u"off"_s}};
    made.conditions = {aid, footwear, distance, start, medication};
    made.forms = {{u"examination"_s, u"Examination"_s, {{u"Examination"_s, {}}}, {}}};
    return made;
}

inline records::Finding finding(const QString& measure, values::Value value,
                                records::Side side = records::Side::None)
{
    records::Finding finding;
    finding.measure = measure;
    finding.side = side;
    finding.value = std::move(value);
    return finding;
}

inline values::Value unable(const QString& reason = {})
{
    return values::Missing{values::Absence::Unable, reason};
}

inline records::Visit visit(const QString& id, QDate day, std::vector<records::Finding> findings,
                            records::Conditions conditions = {})
{
    records::Visit visit;
    visit.id = {id};
    visit.series = {id};
    visit.day = day;
    visit.state = records::VisitState::Signed;
    visit.author = {u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s};
    visit.signedAt = day.startOfDay(Qt::UTC);
    visit.findings = std::move(findings);
    visit.conditions = std::move(conditions);
    return visit;
}

inline records::Patient patient(const QString& population)
{
    records::Patient patient;
    patient.family = u"Halden"_s;
    patient.population = population;
    return patient;
}

} // namespace examples
