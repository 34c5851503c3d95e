#include "core/telling/reading_words.h"

#include "core/records/wording.h"
#include "core/telling/terms.h"

namespace telling
{

using base::Phrasebook;
using records::Finding;

QString factWords(const reading::Fact& fact, const records::Visit& visit,
                  const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    if (fact.measure.isEmpty())
        return phrases.joined(
            "%1: %2",
            {phrases("Fall with injury, %1").arg(records::dayInWords(fact.day, phrases)), fact.words});
    const QString now = placeWords({fact.measure, fact.side}, visit, catalogue, phrases);
    const catalogue::Measure* measure = catalogue.measure(fact.measure);
    if (!fact.before || measure == nullptr)
        return fact.kind == reading::Fact::Kind::VerticalNystagmus
                   ? phrases("%1; not recorded at an earlier visit").arg(now)
                   : now;
    return phrases("%1; %2: %3")
        .arg(now, records::dayInWords(fact.day, phrases),
             records::written(fact.before->value, *measure, phrases));
}

QString placeWords(const reading::Place& place, const records::Visit& visit,
                   const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    const catalogue::Measure* measure = catalogue.measure(place.measure);
    if (measure == nullptr)
        return place.measure;
    const QString title = records::sidedTitle(*measure, place.side, phrases);
    const Finding* finding = visit.finding(place.measure, place.side);
    if (finding == nullptr)
        return title;
    const QString value = records::written(finding->value, *measure, phrases);
    if (!values::isDone(finding->value))
        return phrases("%1 (%2)").arg(title, value);
    return phrases("%1: %2").arg(
        title, phrases.joined("%1; %2", {value, signsWords(finding->signs, *measure, phrases)}));
}

QString bearingWords(const reading::Bearing& bearing, const records::Visit& visit,
                     const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    QStringList words;
    for (const reading::Place& place : bearing.places)
        words += placeWords(place, visit, catalogue, phrases);
    return phrases.joined("%1; %2", words);
}

QString originWords(const QString& id, catalogue::Checked checked, const catalogue::Catalogue& catalogue,
                    const Phrasebook& phrases)
{
    const catalogue::Source* source = catalogue.source(id);
    if (source == nullptr)
        return phrases("common practice, no source");
    return checked == catalogue::Checked::Read ? source->shortForm
                                               : phrases("%1, from memory").arg(source->shortForm);
}

} // namespace telling
