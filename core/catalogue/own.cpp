#include "core/catalogue/own.h"

#include "core/catalogue/audit.h"
#include "core/catalogue/entries.h"
#include "core/catalogue/files.h"
#include "core/catalogue/own_format.h"
#include "core/catalogue/reading_entries.h"

#include <QRegularExpression>

#include <algorithm>
#include <functional>

namespace catalogue
{

namespace
{

using Failure = std::optional<base::Error>;

/// What the clinic's part is checked against while it is read.
struct Reading {
    const Catalogue& released;
    Catalogue soFar; ///< the released catalogue and the clinic's entries before this one
    QString place;
};

void checkId(Fields& fields, const QString& id)
{
    static const QRegularExpression plain(QStringLiteral("^[\\p{L}\\p{N}][\\p{L}\\p{M}\\p{N}._-]{0,79}$"));
    if (!plain.match(id).hasMatch())
        fields.refuse(base::said("“id” is not 1 to 80 letters, digits, points, hyphens or underscores"));
}

/// Adds the entries of one list to the clinic's own and to the catalogue read so far.
template <class Row>
Failure add(std::vector<Row>& own, std::vector<Row>& soFar, const std::vector<Row>& released,
            const std::vector<QJsonObject>& objects, const QString& place,
            const std::function<Row(Fields&)>& make)
{
    for (const QJsonObject& object : objects) {
        Fields fields(object, place);
        Row row = make(fields);
        checkId(fields, row.id);
        if (std::ranges::find(released, row.id, &Row::id) != released.end())
            fields.refuse(base::said("“id” belongs to the catalogue that comes with the program"));
        else if (std::ranges::find(own, row.id, &Row::id) != own.end())
            fields.refuse(base::said("“id” stands twice"));
        if (auto error = fields.error())
            return error;
        own.push_back(row);
        soFar.push_back(std::move(row));
    }
    return std::nullopt;
}

/// A grade is chosen by a key each step, and trials are typed one by one.
void checkSize(const Measure& measure, Fields& fields)
{
    constexpr double mostSteps = 10;
    constexpr int mostTrials = 20;
    if (measure.kind == Kind::Grade && measure.lowest && measure.highest &&
        *measure.highest - *measure.lowest > mostSteps)
        fields.refuse(base::said("“highest” lies more than %1 steps above “lowest”").arg(mostSteps));
    if (measure.trials > mostTrials)
        fields.refuse(base::said("“trials” is more than %1").arg(mostTrials));
}

/// The parts stand before the measure, so that none is worked out from itself.
void checkParts(const Measure& measure, Fields& fields, const Catalogue& soFar)
{
    const QStringList parts = measure.computed ? measure.computed->parts : QStringList();
    for (const QString& id : parts) {
        if (soFar.measure(id) == nullptr)
            fields.refuse(base::said("“computed”: no measure “%1” stands before this one").arg(id));
    }
}

Measure ownMeasureFrom(Fields& fields, const Catalogue& soFar)
{
    Measure measure = measureFrom(fields, soFar);
    measure.isOwn = true;
    checkSize(measure, fields);
    checkParts(measure, fields, soFar);
    return measure;
}

Threshold ownThresholdFrom(Fields& fields, const Catalogue& soFar)
{
    Threshold row = thresholdFrom(fields, soFar);
    row.isOwn = true;
    return row;
}

Form ownFormFrom(Fields& fields, const Catalogue& soFar)
{
    Form form = formFrom(fields, soFar);
    form.isOwn = true;
    return form;
}

Pattern ownPatternFrom(Fields& fields, const Catalogue& soFar, const Catalogue& released)
{
    Pattern pattern = patternFrom(fields, soFar);
    pattern.isOwn = true;
    pattern.replaces = fields.optionalText(QStringLiteral("replaces"));
    if (!pattern.replaces.isEmpty() &&
        std::ranges::find(released.patterns, pattern.replaces, &Pattern::id) == released.patterns.end())
        fields.refuse(base::said("“replaces”: unknown pattern “%1”").arg(pattern.replaces));
    if (std::ranges::any_of(soFar.patterns, [&](const Pattern& other) {
            return !pattern.replaces.isEmpty() && other.replaces == pattern.replaces;
        }))
        fields.refuse(base::said("“replaces”: “%1” is replaced already").arg(pattern.replaces));
    return pattern;
}

/// The lists of the document as they stand in it.
struct Lists {
    std::vector<QJsonObject> sources, measures, thresholds, forms, patterns;
};

Lists listsOf(Fields& document)
{
    if (document.text(QStringLiteral("format")) != ownFormat)
        document.refuse(base::said("“format” is not “%1”").arg(ownFormat));
    return {document.objects(QStringLiteral("sources")), document.objects(QStringLiteral("measures")),
            document.objects(QStringLiteral("thresholds")), document.objects(QStringLiteral("forms")),
            document.objects(QStringLiteral("patterns"))};
}

Failure addAll(Own& own, const Lists& lists, Reading& reading)
{
    const Catalogue& released = reading.released;
    Catalogue& soFar = reading.soFar;
    const auto place = [&](const QString& list) { return reading.place + u' ' + list; };
    if (auto failure = add<Source>(own.sources, soFar.sources, released.sources, lists.sources,
                                   place(QStringLiteral("sources")), sourceFrom))
        return failure;
    if (auto failure = add<Measure>(own.measures, soFar.measures, released.measures, lists.measures,
                                    place(QStringLiteral("measures")),
                                    [&](Fields& fields) { return ownMeasureFrom(fields, soFar); }))
        return failure;
    if (auto failure = add<Threshold>(own.thresholds, soFar.thresholds, released.thresholds, lists.thresholds,
                                      place(QStringLiteral("thresholds")),
                                      [&](Fields& fields) { return ownThresholdFrom(fields, soFar); }))
        return failure;
    if (auto failure =
            add<Form>(own.forms, soFar.forms, released.forms, lists.forms, place(QStringLiteral("forms")),
                      [&](Fields& fields) { return ownFormFrom(fields, soFar); }))
        return failure;
    return add<Pattern>(own.patterns, soFar.patterns, released.patterns, lists.patterns,
                        place(QStringLiteral("patterns")),
                        [&](Fields& fields) { return ownPatternFrom(fields, soFar, released); });
}

/// What the audit finds in the whole and did not find in the released catalogue alone.
Failure faultOf(const Reading& reading)
{
    for (const Measure& measure : reading.soFar.measures) {
        if (!measure.partOf.isEmpty() && reading.soFar.measure(measure.partOf) == nullptr)
            return unreadable(reading.place + QStringLiteral(" measures: ") + measure.id,
                              base::said("“partOf”: unknown measure “%1”").arg(measure.partOf));
    }
    const base::Messages faults = audit(reading.soFar, {});
    if (faults.empty())
        return std::nullopt;
    const base::Messages before = audit(reading.released, {});
    const auto isNew = [&](const base::Message& fault) { return std::ranges::count(before, fault) == 0; };
    const auto found = std::ranges::find_if(faults, isNew);
    if (found == faults.end())
        return std::nullopt;
    return base::Error{
        base::ErrorKind::Unreadable, base::said("%1: %2").arg(base::verbatim(reading.place), *found), {}};
}

} // namespace

base::Result<Own> ownFrom(const QByteArray& document, const QString& place, const Catalogue& released)
{
    const auto json = soundJson(document, place);
    if (!json)
        return json.error();
    if (!json->isObject())
        return unreadable(place, base::said("the file does not hold a clinic's catalogue"));
    Fields fields(json->object(), place);
    const Lists lists = listsOf(fields);
    if (const auto error = fields.error())
        return *error;
    Own own;
    Reading reading{released, released, place};
    if (const auto failure = addAll(own, lists, reading))
        return *failure;
    if (const auto fault = faultOf(reading))
        return *fault;
    return own;
}

Catalogue withOwn(Catalogue released, const Own& own)
{
    const auto append = [](auto& rows, const auto& more) {
        rows.insert(rows.end(), more.begin(), more.end());
    };
    append(released.sources, own.sources);
    append(released.measures, own.measures);
    append(released.thresholds, own.thresholds);
    append(released.forms, own.forms);
    for (const Pattern& pattern : own.patterns) {
        const auto there = std::ranges::find(released.patterns, pattern.replaces, &Pattern::id);
        if (there != released.patterns.end())
            *there = pattern;
        else
            released.patterns.push_back(pattern);
    }
    const auto place = [&](const Measure& measure) {
        return std::ranges::find(released.sections, measure.section, &Section::id) -
               released.sections.begin();
    };
    std::ranges::stable_sort(released.measures, {}, place);
    return released;
}

} // namespace catalogue
