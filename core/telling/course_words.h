#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/change.h"
#include "core/judging/composite.h"
#include "core/judging/course.h"
#include "core/judging/events.h"

namespace telling
{

/// "seen once, …", "confirmed: there since 03-Mar-2026, at least 84 days", "sustained decline: the trend of 7
/// comparable visits, there since 13-May-2026": how often a comparison of the change was seen. Against the
/// first of the run a trend and a reversal that say otherwise are told too, the worse first, and then a trend
/// that fell. Empty
/// where there is none of it.
QString strengthWords(const judging::Comparison& comparison, const judging::Change& change,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// How often the rule that raised a flag flags people who are truly stable. `judging` as the clinic judges
/// courses.
QString raisedWords(const judging::Raised& raised, const records::Judging& judging,
                    const base::Phrasebook& phrases);

/// How many stable people would have at least one flag in a plan among the courses of a patient that are
/// looked at anew at every visit. Empty for fewer than two.
QString familyWords(int courses, const records::Judging& judging, const base::Phrasebook& phrases);

/// Whether a slope is printed and drawn: its interval is bounded, and in a year it does not run past the
/// whole range of the measure.
bool isTold(const statistics::Slope& slope, const catalogue::Measure& measure);

/// The difference in standard errors, and with what probability it is real and important. No certainty is
/// claimed: at most "more than 99.9 %". Empty without a difference or a standard error.
QString weightWords(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases);

/// What the run says as a whole, a line each: the look against its bound; the error it is judged by; the
/// slope that is judged; the robust one beside it with its test. For grades the direction of agreement alone.
/// Empty without a trend.
QStringList trendWords(const judging::Course& course, const std::optional<statistics::Slope>& robust,
                       const catalogue::Measure& measure, const base::Phrasebook& phrases);

/// "Became unable on 13-May-2026, right".
QString eventWords(const judging::Event& event, const base::Phrasebook& phrases);

/// One component of the composite confirmed worsening, with the rule and its source.
QString compositeWords(const judging::CompositeWorsening& worsening, const catalogue::Catalogue& catalogue,
                       const base::Phrasebook& phrases);

} // namespace telling
