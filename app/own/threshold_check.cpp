#include "app/own/threshold_check.h"

#include "app/own/own_id.h"
#include "app/own/typed.h"
#include "core/base/text.h"
#include "core/catalogue/words.h"
#include "core/values/quantity.h"

#include <QRegularExpression>

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Answers;
using catalogue::meaningOf;
using catalogue::Scale;
using catalogue::Source;
using catalogue::Threshold;

namespace
{

/// The DOI alone, where a whole address was pasted.
QString bareDoi(QString typed)
{
    static const QRegularExpression before(u"^(https?://(dx\\.)?doi\\.org/|doi:\\s*)"_s,
                                           QRegularExpression::CaseInsensitiveOption);
    return typed.remove(before);
}

/// DOI Handbook, section 2.2: "10.", a registrant's number, a slash and the rest.
bool isDoi(const QString& typed)
{
    static const QRegularExpression form(u"^10\\.[0-9]{4,9}(\\.[0-9]+)*/\\S+$"_s);
    return form.match(typed).hasMatch();
}

/// What the audit asks of a reference without a DOI.
bool isFindable(const QString& reference)
{
    static const QRegularExpression mark(u"\\b(1[89]|20)[0-9]{2}\\b|PMID [0-9]+"_s);
    return reference.contains(mark);
}

bool isSame(const Source& a, const Source& b)
{
    return a.reference == b.reference && a.doi == b.doi && a.shortForm == b.shortForm;
}

} // namespace

ThresholdCheck::ThresholdCheck(const ThresholdDraft& draft, const catalogue::Catalogue& catalogue,
                               const catalogue::Own& own)
    : FieldCheck(draft.typed, [&draft](ThresholdField field) { return matters(field, draft); }),
      m_draft(draft),
      m_catalogue(catalogue),
      m_own(own),
      m_result{draft.original, draft.source, {}}
{
}

CheckedThreshold ThresholdCheck::result()
{
    takeChange();
    takeConfidence();
    takeBand();
    takePeople();
    takeInterval();
    takeSource();
    Threshold& row = m_result.row;
    row.isOwn = true;
    row.note = words(ThresholdField::Note);
    if (m_draft.isNew)
        row.id = ownId(row.measure + u' ' + m_result.source.shortForm, m_catalogue.thresholds);
    m_result.wrong = m_wrong;
    return m_result;
}

std::optional<double> ThresholdCheck::number(ThresholdField field)
{
    const QString typed = words(field);
    const auto read = numberTyped(typed);
    if (!read && !typed.isEmpty())
        refuse(field, tr("Type a number alone, such as 4 or 2.5."));
    return read;
}

void ThresholdCheck::takeChange()
{
    Threshold& row = m_result.row;
    row.measure = needed(ThresholdField::Measure, tr("Choose the test."));
    row.answers = meaningOf<Answers>(words(ThresholdField::Answers)).value_or(Answers::Important);
    row.scale = meaningOf<Scale>(words(ThresholdField::Scale)).value_or(Scale::Absolute);
    const auto improvement = number(ThresholdField::Improvement);
    const auto decline = number(ThresholdField::Decline);
    row.improvement = improvement.value_or(0);
    row.decline = decline.value_or(row.improvement);
    if (row.improvement <= 0)
        refuse(ThresholdField::Improvement, tr("Type a number above 0."));
    if (decline && *decline <= 0)
        refuse(ThresholdField::Decline, tr("Type a number above 0, or nothing where it is the same."));
    const catalogue::Measure* measure = m_catalogue.measure(row.measure);
    if (measure == nullptr)
        return;
    if (hasDifferences(*measure))
        takeSize(*measure);
    else
        refuse(ThresholdField::Measure, tr("This test has no differences, so it can have no threshold."));
}

/// No change of the measure could ever be beyond a threshold wider than its scale.
void ThresholdCheck::takeSize(const catalogue::Measure& measure)
{
    double widest = HUGE_VAL;
    if (m_result.row.scale == Scale::Absolute)
        widest = *measure.highest - *measure.lowest;
    else if (m_result.row.scale == Scale::PercentOfReference)
        widest = 100;
    else if (m_result.row.scale == Scale::ProportionalToMean)
        widest = 2;
    else if (*measure.lowest > 0)
        widest = std::log(*measure.highest / *measure.lowest);
    for (const auto& [field, size] : {std::pair(ThresholdField::Improvement, m_result.row.improvement),
                                      std::pair(ThresholdField::Decline, m_result.row.decline)}) {
        if (values::exceeds(size, widest))
            refuse(field, tr("This is wider than the scale, whose widest change is %1.").arg(widest));
    }
}

void ThresholdCheck::takeConfidence()
{
    Threshold& row = m_result.row;
    row.confidence.reset();
    row.basis = meaningOf<catalogue::Basis>(words(ThresholdField::Basis));
    if (!matters(ThresholdField::Confidence, m_draft))
        return;
    const auto percent = number(ThresholdField::Confidence);
    if (!percent || *percent < 50 || *percent > 99.9)
        refuse(ThresholdField::Confidence, tr("Type the level in percent, from 50 to 99.9, such as 95."));
    else
        row.confidence = *percent / 100;
}

