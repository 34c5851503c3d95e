#include "core/letters/blank_form.h"

#include "core/base/text.h"
#include "core/letters/letter_template.h"
#include "core/records/history.h"
#include "core/records/wording.h"

#include <algorithm>

namespace letters
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;

/// Unbroken, so that a box stays with its word; spaces beside each other would be drawn as one.
const QString box = QStringLiteral("[\u00a0]\u00a0");
const QString apart = QStringLiteral("\u00a0\u00a0 ");

QString room(int signs)
{
    return QString(signs, u'_');
}

/// "☐ slurred  ☐ scanning", with brackets that every font has.
QString boxes(const std::vector<catalogue::Option>& options, const Phrasebook& phrases)
{
    QStringList words;
    for (const catalogue::Option& option : options)
        words += phrases("[ ] %1").arg(option.title).replace(QLatin1String("[ ] "), box);
    return phrases.joined("%1 %2", words).replace(QLatin1String(" ") + box, apart + box);
}

/// What a hand fills in: a grade to be ringed, words to be ticked, a line for each trial.
QString fillIn(const Measure& measure, const Phrasebook& phrases)
{
    if (measure.kind == catalogue::Kind::Choice)
        return boxes(measure.options, phrases);
    if (measure.kind == catalogue::Kind::Grade) {
        QStringList steps;
        for (int step = int(*measure.lowest); step <= int(*measure.highest); ++step)
            steps += QString::number(step);
        return phrases("grade: %1").arg(steps.join(apart + apart));
    }
    const QString unit = values::unitWords(measure.unit, phrases);
    QStringList lines;
    for (int trial = 1; trial <= measure.trials; ++trial) {
        const QString line = unit.isEmpty() ? room(9) : QStringLiteral("%1\u00a0%2").arg(room(9), unit);
        lines += measure.trials > 1 ? QStringLiteral("%1.\u00a0%2").arg(trial).arg(line) : line;
    }
    return lines.join(apart);
}

Fields testFields(const Measure& measure, bool isExpected, const Phrasebook& phrases)
{
    std::vector<Fields> cells;
    for (const records::Side side : records::sidesOf(measure))
        cells.push_back(Fields()
                            .text("line", fillIn(measure, phrases))
                            .text("signs", boxes(measure.watchFor, phrases))
                            .flag("isWhole", side == records::Side::None));
    const QString title = records::titled(measure, phrases);
    return Fields()
        .text("test", isExpected ? phrases("%1 *").arg(title) : title)
        .text("caution", measure.caution)
        .objects("cells", cells);
}

class BlankForm
{
public:
    BlankForm(const catalogue::Form& form, const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
        : m_form(form), m_catalogue(catalogue), m_phrases(phrases)
    {
    }

    Fields filled()
    {
        Fields fields;
        std::vector<Fields> sections;
        for (const catalogue::FormSection& section : m_form.sections) {
            std::vector<Fields> tests;
            for (const QString& id : section.measures)
                add(tests, id);
            sections.push_back(Fields().text("title", section.title).objects("tests", tests));
        }
        const QStringList conditions = conditionLines();
        return fields.objects("sections", sections)
            .list("conditions", "hasConditions", conditions)
            .flag("hasFlags", !m_catalogue.redFlags.empty())
            .objects("flags", flags());
    }

private:
    /// The test, and its items after it.
    void add(std::vector<Fields>& tests, const QString& id)
    {
        const Measure* measure = m_catalogue.measure(id);
        if (measure == nullptr || measure->retired || m_taken.contains(id))
            return;
        m_taken += id;
        tests.push_back(testFields(*measure, m_form.expected.contains(id), m_phrases));
        for (const Measure& item : m_catalogue.measures) {
            if (item.partOf == id)
                add(tests, item.id);
        }
    }

    /// Those of the whole visit that a test of the form depends on, and those that are told anyway.
    QStringList conditionLines() const
    {
        QStringList lines;
        for (const catalogue::Condition& condition : m_catalogue.conditions) {
            const bool isNeeded = std::ranges::any_of(m_taken, [&](const QString& id) {
                return std::ranges::any_of(m_catalogue.measure(id)->conditions,
                                           [&](const auto& rule) { return rule.condition == condition.id; });
            });
            if (condition.isOfTest || (!isNeeded && !condition.isTold))
                continue;
            const QString unit = values::unitWords(condition.unit, m_phrases);
            const QString line =
                condition.isClosed || !condition.options.empty()
                    ? QStringLiteral("%1 %2").arg(boxes(condition.options, m_phrases), room(12))
                    : QStringLiteral("%1 %2").arg(room(24), unit).trimmed();
            lines += m_phrases("%1: %2").arg(condition.title, line);
        }
        return lines;
    }

    std::vector<Fields> flags() const
    {
        std::vector<Fields> rows;
        for (const catalogue::RedFlag& flag : m_catalogue.redFlags) {
            if (!flag.retired)
                rows.push_back(Fields()
                                   .text("question", flag.question)
                                   .text("answers", m_phrases("[ ] yes [ ] no"))
                                   .text("room", room(24)));
        }
        return rows;
    }

    const catalogue::Form& m_form;
    const catalogue::Catalogue& m_catalogue;
    const Phrasebook& m_phrases;
    QStringList m_taken;
};

} // namespace

Composition blankForm(const catalogue::Form& form, const records::Clinic& clinic,
                      const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    Composition page;
    page.title = form.title;
    page.direction = phrases.direction();
    page.paper = clinic.paper;
    page.identity = phrases("Name %1  Born %2  Record number %3").arg(room(26), room(12), room(12));
    page.footer = phrases.joined("%1 · %2", {base::isolated(clinic.name), form.title});
    page.pageWords = phrases("Page %1 of %2");
    Fields fields = BlankForm(form, catalogue, phrases).filled();
    fields.page(page.title, page.direction)
        .text("clinic", clinic.name)
        .text("careLine", phrases("Day of care %1  Time %2  Examined by %3").arg(room(12), room(8), room(24)))
        .text("entryLine", phrases("Entered on %1  by %2").arg(room(12), room(24)))
        .text("legend",
              phrases("Instead of a result: u tried and unable, n not attempted (say why), d did not wish, x "
                      "not applicable; blank: not asked. * asked for each time."))
        .list("noteLines", QStringList(6, room(90)))
        .text("flagNote", phrases("A question left open counts as not asked, never as no."));
    page.body = filled(
        templateNamed(QStringLiteral("page.html")).arg(templateNamed(QStringLiteral("blank_form.html"))),
        fields.made(), phrases);
    return page;
}

} // namespace letters
