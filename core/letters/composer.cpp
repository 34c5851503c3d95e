#include "core/base/rounding.h"
#include "core/base/text.h"
#include "core/letters/letter_rows.h"
#include "core/letters/letter_template.h"
#include "core/letters/letter_visit.h"

namespace letters
{

namespace
{

QString authorLine(const records::Author& author, const base::Phrasebook& phrases)
{
    return phrases.joined("%1, %2", {base::isolated(author.name), base::isolated(author.role)});
}

QString urgencyWords(const QString& urgency, const base::Phrasebook& phrases)
{
    return urgency.trimmed().isEmpty() ? phrases("Urgency: not stated") : urgency.trimmed();
}

std::vector<Fields> factsOf(const records::Patient& patient, const base::Phrasebook& phrases)
{
    std::vector<Fields> facts;
    const auto add = [&](const QString& label, const QString& words) {
        if (!words.isEmpty())
            facts.push_back(Fields().text("label", label).text("words", words));
    };
    add(phrases("Allergies:"), patient.allergies.isEmpty() ? phrases("not recorded") : patient.allergies);
    if (patient.dominantHand != records::Hand::Unknown)
        add(phrases("Dominant hand:"), records::written(patient.dominantHand, phrases));
    add(phrases("General practitioner:"), patient.generalPractitioner);
    add(phrases("Referred by:"), patient.referrer);
    return facts;
}

QString diagnosisOf(const records::Patient& patient, const base::Phrasebook& phrases)
{
    if (patient.diagnosis.isEmpty() || !patient.onset)
        return patient.diagnosis;
    return phrases("%1 (onset %2)").arg(patient.diagnosis, records::dayInWords(*patient.onset, phrases));
}

/// First line: what was seen today. Further lines: what was seen before.
Fields cellOf(const QString& seen, bool isWhole)
{
    Fields cell;
    cell.text("today", seen.section(u'\n', 0, 0)).list("before", linesOf(seen.section(u'\n', 1)));
    return cell.flag("isWhole", isWhole);
}

std::vector<Fields> findingFields(const std::vector<FindingRow>& rows)
{
    std::vector<Fields> fields;
    for (const FindingRow& row : rows) {
        std::vector<Fields> sides;
        const bool isWhole = !row.whole.isEmpty();
        for (const QString& seen : isWhole ? QStringList{row.whole} : QStringList{row.right, row.left})
            sides.push_back(cellOf(seen, isWhole));
        fields.push_back(Fields().text("test", row.test).text("scale", row.scale).objects("sides", sides));
    }
    return fields;
}

Fields earlierFields(const std::optional<Earlier>& earlier, const QString& otherwise)
{
    if (!earlier)
        return Fields().text("said", otherwise);
    return Fields()
        .text("value", earlier->value)
        .text("day", earlier->day)
        .text("difference", earlier->difference)
        .text(earlier->isJudged ? "verdict" : "unjudged", earlier->verdict)
        .text("strength", earlier->strength)
        .text("reason", earlier->reason);
}

std::vector<Fields> measureFields(const std::vector<MeasureRow>& rows, const base::Phrasebook& phrases)
{
    std::vector<Fields> fields;
    for (const MeasureRow& row : rows) {
        const QString none = row.isDone ? phrases("no earlier result") : QString();
        const Fields previous = earlierFields(row.previous, none);
        const Fields baseline =
            earlierFields(row.baseline, row.isBaselinePrevious ? phrases("the same visit") : none);
        Fields made;
        made.text("measure", row.measure)
            .list("notes", "hasNotes", row.notes + row.cautions)
            .text("today", row.today);
        made.text("line", row.notes.isEmpty() && row.cautions.isEmpty() ? QStringLiteral("cell")
                                                                        : QStringLiteral("open"));
        std::vector<Fields> limits;
        for (const Limit& limit : row.limits)
            limits.push_back(Fields().text("limit", limit.words).text("source", limit.source));
        made.objects("earlier", {previous, baseline}).objects("limits", limits);
        fields.push_back(made);
    }
    return fields;
}

QStringList numbered(const QStringList& sources, const base::Phrasebook& phrases)
{
    QStringList lines;
    for (const QString& source : sources)
        lines += phrases("[%1] %2").arg(QString::number(lines.size() + 1), source);
    return lines;
}

QString explanationOf(const Rows& rows, const base::Phrasebook& phrases)
{
    QStringList sentences = {
        phrases("A difference within the threshold could be measurement error; it does not show that "
                "nothing changed.")};
    if (rows.judged > 1)
        sentences +=
            phrases
                .counted(
                    "%1 comparison was judged at 95 %; about %2 may lie beyond error by chance.",
                    "%1 comparisons were judged at 95 %; about %2 of them may lie beyond error by chance.",
                    rows.judged)
                .arg(QString::number(rows.judged), base::fixed(rows.judged * 0.05, 1));
    return phrases.joined("%1 %2", sentences + rows.rates);
}

QStringList signatureOf(const records::Letter& letter, const base::Phrasebook& phrases)
{
    if (letter.state == records::LetterState::Draft)
        return {phrases("This letter is a draft and has not been signed off.")};
    QStringList lines = {base::isolated(letter.author.name), base::isolated(letter.author.role)};
    lines += letter.author.registration.isEmpty()
                 ? phrases("Registration number: not recorded")
                 : phrases("Registration number %1").arg(base::isolated(letter.author.registration));
    const QDateTime signedAt = letter.signedAt.toUTC();
    lines +=
        phrases("Signed off on %1 at %2 UTC")
            .arg(records::dayInWords(signedAt.date(), phrases), signedAt.toString(QStringLiteral("HH:mm")));
    lines.removeAll(QString());
    return lines;
}

void addHeader(Fields& fields, const Material& material, const records::Visit* visit,
               const base::Phrasebook& phrases)
{
    QStringList clinicLines = linesOf(material.clinic.address);
    if (!material.clinic.telephone.isEmpty())
        clinicLines += material.clinic.telephone;
    const QString clinic =
        material.clinic.name.isEmpty() ? phrases("Clinic name not recorded") : material.clinic.name;
    fields.text("clinic", clinic).list("clinicLines", clinicLines).list("to", linesOf(material.letter.to));
    fields.text("typedOn", records::dayInWords(material.today, phrases));
    fields.text("seenOn",
                visit != nullptr ? records::dayInWords(visit->day, phrases) : phrases("visit not found"));
    fields.text("seenBy", visit != nullptr ? authorLine(visit->author, phrases) : QString());
    fields.text("amended", visit != nullptr ? visit->amendmentReason : QString());
    fields.text("identity", records::identityLine(material.patient, material.today, phrases));
    fields.objects("facts", factsOf(material.patient, phrases));
}

void addWords(Fields& fields, const Material& material, const base::Phrasebook& phrases)
{
    const records::Letter& letter = material.letter;
    fields.text("urgency", urgencyWords(letter.urgency, phrases)).text("question", letter.question.trimmed());
    fields.list("actions", "hasActions", linesOf(letter.actions))
        .text("diagnosis", diagnosisOf(material.patient, phrases));
    fields.list("history", "hasHistory", linesOf(letter.history));
    fields.list("interpretation", "hasInterpretation", linesOf(letter.interpretation));
    fields.text("signedTitle", letter.state == records::LetterState::Draft ? phrases("Not signed off")
                                                                           : phrases("Signed off by"));
    fields.list("author", signatureOf(letter, phrases)).list("copies", linesOf(letter.copiesTo));
    fields.text(
        "safety",
        phrases("The thresholds say what could be measurement error; they do not decide what a change "
                "means. Diagnosis and treatment rest with the licensed clinicians in charge, and "
                "local protocols come first."));
}

void addRows(Fields& fields, const Material& material, const catalogue::Catalogue& catalogue,
             const base::Phrasebook& phrases)
{
    const Rows rows = rowsOf(material, catalogue, phrases);
    const bool isChosen = material.letter.reference.has_value();
    fields.flag("hasFindings", !rows.findings.empty()).objects("findings", findingFields(rows.findings));
    fields.flag("hasMeasures", !rows.measures.empty())
        .objects("measures", measureFields(rows.measures, phrases));
    fields.text("previousTitle", isChosen ? phrases("Reference visit") : phrases("Previous"));
    fields.text("explanation", explanationOf(rows, phrases))
        .list("tableNotes", rows.cautions)
        .list("sources", numbered(rows.sources, phrases));
    const QStringList notTested = notDone(material, catalogue, phrases);
    fields.list("conditions", conditionLines(material, catalogue, phrases))
        .flag("hasNotDone", !notTested.isEmpty());
    fields.text("notDone", phrases("Not tested at this visit: %1.").arg(phrases.joined("%1; %2", notTested)));
}

std::vector<Fields> figureFields(const std::vector<Figure>& figures)
{
    std::vector<Fields> fields;
    for (const Figure& figure : figures) {
        const QString number = QString::number(fields.size());
        fields.push_back(Fields().text("number", number).text("caption", figure.caption));
    }
    return fields;
}

} // namespace

Composition composed(const Material& material, const catalogue::Catalogue& catalogue,
                     const base::Phrasebook& phrases)
{
    Composition composition;
    composition.title = phrases("Clinic letter");
    composition.direction = phrases.direction();
    composition.identity = records::identityLine(material.patient, material.today, phrases);
    QStringList footer = {base::isolated(material.clinic.name), base::isolated(material.clinic.telephone)};
    footer.removeAll(QString());
    composition.footer = footer.join(QStringLiteral(" · "));
    composition.pageWords = phrases("Page %1 of %2");
    if (material.letter.state == records::LetterState::Draft)
        composition.draftMark = phrases("DRAFT");
    if (material.clinic.isDemo)
        composition.demoMark = phrases("DEMO – invented patient");
    composition.figures = material.figures;

    Fields fields;
    const bool isRightToLeft = phrases.direction() == Qt::RightToLeft;
    fields.text("title", composition.title);
    fields.text("direction", isRightToLeft ? QStringLiteral("rtl") : QStringLiteral("ltr"));
    fields.text("start", isRightToLeft ? QStringLiteral("right") : QStringLiteral("left"));
    fields.text("end", isRightToLeft ? QStringLiteral("left") : QStringLiteral("right"));
    addHeader(fields, material, material.record.visit(), phrases);
    addWords(fields, material, phrases);
    addRows(fields, material, catalogue, phrases);
    fields.objects("figures", figureFields(material.figures));
    composition.body = filled(QStringLiteral("letter.html.mustache"), fields.made(), phrases);
    return composition;
}

} // namespace letters