void ThresholdCheck::takeBand()
{
    Threshold& row = m_result.row;
    row.bandOf = words(ThresholdField::BandOf);
    row.bandLow = number(ThresholdField::BandLow);
    row.bandHigh = number(ThresholdField::BandHigh);
    row.bandHighIncluded = row.bandHigh && words(ThresholdField::BandHighIncluded) == u"yes";
    const catalogue::Measure* measure = m_catalogue.measure(row.bandOf);
    if (row.bandOf.isEmpty())
        return;
    if (measure == nullptr)
        refuse(ThresholdField::BandOf, tr("Choose the test whose level the band is of."));
    if (!row.bandLow && !row.bandHigh)
        refuse(ThresholdField::BandLow, tr("Type at least one end of the band."));
    if (row.bandLow && row.bandHigh && *row.bandLow >= *row.bandHigh)
        refuse(ThresholdField::BandHigh, tr("The upper end must lie above the lower end."));
    for (const auto& [field, end] : {std::pair(ThresholdField::BandLow, row.bandLow),
                                     std::pair(ThresholdField::BandHigh, row.bandHigh)}) {
        const bool isOutside = end && measure != nullptr && measure->lowest && measure->highest &&
                               (*end < *measure->lowest || *end > *measure->highest);
        if (isOutside)
            refuse(field, tr("The test goes from %1 to %2.").arg(*measure->lowest).arg(*measure->highest));
    }
}

void ThresholdCheck::takePeople()
{
    Threshold& row = m_result.row;
    row.population = needed(ThresholdField::Population, tr("Choose the population it was measured in."));
    row.populationWords = needed(ThresholdField::PopulationWords,
                                 tr("Say who these people were, as the source describes them."));
    const auto n = number(ThresholdField::N);
    row.n.reset();
    const bool isNeeded = row.answers == Answers::Error && row.basis != catalogue::Basis::Empirical;
    if (n && (std::trunc(*n) != *n || *n < 1 || *n > 1e6))
        refuse(ThresholdField::N, tr("Type how many people, as a whole number of at least 1."));
    else if (n)
        row.n = int(*n);
    else if (isNeeded)
        refuse(ThresholdField::N, tr("Say in how many people it was measured."));
}

void ThresholdCheck::takeInterval()
{
    Threshold& row = m_result.row;
    row.design =
        meaningOf<catalogue::Design>(words(ThresholdField::Design)).value_or(catalogue::Design::TestRetest);
    row.interval = words(ThresholdField::Interval);
    row.daysLow = number(ThresholdField::DaysLow);
    row.daysHigh = number(ThresholdField::DaysHigh);
    if (row.daysLow && words(ThresholdField::DaysHigh).isEmpty())
        row.daysHigh = row.daysLow;
    row.repeats = meaningOf<catalogue::Repeats>(words(ThresholdField::Repeats))
                      .value_or(catalogue::repeatsOf(row.daysHigh));
    for (const auto& [field, days] : {std::pair(ThresholdField::DaysLow, row.daysLow),
                                      std::pair(ThresholdField::DaysHigh, row.daysHigh)}) {
        if (days && (*days < 0 || *days > 3650))
            refuse(field, tr("Type days from 0 (within a session) to 3650."));
    }
    if (!row.daysLow && row.daysHigh)
        refuse(ThresholdField::DaysLow, tr("Type the shortest interval too."));
    if (row.daysLow && row.daysHigh && *row.daysLow > *row.daysHigh)
        refuse(ThresholdField::DaysHigh, tr("The longest interval lies below the shortest."));
}

void ThresholdCheck::takeSource()
{
    Source& source = m_result.source;
    source.reference =
        needed(ThresholdField::Reference, tr("Give the source: authors, title or journal, and year."));
    source.doi = bareDoi(words(ThresholdField::Doi));
    source.shortForm = needed(ThresholdField::ShortForm, tr("Give the short form, such as author and year."));
    if (!source.doi.isEmpty() && !isDoi(source.doi))
        refuse(ThresholdField::Doi,
               tr("A DOI is written as 10.1000/xyz; leave it empty where there is none."));
    else if (source.doi.isEmpty() && !source.reference.isEmpty() && !isFindable(source.reference))
        refuse(ThresholdField::Reference,
               tr("Without a DOI the source needs its year, or its number as PMID 12345."));
    m_result.row.checked =
        meaningOf<catalogue::Checked>(words(ThresholdField::Checked)).value_or(catalogue::Checked::Memory);
    nameSource();
    m_result.row.source = source.id;
}

/// The same source keeps its id; one that only this row names is changed in place; else a new one is made.
void ThresholdCheck::nameSource()
{
    Source& source = m_result.source;
    const auto known =
        std::ranges::find_if(m_catalogue.sources, [&](const Source& other) { return isSame(other, source); });
    const auto isOwn =
        std::ranges::find(m_own.sources, m_draft.source.id, &Source::id) != m_own.sources.end();
    const auto uses = std::ranges::count(m_own.thresholds, m_draft.source.id, &Threshold::source);
    if (known != m_catalogue.sources.end()) {
        source.id = known->id;
    } else if (!isOwn || uses > 1) {
        source.id = ownId(source.shortForm, m_catalogue.sources);
    }
}

} // namespace own
