#include "core/catalogue/reader.h"

#include "core/catalogue/entries.h"
#include "core/catalogue/files.h"
#include "core/catalogue/reading_entries.h"

#include <QCryptographicHash>
#include <QDirIterator>

#include <algorithm>
#include <functional>

namespace catalogue
{

namespace
{

using Entries = base::Result<std::vector<Entry>>;
using Failure = std::optional<base::Error>;

/// Adds one file's entries to their list. `make` turns fields into an entry; an id may stand once only.
template <class Row>
Failure add(std::vector<Row>& rows, const Entries& entries, const std::function<Row(Fields&)>& make)
{
    if (!entries)
        return entries.error();
    for (const Entry& entry : *entries) {
        Fields fields(entry.fields, entry.place);
        Row row = make(fields);
        if (std::ranges::find(rows, row.id, &Row::id) != rows.end())
            fields.refuse(base::said("the id stands twice"));
        if (const auto error = fields.error())
            return error;
        rows.push_back(std::move(row));
    }
    return std::nullopt;
}

Failure readVocabularies(Catalogue& read, const QString& folder)
{
    if (auto failure =
            add<Section>(read.sections, jsonEntries(folder, QStringLiteral("sections.json")), sectionFrom))
        return failure;
    if (auto failure = add<Condition>(read.conditions, jsonEntries(folder, QStringLiteral("conditions.json")),
                                      conditionFrom))
        return failure;
    if (auto failure =
            add<Population>(read.populations, jsonEntries(folder, QStringLiteral("populations.json")),
                            [&](Fields& fields) { return populationFrom(fields, read); }))
        return failure;
    return add<Source>(read.sources, jsonEntries(folder, QStringLiteral("sources.json")), sourceFrom);
}

/// Whether a part of it is computed as well. Nothing may stand on such a measure: so no circle is possible.
bool isComputedTwice(const Measure& measure, const Catalogue& read)
{
    return measure.computed && std::ranges::any_of(measure.computed->parts, [&](const QString& id) {
               const Measure* part = read.measure(id);
               return part != nullptr && part->computed;
           });
}

Failure readMeasures(Catalogue& read, const QString& folder)
{
    const QStringList files = filesIn(folder, QStringLiteral("measures"), QStringLiteral("json"));
    for (const QString& file : files) {
        if (auto failure = add<Measure>(read.measures, jsonEntries(folder, file),
                                        [&](Fields& fields) { return measureFrom(fields, read); }))
            return failure;
    }
    if (read.measures.empty())
        return unreadable(QStringLiteral("measures"), base::said("there is no measure"));
    for (const Measure& measure : read.measures) {
        const QStringList parts = measure.computed ? measure.computed->parts : QStringList();
        for (const QString& id : parts + QStringList{measure.partOf, measure.missteps}) {
            if (!id.isEmpty() && read.measure(id) == nullptr)
                return unreadable(QStringLiteral("measures: %1").arg(measure.id),
                                  base::said("unknown part, total or count “%1”").arg(id));
            if (parts.contains(id) && isComputedTwice(*read.measure(id), read))
                return unreadable(QStringLiteral("measures: %1").arg(measure.id),
                                  base::said("part “%1” is itself made of computed parts").arg(id));
        }
    }
    const auto place = [&](const Measure& measure) {
        return read.section(measure.section) - read.sections.data();
    };
    std::ranges::stable_sort(read.measures, {}, place);
    return std::nullopt;
}

Failure readThresholds(Catalogue& read, const QString& folder)
{
    const QStringList files = filesIn(folder, QStringLiteral("thresholds"), QStringLiteral("csv"));
    for (const QString& file : files) {
        const Entries rows = csvEntries(folder, file, thresholdColumns(), thresholdNumberColumns());
        if (auto failure = add<Threshold>(read.thresholds, rows,
                                          [&](Fields& fields) { return thresholdFrom(fields, read); }))
            return failure;
    }
    return std::nullopt;
}

/// Tables of reference values: what people reached, predictions, and named parts of a scale.
Failure readReferenceValues(Catalogue& read, const QString& folder)
{
    const QString csv = QStringLiteral("csv");
    for (const QString& file : filesIn(folder, QStringLiteral("norms"), csv)) {
        const Entries rows = csvEntries(folder, file, normColumns(), normNumberColumns());
        if (auto failure =
                add<Norm>(read.norms, rows, [&](Fields& fields) { return normFrom(fields, read); }))
            return failure;
    }
    for (const QString& file : filesIn(folder, QStringLiteral("predictions"), csv)) {
        const Entries rows = csvEntries(folder, file, equationColumns(), equationNumberColumns());
        if (auto failure = add<Equation>(read.equations, rows,
                                         [&](Fields& fields) { return equationFrom(fields, read); }))
            return failure;
    }
    for (const QString& file : filesIn(folder, QStringLiteral("bands"), csv)) {
        const Entries rows = csvEntries(folder, file, bandColumns(), bandNumberColumns());
        if (auto failure =
                add<Band>(read.bands, rows, [&](Fields& fields) { return bandFrom(fields, read); }))
            return failure;
    }
    return std::nullopt;
}

Failure readForms(Catalogue& read, const QString& folder)
{
    const QStringList files = filesIn(folder, QStringLiteral("forms"), QStringLiteral("json"));
    for (const QString& file : files) {
        if (auto failure = add<Form>(read.forms, jsonEntries(folder, file),
                                     [&](Fields& fields) { return formFrom(fields, read); }))
            return failure;
    }
    if (read.forms.empty())
        return unreadable(QStringLiteral("forms"), base::said("there is no form"));
    return std::nullopt;
}

/// Where a catalogue has none of these files, it asks and reads nothing.
Failure readReading(Catalogue& read, const QString& folder)
{
    const QString flags = QStringLiteral("red_flags.json");
    const QString patterns = QStringLiteral("patterns.json");
    if (QFile::exists(folder + u'/' + flags)) {
        if (auto failure = add<RedFlag>(read.redFlags, jsonEntries(folder, flags),
                                        [&](Fields& fields) { return redFlagFrom(fields, read); }))
            return failure;
    }
    if (!QFile::exists(folder + u'/' + patterns))
        return std::nullopt;
    return add<Pattern>(read.patterns, jsonEntries(folder, patterns),
                        [&](Fields& fields) { return patternFrom(fields, read); });
}

QString digestOf(const QString& folder)
{
    QStringList files;
    QDirIterator each(folder, QDir::Files, QDirIterator::Subdirectories);
    while (each.hasNext())
        files += each.next();
    files.sort();
    QCryptographicHash digest(QCryptographicHash::Sha256);
    for (const QString& name : files) {
        QFile file(name);
        if (file.open(QIODevice::ReadOnly))
            digest.addData(&file);
    }
    return QString::fromLatin1(digest.result().toHex());
}

} // namespace

base::Result<Catalogue> readCatalogue(const QString& folder)
{
    Catalogue read;
    for (const auto part :
         {readVocabularies, readMeasures, readThresholds, readReferenceValues, readForms, readReading}) {
        if (const auto failure = part(read, folder))
            return *failure;
    }
    read.release = digestOf(folder);
    return read;
}

base::Result<QStringList> releasedIds(const QString& folder)
{
    return textLines(folder, QStringLiteral("ids.txt"));
}

} // namespace catalogue
