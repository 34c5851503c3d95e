#include "app/handbook/evidence_words.h"

#include "core/records/wording.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace handbook
{

namespace
{

using catalogue::Catalogue;
using catalogue::Measure;
using catalogue::Threshold;

struct EvidenceWords {
    Q_DECLARE_TR_FUNCTIONS(handbook::Evidence)
};

QString levelWords(const Threshold& row, const Measure& of, const base::Phrasebook& phrases)
{
    const auto shown = [&](double number) { return telling::amount(number, of, phrases); };
    const auto bare = [&of](double number) { return records::written(number, of); };
    if (row.bandLow && row.bandHigh)
        return row.bandHighIncluded
                   ? EvidenceWords::tr("%1 to %2").arg(bare(*row.bandLow), shown(*row.bandHigh))
                   : EvidenceWords::tr("%1 to under %2").arg(bare(*row.bandLow), shown(*row.bandHigh));
    if (row.bandLow)
        return EvidenceWords::tr("%1 and more").arg(shown(*row.bandLow));
    if (row.bandHigh)
        return row.bandHighIncluded ? EvidenceWords::tr("up to %1").arg(shown(*row.bandHigh))
                                    : EvidenceWords::tr("under %1").arg(shown(*row.bandHigh));
    return {};
}

QString circumstances(const Threshold& row, const Catalogue& catalogue, const base::Phrasebook& phrases)
{
    QStringList parts;
    if (!row.populationWords.isEmpty())
        parts += row.populationWords;
    if (row.answers == catalogue::Answers::Error)
        parts += telling::designWords(row.design, phrases);
    if (const Measure* of = catalogue.measure(row.bandOf); of != nullptr && of->id != row.measure)
        parts += EvidenceWords::tr("level of: %1").arg(of->title);
    if (row.condition)
        parts += telling::requirementWords(*row.condition, catalogue, phrases);
    if (!row.hand.isEmpty())
        parts += row.hand == "dominant"_L1 ? EvidenceWords::tr("dominant hand")
                                           : EvidenceWords::tr("non-dominant hand");
    if (row.rule)
        parts += telling::trialsWords(row, phrases);
    if (!row.protocol.isEmpty())
        parts += row.protocol;
    if (row.sem)
        parts += EvidenceWords::tr("standard error of measurement %1").arg(*row.sem);
    if (row.icc)
        parts += EvidenceWords::tr("ICC %1").arg(*row.icc);
    return parts.join(u" · "_s);
}

} // namespace

QString answerWords(const Threshold& row)
{
    return row.answers == catalogue::Answers::Error ? EvidenceWords::tr("error")
                                                    : EvidenceWords::tr("importance");
}

QString valueWords(const Threshold& row, const Measure& measure, const base::Phrasebook& phrases)
{
    const QString better = telling::publishedLimit(row.improvement, row, measure, phrases);
    const QString worse = telling::publishedLimit(row.decline, row, measure, phrases);
    return better == worse ? better : EvidenceWords::tr("%1 better, %2 worse").arg(better, worse);
}

QString peopleWords(const Threshold& row, const Catalogue& catalogue, const base::Phrasebook& phrases)
{
    const QString people = telling::populationWords(row.population, catalogue);
    const Measure* of = catalogue.measure(row.bandOf);
    const QString level = of != nullptr ? levelWords(row, *of, phrases) : QString();
    return level.isEmpty() ? people : EvidenceWords::tr("%1, %2").arg(people, level);
}

QString confidenceWords(const Threshold& row, const base::Phrasebook& phrases)
{
    const QString basis = row.basis ? telling::basisWords(*row.basis, phrases) : QString();
    return row.confidence ? EvidenceWords::tr("%1 %, %2").arg(QString::number(*row.confidence * 100), basis)
                          : basis;
}

QString originWords(const Threshold& row, const Catalogue& catalogue)
{
    const catalogue::Source* source = catalogue.source(row.source);
    QString words = source != nullptr ? source->shortForm : row.source;
    if (row.checked == catalogue::Checked::Memory)
        words = EvidenceWords::tr("%1, from memory").arg(words);
    return row.isOwn ? EvidenceWords::tr("%1 (the clinic's own)").arg(words) : words;
}

QStringList detailWords(const Threshold& row, const Catalogue& catalogue, const base::Phrasebook& phrases)
{
    QStringList lines = {circumstances(row, catalogue, phrases)};
    if (!row.note.isEmpty())
        lines += row.note;
    if (row.checked == catalogue::Checked::Memory)
        lines += EvidenceWords::tr("From memory: not read in the source. Check it before you rely on it.");
    if (const catalogue::Source* source = catalogue.source(row.source))
        lines += source->reference;
    lines.removeAll(QString());
    return lines;
}

QString linkOf(const catalogue::Source& source)
{
    return source.doi.isEmpty() ? QString() : u"https://doi.org/"_s + source.doi;
}

} // namespace handbook
