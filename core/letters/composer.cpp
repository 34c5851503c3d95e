#include "core/letters/composer.h"

#include "core/base/rounding.h"
#include "core/base/text.h"
#include "core/letters/letter_template.h"
#include "core/letters/letter_visit.h"
#include "core/letters/letter_words.h"
#include "core/letters/plain_page.h"
#include "core/letters/written.h"
#include "core/records/wording.h"

#include <algorithm>
#include <map>

namespace letters
{

namespace
{

constexpr size_t mostNumbers = 8;     ///< in the first page's table
constexpr size_t mostTestsNamed = 12; ///< of tests in a row; of more the first half is named
constexpr qsizetype mostAlso = 6;     ///< of the numbers beside it that tell nothing new

QString authorLine(const records::Author& author, const base::Phrasebook& phrases)
{
    return phrases.joined("%1, %2", {base::isolated(author.name), base::isolated(author.role)});
}

QString diagnosisOf(const records::Patient& patient, const base::Phrasebook& phrases)
{
    if (patient.diagnosis.isEmpty() || !patient.onset)
        return patient.diagnosis;
    return phrases("%1 (onset %2)").arg(patient.diagnosis, records::dayInWords(*patient.onset, phrases));
}

/// The line cut where it names a measure, so that each name leads to its finding.
std::vector<Fields> piecesOf(const telling::SummaryLine& line, const std::map<QString, QString>& titles)
{
    std::map<qsizetype, std::pair<qsizetype, QString>> named; // where, how long, which measure
    for (const QString& id : line.measures) {
        const QString& title = titles.at(id);
        const qsizetype place = title.isEmpty() ? -1 : line.text.indexOf(title, 0, Qt::CaseInsensitive);
        auto& longest = named[place];
        if (place >= 0 && title.size() > longest.first)
            longest = {title.size(), id};
    }
    named.erase(-1);
    std::vector<Fields> pieces;
    qsizetype told = 0;
    for (const auto& [place, name] : named) {
        if (place < told) // part of a longer name
            continue;
        pieces.push_back(Fields().text("words", line.text.sliced(told, place - told)));
        pieces.push_back(
            Fields().text("words", line.text.sliced(place, name.first)).text("leads", name.second));
        told = place + name.first;
    }
    pieces.push_back(Fields().text("words", line.text.sliced(told)));
    return pieces;
}

/// The day that most of the results of a column share; invalid where there is none.
QDate commonDay(const std::vector<NumberRow>& rows, Dated NumberRow::*column)
{
    std::map<QDate, int> counts;
    for (const NumberRow& row : rows) {
        if ((row.*column).day.isValid())
            ++counts[(row.*column).day];
    }
    const auto most = std::ranges::max_element(counts, {}, [](const auto& each) { return each.second; });
    return most == counts.end() ? QDate() : most->first;
}

/// The result; its day beside it where it is another than that of the column.
Fields datedFields(const Dated& dated, const QDate& common, const base::Phrasebook& phrases)
{
    return Fields()
        .text("value", dated.value.isEmpty() ? QStringLiteral("–") : dated.value)
        .text("day", dated.day.isValid() && dated.day != common ? records::dayInWords(dated.day, phrases)
                                                                : QString());
}

/// The names of a few tests; of many those that are to be named, and how many more of which section.
QStringList namesOf(const std::vector<NamedTest>& tests, const base::Phrasebook& phrases)
{
    QStringList names, sections;
    std::map<QString, int> counts;
    for (const NamedTest& test : tests) {
        if (test.isNamed || tests.size() <= mostTestsNamed) {
            names += test.words;
            continue;
        }
        if (++counts[test.section] == 1)
            sections += test.section;
    }
    for (const QString& section : sections)
        names += phrases.counted("%1: %2 test", "%1: %2 tests", counts[section])
                     .arg(section, QString::number(counts[section]));
    return names;
}

/// Where nothing was written, that it is not stated.
QStringList statedOr(const QString& text, const base::Phrasebook& phrases)
{
    const QStringList lines = linesOf(text);
    return lines.isEmpty() ? QStringList(phrases("not stated")) : lines;
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
    QStringList lines = {authorLine(letter.author, phrases)};
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

Composer::Composer(Material material, Kind kind, const catalogue::Catalogue& catalogue,
                   const base::Phrasebook& phrases)
    : m_material(std::move(material)),
      m_kind(std::move(kind)),
      m_phrases{inLetters(phrases)},
      m_first(firstPageOf(m_material, catalogue, m_phrases, roomOf(m_kind) < 1 ? 2 : 4)),
      m_plain(plainSentences(m_material, catalogue, m_phrases)),
      m_full(rowsOf(m_material, catalogue, m_phrases)),
      m_conditions(conditionLines(m_material, catalogue, m_phrases)),
      m_redFlags(redFlagLines(m_material.record.visit(), catalogue, m_phrases))
{
    for (const telling::SummaryLine& line : m_first.message) {
        for (const QString& id : line.measures) {
            const catalogue::Measure* measure = catalogue.measure(id);
            m_titles[id] = measure == nullptr ? QString() : records::titled(*measure, m_phrases);
        }
    }
    const size_t numbers = std::min(m_first.numbers.size(), mostNumbers);
    m_order.reserve(numbers + m_first.abnormal.size());
    const auto addNumbers = [&](bool telling) {
        for (size_t row = 0; row < numbers; ++row) {
            if (m_first.numbers[row].tells == telling)
                m_order.push_back({true, row});
        }
    };
    addNumbers(true);
    for (size_t row = 0; row < m_first.abnormal.size(); ++row)
        m_order.push_back({false, row});
    addNumbers(false);
}

void Composer::addHead(Fields& fields) const
{
    const records::Visit* visit = m_material.record.visit();
    QStringList clinicLines = linesOf(m_material.clinic.address);
    if (!m_material.clinic.telephone.isEmpty())
        clinicLines += m_material.clinic.telephone;
    fields.text("clinic", m_material.clinic.name.isEmpty() ? m_phrases("Clinic name not recorded")
                                                           : m_material.clinic.name);
    fields.list("clinicLines", clinicLines).list("to", statedOr(m_material.letter.to, m_phrases));
    QStringList others = linesOf(m_material.letter.copiesTo);
    others.removeIf([&](const QString& each) { return linesOf(m_material.letter.to).contains(each); });
    const QStringList copies = statedOr(others.join(u'\n'), m_phrases);
    fields.text("copies", m_phrases("Copies to: %1").arg(m_phrases.joined("%1 · %2", copies)));
    fields.text("urgencyAsOf",
                m_phrases("Urgency, as of %1:").arg(records::dayInWords(m_material.today, m_phrases)));
    if (!m_material.clinic.telephone.isEmpty())
        fields.text("telephone", m_phrases("Telephone for questions: %1").arg(m_material.clinic.telephone));
    const QString name = m_phrases.joined(
        "%1 %2", {base::isolated(m_material.patient.given), base::isolated(m_material.patient.family)});
    fields.text("dear", m_phrases("Dear %1,").arg(name));
    fields.text("typedOn", records::dayInWords(m_material.today, m_phrases));
    fields.text("seenOn",
                visit != nullptr ? records::dayInWords(visit->day, m_phrases) : m_phrases("visit not found"));
    fields.text("seenBy", visit != nullptr ? authorLine(visit->author, m_phrases) : QString());
    if (m_material.replaced)
        fields.text("replaces", m_phrases("This letter replaces the one signed on %1.")
                                    .arg(records::dayInWords(*m_material.replaced, m_phrases)));
    if (visit != nullptr && visit->signedAt.isValid() && visit->signedAt.toLocalTime().date() != visit->day)
        fields.text("entered", records::dayInWords(visit->signedAt.toLocalTime().date(), m_phrases));
    fields.text("amended", visit != nullptr ? visit->amendmentReason : QString());
    fields.text("identity", records::identityLine(m_material.patient, m_material.today, m_phrases));
    const QString notRecorded = m_phrases("not recorded");
    const QString diagnosis = diagnosisOf(m_material.patient, m_phrases);
    fields.text("diagnosis", diagnosis.isEmpty() ? notRecorded : diagnosis);
    fields.text("allergies",
                m_material.patient.allergies.isEmpty() ? notRecorded : m_material.patient.allergies);
    if (m_material.patient.dominantHand != records::Hand::Unknown)
        fields.text("hand", records::written(m_material.patient.dominantHand, m_phrases));
    if (visit == nullptr)
        return;
    const auto& visits = m_material.record.visits();
    const QString day = records::dayInWords(visit->day, m_phrases);
    fields.text(
        "period",
        visits.size() > 1
            ? m_phrases("Seen from %1 to %2.").arg(records::dayInWords(visits.front().day, m_phrases), day)
            : m_phrases("Seen on %1.").arg(day));
    fields.text("youWereSeen",
                visit->author.name.isEmpty()
                    ? m_phrases("You were seen on %1.").arg(plainDay(visit->day, m_phrases))
                    : m_phrases("You were seen on %1 by %2.")
                          .arg(plainDay(visit->day, m_phrases), authorLine(visit->author, m_phrases)));
}

/// What the clinician wrote.
void Composer::addWritten(Fields& fields) const
{
    const records::Letter& letter = m_material.letter;
    fields.text("urgency", letter.urgency.trimmed()).text("question", letter.question.trimmed());
    fields.list("actions", "hasActions", marked(letter.actions));
    fields.list("history", "hasHistory", marked(letter.history));
    fields.list("medicines", statedOr(letter.medicines, m_phrases));
    fields.list("own", "hasOwn", marked(letter.interpretation));
    fields.list("plan", "hasPlan", marked(letter.plan));
    fields.list("safetyNet", "hasSafetyNet", marked(letter.safetyNet));
    fields.text("signedTitle", letter.state == records::LetterState::Draft ? m_phrases("Not signed off")
                                                                           : m_phrases("Signed off by"));
    fields.list("author", signatureOf(letter, m_phrases));
}

void Composer::addMessage(Fields& fields) const
{
    std::vector<Fields> lines;
    lines.reserve(m_first.message.size());
    for (const telling::SummaryLine& line : m_first.message)
        lines.push_back(Fields()
                            .text("label", line.label)
                            .text("text", line.text)
                            .text("key", line.measures.value(0))
                            .objects("pieces", piecesOf(line, m_titles)));
    fields.text("drift", m_first.drift);
    fields.flag("hasMessage", !lines.empty()).objects("message", lines).text("byChance", m_first.byChance);
    fields.text("happened", m_first.happened).text("asked", m_first.asked);
    fields.list("redFlagsYes", m_redFlags.yes).text("redFlags", m_redFlags.others);
    fields.list("plain", m_plain);
    const qsizetype left = m_material.letter.leftOut.size();
    if (left > 0)
        fields.text("leftOut", m_phrases
                                   .counted("%1 result of this visit is not told here.",
                                            "%1 results of this visit are not told here.", double(left))
                                   .arg(left));
}

void Composer::addTables(Fields& fields, size_t rows) const
{
    std::vector<NumberRow> numbers;
    std::vector<Fields> abnormal;
    std::vector<NamedTest> further;
    QStringList also;
    const auto nameFurther = [&](const QString& title, const QString& section) {
        if (std::ranges::find(further, title, &NamedTest::words) == further.end())
            further.push_back({title, section, further.size() < mostTestsNamed / 2});
    };
    const auto beside = [&](const NumberRow& row) {
        if (row.tells)
            nameFurther(row.title, row.section);
        else
            also += m_phrases("%1 %2").arg(row.test, row.now);
    };
    for (size_t i = 0; i < m_order.size(); ++i) {
        const Place& place = m_order[i];
        const bool isShown = i < rows;
        if (place.isNumber && isShown)
            numbers.push_back(m_first.numbers[place.row]);
        else if (place.isNumber)
            beside(m_first.numbers[place.row]);
        else if (!isShown)
            nameFurther(m_first.abnormal[place.row].test, m_first.abnormal[place.row].section);
        if (place.isNumber || !isShown)
            continue;
        const AbnormalRow& row = m_first.abnormal[place.row];
        const bool isWhole = !row.whole.isEmpty();
        std::vector<Fields> sides;
        const auto addSide = [&](records::Side side, const QString& seen) {
            sides.push_back(Fields()
                                .text("side", records::written(side, m_phrases))
                                .text("seen", seen)
                                .flag("isWhole", isWhole));
        };
        if (isWhole) {
            addSide(records::Side::None, row.whole);
        } else {
            addSide(records::Side::Right, row.right);
            addSide(records::Side::Left, row.left);
        }
        abnormal.push_back(Fields().text("key", row.measure).text("test", row.test).objects("sides", sides));
    }
    for (size_t row = mostNumbers; row < m_first.numbers.size(); ++row)
        beside(m_first.numbers[row]);
    const qsizetype shownAlso = further.empty() ? mostAlso : 0; // room for what tells
    if (const qsizetype more = also.size() - shownAlso; more > 1)
        also =
            also.first(shownAlso) + QStringList{m_phrases
                                                    .counted("%1 more result with nothing new",
                                                             "%1 more results with nothing new", double(more))
                                                    .arg(more)};
    const QDate first = commonDay(numbers, &NumberRow::first);
    const QDate previous = commonDay(numbers, &NumberRow::previous);
    const bool hasFirst = std::ranges::any_of(numbers, [](const NumberRow& row) {
        return row.first.day.isValid() && row.first.day != row.previous.day;
    });
    const bool hasEarlier = previous.isValid() || first.isValid();
    std::vector<Fields> told;
    told.reserve(numbers.size());
    for (const NumberRow& row : numbers) {
        Fields made;
        made.text("key", row.key)
            .text("test", row.test)
            .text("now", row.now)
            .text("words", row.words)
            .flag("tells", row.tells);
        std::vector<Fields> earlier;
        if (hasFirst)
            earlier.push_back(datedFields(row.first, first, m_phrases));
        if (hasEarlier)
            earlier.push_back(datedFields(row.previous, previous, m_phrases));
        told.push_back(made.objects("earlier", earlier));
    }
    const auto title = [&](const QString& words, const QDate& day) {
        QString written = day.isValid() ? records::dayInWords(day, m_phrases) : QString();
        written.replace(u'-', QChar(0x2011)); // keeps the day on one line of its narrow column
        return m_phrases.joined("%1, %2", {words, written});
    };
    QStringList heads;
    if (hasFirst)
        heads += title(m_phrases("First"), first);
    if (hasEarlier)
        heads += title(m_phrases("Previous"), previous);
    fields.flag("hasNumbers", !told.empty()).objects("numbers", told).list("heads", heads);
    fields.flag("hasAbnormal", !abnormal.empty()).objects("abnormal", abnormal);
    const auto listed = [&](const QString& words, const QStringList& texts) {
        return texts.isEmpty() ? QString() : words.arg(m_phrases.joined("%1; %2", texts));
    };
    const bool mayHaveAnnex = m_kind.page.contains(QLatin1String("{{> part:annex}}"));
    fields.text("scales",
                m_phrases.joined("%1 %2", {listed(m_phrases("Grades: %1."), m_first.scales), m_first.was}));
    fields.text("circumstances", m_phrases.joined("%1; %2", m_first.circumstances));
    fields.text("also", listed(m_phrases("Also measured: %1."), also));
    fields.text("asExpected", listed(m_phrases("As expected: %1."), namesOf(m_first.asExpected, m_phrases)));
    fields.text("notTested", listed(m_phrases("Not tested: %1."), m_first.notTested));
    fields.text("further", listed(mayHaveAnnex ? m_phrases("Further findings, told in the annex: %1.")
                                               : m_phrases("Further findings, not told here: %1."),
                                  namesOf(further, m_phrases)));
    fields.flag("hasAnnex", mayHaveAnnex && (m_material.letter.hasAnnex || !further.empty()));
}

void Composer::addAnnex(Fields& fields) const
{
    const bool isChosen = m_material.letter.reference.has_value();
    fields.flag("hasFindings", !m_full.findings.empty()).objects("findings", findingFields(m_full.findings));
    fields.flag("hasMeasures", !m_full.measures.empty())
        .objects("measures", measureFields(m_full.measures, m_phrases));
    fields.text("previousTitle", isChosen ? m_phrases("Reference visit") : m_phrases("Previous"));
    fields.text("explanation", explanationOf(m_full, m_phrases))
        .list("tableNotes", m_full.cautions)
        .list("sources", numbered(m_full.sources, m_phrases));
    fields.list("conditions", "hasConditions", m_conditions);
}

Composition Composer::composed(size_t rows) const
{
    Composition composition;
    composition.title = m_kind.title;
    composition.language = m_material.letter.language;
    composition.direction = m_phrases.direction();
    composition.identity = records::identityLine(m_material.patient, m_material.today, m_phrases);
    QStringList footer = {base::isolated(m_material.clinic.name),
                          base::isolated(m_material.clinic.telephone)};
    footer.removeAll(QString());
    composition.footer = footer.join(QStringLiteral(" · "));
    composition.pageWords = m_phrases("Page %1 of %2");
    if (m_material.letter.state == records::LetterState::Draft)
        composition.draftMark = m_phrases("DRAFT");
    if (m_material.clinic.isDemo)
        composition.demoMark = m_phrases("DEMO – invented patient");
    composition.figures = m_material.figures;
    composition.paper = m_material.clinic.paper;

    Fields fields;
    fields.page(composition.title, m_phrases.direction());
    if (m_material.logo) {
        fields.text("logo", QString::number(composition.figures.size()));
        composition.figures.push_back(*m_material.logo);
    }
    addHead(fields);
    addWritten(fields);
    addMessage(fields);
    addTables(fields, rows);
    addAnnex(fields);
    fields.flag("hasFigures", !m_material.figures.empty())
        .objects("figures", figureFields(m_material.figures));
    composition.body = withMarks(
        filled(templateNamed(QStringLiteral("page.html")).arg(m_kind.page), fields.made(), m_phrases));
    return composition;
}

} // namespace letters
