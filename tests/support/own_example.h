#pragma once

#include "core/catalogue/own.h"

/// What an invented clinic adds to the catalogue that comes with the program.
namespace own_example
{

using namespace Qt::StringLiterals;

/// How far a seated person reaches forward, in centimetres.
inline catalogue::Measure seatedReach()
{
    catalogue::Measure measure;
    measure.id = u"own-seated-reach"_s;
    measure.title = u"Seated reach"_s;
    measure.section = u"balance"_s;
    measure.kind = catalogue::Kind::Distance;
    measure.unit = values::Unit::Centimetre;
    measure.better = catalogue::Direction::HigherIsBetter;
    measure.lowest = 0;
    measure.highest = 100;
    measure.step = 0.5;
    measure.trials = 3;
    measure.rule = catalogue::TrialRule::Mean;
    measure.purpose = u"How far a person dares to lean while sitting."_s;
    measure.how = u"The arm is lifted to the height of the shoulder and reaches forward along a rule."_s;
    measure.position = u"Seated without back rest, feet on the floor."_s;
    measure.unableMeans = u"Cannot lift the arm or sit alone."_s;
    measure.caution = u"Stand in front of the person."_s;
    measure.conditions = {{u"footwear"_s, catalogue::Strictness::Soft, {}},
                          {u"medication"_s, catalogue::Strictness::Hard, u"parkinson"_s}};
    measure.isOwn = true;
    return measure;
}

inline catalogue::Threshold reachThreshold()
{
    catalogue::Threshold row;
    row.id = u"own-seated-reach-stroke"_s;
    row.measure = u"own-seated-reach"_s;
    row.population = u"stroke"_s;
    row.populationWords = u"people with stroke on our ward"_s;
    row.improvement = 4.5;
    row.decline = 5;
    row.confidence = 0.95;
    row.basis = catalogue::Basis::Stated;
    row.n = 22;
    row.interval = u"7 days"_s;
    row.repeats = catalogue::Repeats::BetweenDays;
    row.daysLow = 7;
    row.daysHigh = 7;
    row.source = u"own-audit"_s;
    row.isOwn = true;
    return row;
}

inline catalogue::Form shortForm()
{
    return {u"own-short"_s,
            u"Ward round"_s,
            {{u"Sitting"_s, {u"own-seated-reach"_s}}, {u"Hands"_s, {u"toe-tapping"_s, u"finger-nose"_s}}},
            {u"own-seated-reach"_s, u"toe-tapping"_s},
            true};
}

inline catalogue::Own own()
{
    return {{{u"own-audit"_s, u"Invented ward audit 2025, unpublished report"_s, {}, u"Ward audit 2025"_s}},
            {seatedReach()},
            {reachThreshold()},
            {shortForm()}};
}

} // namespace own_example
