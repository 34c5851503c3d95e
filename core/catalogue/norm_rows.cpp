#include "core/catalogue/entries.h"
#include "core/values/quantity.h"

namespace catalogue
{

namespace
{

const QStringList& whomColumns()
{
    static const QStringList columns = {QStringLiteral("population"), QStringLiteral("populationWords"),
                                        QStringLiteral("sex"),        QStringLiteral("ageLow"),
                                        QStringLiteral("ageHigh"),    QStringLiteral("side"),
                                        QStringLiteral("condition"),  QStringLiteral("protocol")};
    return columns;
}

const QStringList& originColumns()
{
    static const QStringList columns = {QStringLiteral("n"), QStringLiteral("nOf"), QStringLiteral("source"),
                                        QStringLiteral("checked"), QStringLiteral("note")};
    return columns;
}

QStringList numberColumns(const QStringList& own)
{
    return own + QStringList{QStringLiteral("ageLow"), QStringLiteral("ageHigh"), QStringLiteral("n")};
}

QString numbersOf(Fields& fields, const Catalogue& soFar)
{
    const QString id = fields.text(QStringLiteral("measure"));
    const Measure* measure = soFar.measure(id);
    if (measure == nullptr)
        fields.refuse(base::said("“measure”: unknown id “%1”").arg(id));
    else if (!isNumeric(measure->kind))
        fields.refuse(base::said("“measure”: “%1” has no numbers").arg(id));
    return id;
}

Whom whomFrom(Fields& fields, const Catalogue& soFar)
{
    Whom whom;
    whom.population = fields.optionalText(QStringLiteral("population"));
    if (!whom.population.isEmpty() && soFar.population(whom.population) == nullptr)
        fields.refuse(base::said("“population”: unknown id “%1”").arg(whom.population));
    whom.populationWords = fields.text(QStringLiteral("populationWords"));
    whom.sex = fields.oneOf<NormSex>(
        QStringLiteral("sex"),
        {{QStringLiteral("female"), NormSex::Female}, {QStringLiteral("male"), NormSex::Male}}, NormSex::Any);
    whom.ageLow = fields.optionalCount(QStringLiteral("ageLow"));
    whom.ageHigh = fields.optionalCount(QStringLiteral("ageHigh"));
    if (whom.ageLow && whom.ageHigh && *whom.ageLow > *whom.ageHigh)
        fields.refuse(base::said("“ageLow” lies above “ageHigh”"));
    whom.side = fields.oneOf<QString>(QStringLiteral("side"),
                                      {{QStringLiteral("right"), QStringLiteral("right")},
                                       {QStringLiteral("left"), QStringLiteral("left")},
                                       {QStringLiteral("dominant"), QStringLiteral("dominant")},
                                       {QStringLiteral("non-dominant"), QStringLiteral("non-dominant")}},
                                      {});
    whom.condition = requirementFrom(fields, soFar);
    whom.protocol = fields.optionalText(QStringLiteral("protocol"));
    return whom;
}

Origin originFrom(Fields& fields, const Catalogue& soFar)
{
    Origin origin;
    origin.n = fields.optionalCount(QStringLiteral("n"));
    if (origin.n)
        origin.isOfStudy = fields.oneOf<bool>(
            QStringLiteral("nOf"), {{QStringLiteral("group"), false}, {QStringLiteral("study"), true}});
    else if (fields.has(QStringLiteral("nOf")))
        fields.refuse(base::said("“nOf” is given without “n”"));
    origin.source = fields.text(QStringLiteral("source"));
    if (soFar.source(origin.source) == nullptr)
        fields.refuse(base::said("“source”: unknown id “%1”").arg(origin.source));
    origin.checked = fields.oneOf<Checked>(QStringLiteral("checked"));
    origin.note = fields.optionalText(QStringLiteral("note"));
    return origin;
}

bool isIncluded(Fields& fields, const QString& key, bool isUsual)
{
    return fields.oneOf<bool>(key, {{QStringLiteral("yes"), true}, {QStringLiteral("no"), false}}, isUsual);
}

std::optional<double> share(Fields& fields, const QString& key)
{
    const auto number = fields.optionalNumber(key);
    if (number && (*number < 0 || *number > 1))
        fields.refuse(base::said("“%1” is not between 0 and 1").arg(key));
    return number;
}

void refuseTurned(Fields& fields, const QString& what, std::optional<double> low, std::optional<double> high)
{
    if (low && high && *low >= *high)
        fields.refuse(base::said("the lower end of the %1 is not below the upper").arg(what));
}

void checkNorm(const Norm& row, Fields& fields)
{
    if (row.sd && (!row.mean || *row.sd <= 0))
        fields.refuse(base::said("“sd” stands without a mean or is not above 0"));
    if (row.meanLow.has_value() != row.meanHigh.has_value() || (row.meanLow && !row.mean))
        fields.refuse(base::said("“mean”, “meanLow” and “meanHigh” do not fit each other"));
    if (!row.mean && !row.rangeLow && !row.rangeHigh)
        fields.refuse(base::said("there is neither a mean nor a range"));
    if ((row.rangeLow || row.rangeHigh) == row.rangeWords.isEmpty())
        fields.refuse(base::said("“rangeWords” and the range do not fit each other"));
    refuseTurned(fields, QStringLiteral("mean's interval"), row.meanLow, row.meanHigh);
    refuseTurned(fields, QStringLiteral("range"), row.rangeLow, row.rangeHigh);
}

} // namespace

bool Band::contains(double number) const
{
    const bool isAbove =
        !low || values::exceeds(number, *low) || (lowIncluded && !values::exceeds(*low, number));
    const bool isBelow =
        !high || values::exceeds(*high, number) || (highIncluded && !values::exceeds(number, *high));
    return isAbove && isBelow;
}

QStringList normColumns()
{
    return QStringList{QStringLiteral("id"), QStringLiteral("measure")} + whomColumns() +
           QStringList{QStringLiteral("rule"),      QStringLiteral("mean"),      QStringLiteral("sd"),
                       QStringLiteral("meanLow"),   QStringLiteral("meanHigh"),  QStringLiteral("rangeLow"),
                       QStringLiteral("rangeHigh"), QStringLiteral("rangeWords")} +
           originColumns();
}

QStringList normNumberColumns()
{
    return numberColumns({QStringLiteral("mean"), QStringLiteral("sd"), QStringLiteral("meanLow"),
                          QStringLiteral("meanHigh"), QStringLiteral("rangeLow"),
                          QStringLiteral("rangeHigh")});
}

QStringList equationColumns()
{
    return QStringList{QStringLiteral("id"), QStringLiteral("measure")} + whomColumns() +
           QStringList{QStringLiteral("intercept"),       QStringLiteral("perYear"),
                       QStringLiteral("perCm"),           QStringLiteral("perKg"),
                       QStringLiteral("lowerLimitBelow"), QStringLiteral("lowerLimitChecked")} +
           originColumns();
}

QStringList equationNumberColumns()
{
    return numberColumns({QStringLiteral("intercept"), QStringLiteral("perYear"), QStringLiteral("perCm"),
                          QStringLiteral("perKg"), QStringLiteral("lowerLimitBelow")});
}

QStringList bandColumns()
{
    return QStringList{QStringLiteral("id"), QStringLiteral("measure"), QStringLiteral("series"),
                       QStringLiteral("kind")} +
           whomColumns() + QStringList{QStringLiteral("low"),        QStringLiteral("lowIncluded"),
                                       QStringLiteral("high"),       QStringLiteral("highIncluded"),
                                       QStringLiteral("words"),      QStringLiteral("sensitivity"),
                                       QStringLiteral("specificity")} +
           originColumns();
}

QStringList bandNumberColumns()
{
    return numberColumns({QStringLiteral("low"), QStringLiteral("high"), QStringLiteral("sensitivity"),
                          QStringLiteral("specificity")});
}

Norm normFrom(Fields& fields, const Catalogue& soFar)
{
    Norm row;
    row.id = fields.text(QStringLiteral("id"));
    row.measure = numbersOf(fields, soFar);
    row.whom = whomFrom(fields, soFar);
    if (fields.has(QStringLiteral("rule")))
        row.rule = fields.oneOf<TrialRule>(QStringLiteral("rule"));
    row.mean = fields.optionalNumber(QStringLiteral("mean"));
    row.sd = fields.optionalNumber(QStringLiteral("sd"));
    row.meanLow = fields.optionalNumber(QStringLiteral("meanLow"));
    row.meanHigh = fields.optionalNumber(QStringLiteral("meanHigh"));
    row.rangeLow = fields.optionalNumber(QStringLiteral("rangeLow"));
    row.rangeHigh = fields.optionalNumber(QStringLiteral("rangeHigh"));
    row.rangeWords = fields.optionalText(QStringLiteral("rangeWords"));
    row.origin = originFrom(fields, soFar);
    checkNorm(row, fields);
    return row;
}

Equation equationFrom(Fields& fields, const Catalogue& soFar)
{
    Equation row;
    row.id = fields.text(QStringLiteral("id"));
    row.measure = numbersOf(fields, soFar);
    row.whom = whomFrom(fields, soFar);
    row.intercept = fields.number(QStringLiteral("intercept"));
    row.perYear = fields.optionalNumber(QStringLiteral("perYear")).value_or(0);
    row.perCm = fields.optionalNumber(QStringLiteral("perCm")).value_or(0);
    row.perKg = fields.optionalNumber(QStringLiteral("perKg")).value_or(0);
    row.lowerLimitBelow = fields.optionalNumber(QStringLiteral("lowerLimitBelow"));
    if (row.lowerLimitBelow && *row.lowerLimitBelow <= 0)
        fields.refuse(base::said("“lowerLimitBelow” is not above 0"));
    if (row.lowerLimitBelow)
        row.lowerLimitChecked = fields.oneOf<Checked>(QStringLiteral("lowerLimitChecked"));
    row.origin = originFrom(fields, soFar);
    return row;
}

Band bandFrom(Fields& fields, const Catalogue& soFar)
{
    Band row;
    row.id = fields.text(QStringLiteral("id"));
    row.measure = numbersOf(fields, soFar);
    row.series = fields.text(QStringLiteral("series"));
    row.kind = fields.oneOf<BandKind>(QStringLiteral("kind"), {{QStringLiteral("level"), BandKind::Level},
                                                               {QStringLiteral("risk"), BandKind::Risk}});
    row.whom = whomFrom(fields, soFar);
    row.low = fields.optionalNumber(QStringLiteral("low"));
    row.lowIncluded = isIncluded(fields, QStringLiteral("lowIncluded"), true);
    row.high = fields.optionalNumber(QStringLiteral("high"));
    row.highIncluded = isIncluded(fields, QStringLiteral("highIncluded"), false);
    row.words = fields.text(QStringLiteral("words"));
    row.sensitivity = share(fields, QStringLiteral("sensitivity"));
    row.specificity = share(fields, QStringLiteral("specificity"));
    row.origin = originFrom(fields, soFar);
    refuseTurned(fields, QStringLiteral("band"), row.low, row.high);
    if (!row.low && !row.high)
        fields.refuse(base::said("the band has no end"));
    if (row.kind == BandKind::Risk && row.low && row.high)
        fields.refuse(base::said("a cut-off has one end"));
    if (row.kind == BandKind::Level && (row.sensitivity || row.specificity))
        fields.refuse(base::said("a named level has no “sensitivity” and no “specificity”"));
    return row;
}

} // namespace catalogue
