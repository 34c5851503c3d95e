#include "core/letters/service_page.h"

#include "core/base/rounding.h"
#include "core/base/text.h"
#include "core/letters/letter_template.h"
#include "core/records/wording.h"
#include "core/telling/terms.h"

namespace letters
{

namespace
{

using base::Phrasebook;
using judging::Counted;
using judging::ServiceRow;

const QString nothing = QStringLiteral("–");

QString fewWords(const Phrasebook& phrases)
{
    return phrases("fewer than %1").arg(judging::fewestCounted);
}

QString countWords(const Counted& count, const Phrasebook& phrases)
{
    return count ? QString::number(*count) : fewWords(phrases);
}

/// "6 of 40 (15 %)"
QString shareWords(const Counted& count, const Counted& judged, const Phrasebook& phrases)
{
    if (!judged)
        return nothing;
    if (!count)
        return fewWords(phrases);
    return phrases("%1 of %2 (%3 %)")
        .arg(QString::number(*count), QString::number(*judged), base::fixed(100.0 * *count / *judged, 0));
}

/// "12.5 (10.1 to 15.3)"
QString quartileWords(const std::optional<statistics::Quartiles>& quartiles,
                      const std::function<QString(double)>& written, const Phrasebook& phrases)
{
    if (!quartiles)
        return nothing;
    return phrases("%1 (%2 to %3)")
        .arg(written(quartiles->median), written(quartiles->lower), written(quartiles->upper));
}

/// "Nine-hole peg test, right (s)"
QString testWords(const catalogue::Measure& measure, records::Side side, const Phrasebook& phrases)
{
    const QString title = records::sidedTitle(measure, side, phrases);
    const QString unit =
        measure.kind == catalogue::Kind::Grade ? phrases("grade") : values::unitWords(measure.unit, phrases);
    return unit.isEmpty() ? title : phrases("%1 (%2)").arg(title, unit);
}

QStringList cellsOf(const ServiceRow& row, const catalogue::Measure& measure, const Phrasebook& phrases)
{
    const auto written = [&](double number) { return records::written(number, measure); };
    const auto expected = row.expectedFalse();
    return {testWords(measure, row.side, phrases),
            countWords(row.patients, phrases),
            quartileWords(row.first, written, phrases),
            quartileWords(row.latest, written, phrases),
            shareWords(row.better, row.judged, phrases),
            shareWords(row.worse, row.judged, phrases),
            expected ? phrases("%1 of %2").arg(base::fixed(*expected, 1), QString::number(*row.judged))
                     : nothing,
            countWords(row.becameUnable, phrases),
            countWords(row.becameAble, phrases)};
}

/// One population with its rows, and how many tests too few patients had.
Fields populationFields(std::span<const ServiceRow> rows, const catalogue::Catalogue& catalogue,
                        const Phrasebook& phrases)
{
    std::vector<Fields> told;
    QStringList few;
    for (const ServiceRow& row : rows) {
        const catalogue::Measure* measure = catalogue.measure(row.measure);
        if (measure == nullptr)
            continue;
        if (row.patients)
            told.push_back(Fields().list("cells", cellsOf(row, *measure, phrases)));
        else if (!few.contains(row.measure))
            few += row.measure;
    }
    const QString& id = rows.front().population;
    Fields fields;
    fields.text("population",
                id.isEmpty() ? phrases("Population not stated") : telling::populationWords(id, catalogue));
    fields.flag("hasRows", !told.empty()).objects("rows", told);
    if (!few.isEmpty())
        fields.text("few",
                    phrases
                        .counted("%1 test with two results of fewer than %2 patients",
                                 "%1 tests with two results of fewer than %2 patients", double(few.size()))
                        .arg(QString::number(few.size()), QString::number(judging::fewestCounted)));
    return fields;
}

std::vector<Fields> populationsOf(const std::vector<ServiceRow>& rows, const catalogue::Catalogue& catalogue,
                                  const Phrasebook& phrases)
{
    std::vector<Fields> populations;
    for (auto from = rows.begin(); from != rows.end();) {
        const auto until = std::find_if(
            from, rows.end(), [&](const ServiceRow& row) { return row.population != from->population; });
        populations.push_back(populationFields({from, until}, catalogue, phrases));
        from = until;
    }
    return populations;
}

std::vector<Fields> countsOf(const judging::ServiceCounts& counts, const Phrasebook& phrases)
{
    std::vector<Fields> lines;
    const auto add = [&](const QString& label, const QString& words) {
        lines.push_back(Fields().text("label", label).text("words", words));
    };
    const auto days = [](double number) {
        return base::fixed(number, number == base::rounded(number, 0) ? 0 : 1);
    };
    add(phrases("Patients seen"), QString::number(counts.patients));
    add(phrases("Visits"), QString::number(counts.visits));
    add(phrases("of these signed"), QString::number(counts.signedVisits));
    add(phrases("of these still drafts"), QString::number(counts.drafts));
    add(phrases("of these complete: every test answered that the visit's form asks for each time"),
        QString::number(counts.complete));
    add(phrases("Signed visits with a signed letter"), QString::number(counts.withLetter));
    add(phrases("Signed visits without a signed letter"), QString::number(counts.withoutLetter));
    add(phrases("Days from visit to signed letter: median (quartiles)"),
        counts.daysToLetter ? quartileWords(counts.daysToLetter, days, phrases)
                            : phrases("letters about fewer than %1 patients").arg(judging::fewestCounted));
    add(phrases("Patients due or overdue on the last day, of those with a review interval"),
        counts.withInterval ? shareWords(counts.due, counts.withInterval, phrases) : fewWords(phrases));
    return lines;
}

QStringList notesOf(const Phrasebook& phrases)
{
    return {
        phrases("Only visits of the period are counted, drafts among them, and none that was entered in "
                "error. The latest result of each patient is held against the first comparable one of the "
                "period; right and left are counted apart."),
        phrases("Due or overdue are patients seen by the last day, also before the period, whose review "
                "interval had run out by then; the intervals are those the clinic has set now."),
        phrases("First and latest are the median with the quartiles in brackets, of patients with a number "
                "at both; of grades each is one of the grades."),
        phrases(
            "Better and worse are beyond measurement error, of the patients whose change an error judges. "
            "Where nobody has changed, error alone would still call up to 5 % of them better or worse, "
            "about half of these worse; how many that would be stands beside."),
        phrases("Counts of fewer than %1 patients, and what rests on them, are not told, so that no person "
                "can be found.")
            .arg(judging::fewestCounted),
        phrases("Small numbers err much. The numbers describe visits and decide nothing; they do not rank "
                "therapists, who see different patients.")};
}

QString saidInstead(const judging::ServiceReport& report, const Phrasebook& phrases)
{
    if (report.isEmpty)
        return phrases("No visit that counts lies in this period.");
    if (report.counts)
        return {};
    return phrases("Fewer than %1 patients were seen in this period; nothing is told of them, so that no "
                   "person can be found.")
        .arg(judging::fewestCounted);
}

} // namespace

Composition servicePage(const judging::ServiceReport& report, const records::Clinic& clinic, QDate madeOn,
                        const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    const QString period = phrases("%1 to %2")
                               .arg(records::dayInWords(report.period.from, phrases),
                                    records::dayInWords(report.period.until, phrases));
    Composition page;
    page.title = phrases("Service report");
    page.direction = phrases.direction();
    page.identity =
        phrases.joined("%1 · %2", {base::isolated(clinic.name), phrases("Service report"), period});
    page.footer = phrases(
        "The numbers decide nothing. Two reports whose periods differ by days can show one person when "
        "subtracted.");
    page.pageWords = phrases("Page %1 of %2");
    if (clinic.isDemo)
        page.demoMark = phrases("DEMO – invented patients");

    Fields fields;
    fields.page(page.title, page.direction)
        .text("clinic", clinic.name.isEmpty() ? phrases("Clinic name not recorded") : clinic.name)
        .text("period", period)
        .text("madeOn", records::dayInWords(madeOn, phrases))
        .text("saidInstead", saidInstead(report, phrases))
        .flag("hasCounts", report.counts.has_value())
        .objects("populations", populationsOf(report.rows, catalogue, phrases))
        .list("notes", notesOf(phrases));
    if (report.counts)
        fields.objects("counts", countsOf(*report.counts, phrases));
    page.body = filled(templateNamed(QStringLiteral("service_report.html")), fields.made(), phrases);
    return page;
}

} // namespace letters
