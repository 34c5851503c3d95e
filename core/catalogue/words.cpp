#include "core/catalogue/words.h"

#include "core/catalogue/evidence.h"
#include "core/catalogue/measure.h"

using namespace Qt::StringLiterals;

namespace catalogue
{

template <>
const Words<Kind>& words()
{
    static const Words<Kind> all = {{u"grade"_s, Kind::Grade},       {u"choice"_s, Kind::Choice},
                                    {u"count"_s, Kind::Count},       {u"duration"_s, Kind::Duration},
                                    {u"distance"_s, Kind::Distance}, {u"speed"_s, Kind::Speed},
                                    {u"rate"_s, Kind::Rate},         {u"score"_s, Kind::Score}};
    return all;
}

template <>
const Words<Direction>& words()
{
    static const Words<Direction> all = {{u"higher"_s, Direction::HigherIsBetter},
                                         {u"lower"_s, Direction::LowerIsBetter},
                                         {u"neither"_s, Direction::Neither}};
    return all;
}

template <>
const Words<TrialRule>& words()
{
    static const Words<TrialRule> all = {
        {u"single"_s, TrialRule::Single}, {u"mean"_s, TrialRule::Mean}, {u"best"_s, TrialRule::Best}};
    return all;
}

template <>
const Words<Computing>& words()
{
    static const Words<Computing> all = {
        {u"speed"_s, Computing::Speed},
        {u"cadence"_s, Computing::Cadence},
        {u"step-length"_s, Computing::StepLength},
        {u"sum-of-items"_s, Computing::SumOfItems},
        {u"short-battery"_s, Computing::ShortBattery},
        {u"dual-task-cost"_s, Computing::DualTaskCost},
    };
    return all;
}

template <>
const Words<Strictness>& words()
{
    static const Words<Strictness> all = {{u"hard"_s, Strictness::Hard},
                                          {u"ifRecorded"_s, Strictness::IfRecorded},
                                          {u"ifEither"_s, Strictness::IfEither},
                                          {u"soft"_s, Strictness::Soft}};
    return all;
}

template <>
const Words<Answers>& words()
{
    static const Words<Answers> all = {{u"error"_s, Answers::Error}, {u"important"_s, Answers::Important}};
    return all;
}

template <>
const Words<Scale>& words()
{
    static const Words<Scale> all = {{u"absolute"_s, Scale::Absolute},
                                     {u"percent-of-reference"_s, Scale::PercentOfReference},
                                     {u"proportional-to-mean"_s, Scale::ProportionalToMean},
                                     {u"log"_s, Scale::Log}};
    return all;
}

template <>
const Words<Design>& words()
{
    static const Words<Design> all = {{u"test-retest"_s, Design::TestRetest},
                                      {u"between-raters"_s, Design::BetweenRaters},
                                      {u"internal-consistency"_s, Design::InternalConsistency}};
    return all;
}

template <>
const Words<Repeats>& words()
{
    static const Words<Repeats> all = {{u"within-day"_s, Repeats::WithinDay},
                                       {u"between-days"_s, Repeats::BetweenDays}};
    return all;
}

template <>
const Words<Basis>& words()
{
    static const Words<Basis> all = {{u"stated"_s, Basis::Stated},
                                     {u"inferred"_s, Basis::Inferred},
                                     {u"assumed"_s, Basis::Assumed},
                                     {u"empirical"_s, Basis::Empirical}};
    return all;
}

template <>
const Words<Checked>& words()
{
    static const Words<Checked> all = {{u"read"_s, Checked::Read}, {u"memory"_s, Checked::Memory}};
    return all;
}

} // namespace catalogue
