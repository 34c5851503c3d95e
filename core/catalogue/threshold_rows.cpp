#include "core/catalogue/entries.h"

namespace catalogue
{

namespace
{

void requireKnown(Fields& fields, const QString& key, bool isKnown, const QString& id)
{
    if (!isKnown && !id.isEmpty())
        fields.refuse(base::said("“%1”: unknown id “%2”").arg(key, id));
}

double positive(Fields& fields, const QString& key)
{
    const double number = fields.number(key);
    if (number <= 0)
        fields.refuse(base::said("“%1” is not above 0").arg(key));
    return number;
}

/// A number from `lowest` to `highest`, both allowed.
std::optional<double> within(Fields& fields, const QString& key, double lowest, double highest)
{
    const auto number = fields.optionalNumber(key);
    if (number && (*number < lowest || *number > highest))
        fields.refuse(base::said("“%1” is not between %2 and %3").arg(key).arg(lowest).arg(highest));
    return number;
}

void readBand(Threshold& row, Fields& fields, const Catalogue& soFar)
{
    row.bandOf = fields.optionalText(QStringLiteral("bandOf"));
    row.bandLow = fields.optionalNumber(QStringLiteral("bandLow"));
    row.bandHigh = fields.optionalNumber(QStringLiteral("bandHigh"));
    row.bandHighIncluded =
        fields.oneOf<bool>(QStringLiteral("bandHighIncluded"),
                           {{QStringLiteral("yes"), true}, {QStringLiteral("no"), false}}, false);
    requireKnown(fields, QStringLiteral("bandOf"), soFar.measure(row.bandOf) != nullptr, row.bandOf);
    if (row.bandOf.isEmpty() == (row.bandLow || row.bandHigh))
        fields.refuse(base::said("“bandOf” and the ends of the band do not fit each other"));
    if (row.bandLow && row.bandHigh && *row.bandLow >= *row.bandHigh)
        fields.refuse(base::said("“bandLow” is not below “bandHigh”"));
    if (row.bandHighIncluded && !row.bandHigh)
        fields.refuse(base::said("“bandHighIncluded” is given without “bandHigh”"));
}

void readConfidence(Threshold& row, Fields& fields)
{
    row.confidence = within(fields, QStringLiteral("confidence"), 0.5, 0.999);
    if (fields.has(QStringLiteral("confidenceBasis")))
        row.basis = fields.oneOf<Basis>(QStringLiteral("confidenceBasis"));
    if (row.answers == Answers::Important) {
        if (row.confidence || row.basis)
            fields.refuse(base::said("an important change has no “confidence”"));
    } else if (!row.basis || row.confidence.has_value() == (row.basis == Basis::Empirical)) {
        fields.refuse(
            base::said("“confidenceBasis” must be stated, inferred or assumed beside a “confidence”, "
                       "and empirical without one"));
    }
}

/// The interval as a type, in days and in words: the words alone would decide nothing.
void readInterval(Threshold& row, Fields& fields)
{
    row.interval = fields.optionalText(QStringLiteral("interval"));
    row.daysLow = within(fields, QStringLiteral("daysLow"), 0, 3650);
    row.daysHigh = within(fields, QStringLiteral("daysHigh"), 0, 3650);
    if (row.daysLow.has_value() != row.daysHigh.has_value() || (row.daysLow && *row.daysLow > *row.daysHigh))
        fields.refuse(base::said("“daysLow” and “daysHigh” do not fit each other"));
    row.repeats = fields.oneOf<Repeats>(QStringLiteral("repeats"), words<Repeats>(), repeatsOf(row.daysHigh));
    if (row.daysHigh && row.repeats != repeatsOf(row.daysHigh))
        fields.refuse(base::said("“repeats” and “daysHigh” do not fit each other"));
}

/// Clinics' own rows had the trials in words once.
void formerTrialRule(Threshold& row, Fields& fields)
{
    const QString words = fields.optionalText(QStringLiteral("trialRule"));
    if (!words.isEmpty())
        row.protocol = row.protocol.isEmpty() ? words : row.protocol + QStringLiteral("; ") + words;
}

void readTrials(Threshold& row, Fields& fields)
{
    if (fields.has(QStringLiteral("rule")))
        row.rule = fields.oneOf<TrialRule>(QStringLiteral("rule"));
    row.trials = fields.optionalCount(QStringLiteral("trials"));
    formerTrialRule(row, fields);
    const bool isSingle = row.rule == TrialRule::Single;
    if (row.trials && (!row.rule || (*row.trials == 1) != isSingle))
        fields.refuse(base::said("“rule” and “trials” do not fit each other"));
}

} // namespace

QStringList thresholdColumns()
{
    return QStringLiteral(
               "id,measure,population,populationWords,answers,scale,improvement,decline,confidence,"
               "confidenceBasis,bandOf,bandLow,bandHigh,bandHighIncluded,sem,icc,n,repeats,interval,daysLow,"
               "daysHigh,rule,trials,protocol,design,hand,condition,source,checked,note")
        .split(QLatin1Char(','));
}

QStringList thresholdNumberColumns()
{
    return QStringLiteral("improvement,decline,confidence,bandLow,bandHigh,sem,icc,n,daysLow,daysHigh,trials")
        .split(QLatin1Char(','));
}

Threshold thresholdFrom(Fields& fields, const Catalogue& soFar)
{
    Threshold row;
    row.id = fields.text(QStringLiteral("id"));
    row.measure = fields.text(QStringLiteral("measure"));
    requireKnown(fields, QStringLiteral("measure"), soFar.measure(row.measure) != nullptr, row.measure);
    row.population = fields.text(QStringLiteral("population"));
    requireKnown(fields, QStringLiteral("population"), soFar.population(row.population) != nullptr,
                 row.population);
    row.populationWords = fields.text(QStringLiteral("populationWords"));
    row.answers = fields.oneOf<Answers>(QStringLiteral("answers"));
    row.scale = fields.oneOf<Scale>(QStringLiteral("scale"));
    row.improvement = positive(fields, QStringLiteral("improvement"));
    row.decline = positive(fields, QStringLiteral("decline"));
    readConfidence(row, fields);
    readBand(row, fields, soFar);
    row.sem = within(fields, QStringLiteral("sem"), 1e-6, 1e6);
    row.icc = within(fields, QStringLiteral("icc"), 0, 1);
    row.n = fields.optionalCount(QStringLiteral("n"));
    readInterval(row, fields);
    row.protocol = fields.optionalText(QStringLiteral("protocol"));
    readTrials(row, fields);
    row.design = fields.oneOf<Design>(QStringLiteral("design"));
    row.hand = fields.oneOf<QString>(QStringLiteral("hand"),
                                     {{QStringLiteral("dominant"), QStringLiteral("dominant")},
                                      {QStringLiteral("non-dominant"), QStringLiteral("non-dominant")}},
                                     {});
    row.condition = requirementFrom(fields, soFar);
    row.source = fields.text(QStringLiteral("source"));
    requireKnown(fields, QStringLiteral("source"), soFar.source(row.source) != nullptr, row.source);
    row.checked = fields.oneOf<Checked>(QStringLiteral("checked"));
    row.note = fields.optionalText(QStringLiteral("note"));
    return row;
}

} // namespace catalogue
