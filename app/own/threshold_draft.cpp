#include "app/own/threshold_draft.h"

#include "app/own/threshold_check.h"
#include "app/own/typed.h"
#include "core/catalogue/words.h"

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Threshold;

namespace
{

std::optional<double> percent(std::optional<double> share)
{
    return share ? std::optional(*share * 100) : std::nullopt;
}

ThresholdDraft filled(const Threshold& row, const catalogue::Source& source)
{
    const auto positive = [](double number) { return number > 0 ? asTyped(number) : QString(); };
    ThresholdDraft draft{row, source, true, {}};
    draft.typed = {
        {ThresholdField::Measure, row.measure},
        {ThresholdField::Answers, word(row.answers)},
        {ThresholdField::Scale, word(row.scale)},
        {ThresholdField::Improvement, positive(row.improvement)},
        {ThresholdField::Decline, row.decline == row.improvement ? QString() : positive(row.decline)},
        {ThresholdField::Basis, word(row.basis.value_or(catalogue::Basis::Stated))},
        {ThresholdField::Confidence, asTyped(percent(row.confidence))},
        {ThresholdField::BandOf, row.bandOf},
        {ThresholdField::BandLow, asTyped(row.bandLow)},
        {ThresholdField::BandHigh, asTyped(row.bandHigh)},
        {ThresholdField::BandHighIncluded, row.bandHighIncluded ? u"yes"_s : u"no"_s},
        {ThresholdField::Population, row.population},
        {ThresholdField::PopulationWords, row.populationWords},
        {ThresholdField::N, row.n ? QString::number(*row.n) : QString()},
        {ThresholdField::Design, word(row.design)},
        {ThresholdField::Interval, row.interval},
        {ThresholdField::DaysLow, asTyped(row.daysLow)},
        {ThresholdField::DaysHigh, asTyped(row.daysHigh)},
        {ThresholdField::Repeats, word(row.repeats)},
        {ThresholdField::Reference, source.reference},
        {ThresholdField::Doi, source.doi},
        {ThresholdField::ShortForm, source.shortForm},
        {ThresholdField::Checked, word(row.checked)},
        {ThresholdField::Note, row.note},
    };
    return draft;
}

} // namespace

ThresholdDraft newThreshold(const QString& measure)
{
    Threshold row;
    row.measure = measure;
    row.confidence = 0.95;
    row.isOwn = true;
    return filled(row, {});
}

ThresholdDraft newThreshold(const Threshold& row, const catalogue::Source& source)
{
    return filled(row, source);
}

ThresholdDraft draftOf(const Threshold& row, const catalogue::Catalogue& catalogue)
{
    const catalogue::Source* source = catalogue.source(row.source);
    ThresholdDraft draft = filled(row, source == nullptr ? catalogue::Source() : *source);
    draft.isNew = false;
    return draft;
}

bool ThresholdDraft::isChanged() const
{
    return typed != filled(original, source).typed;
}

bool matters(ThresholdField field, const ThresholdDraft& draft)
{
    const bool isError = draft.typed.at(ThresholdField::Answers) == u"error";
    const bool hasBand = !draft.typed.at(ThresholdField::BandOf).isEmpty();
    if (field == ThresholdField::Basis)
        return isError;
    if (field == ThresholdField::Confidence)
        return isError && draft.typed.at(ThresholdField::Basis) != u"empirical";
    if (field == ThresholdField::Repeats)
        return draft.typed.at(ThresholdField::DaysLow).isEmpty() &&
               draft.typed.at(ThresholdField::DaysHigh).isEmpty();
    if (field == ThresholdField::BandLow || field == ThresholdField::BandHigh)
        return hasBand;
    if (field == ThresholdField::BandHighIncluded)
        return hasBand && !draft.typed.at(ThresholdField::BandHigh).isEmpty();
    return true;
}

bool hasDifferences(const catalogue::Measure& measure)
{
    return catalogue::isNumeric(measure.kind) && measure.lowest && measure.highest;
}

CheckedThreshold checked(const ThresholdDraft& draft, const catalogue::Catalogue& catalogue,
                         const catalogue::Own& own)
{
    return ThresholdCheck(draft, catalogue, own).result();
}

} // namespace own
