#include "core/letters/pattern_page.h"

#include "core/base/text.h"
#include "core/letters/first_page.h"
#include "core/letters/letter_template.h"
#include "core/reading/patterns.h"
#include "core/records/wording.h"
#include "core/telling/reading_words.h"

#include <algorithm>

namespace letters
{

namespace
{

using base::Phrasebook;
using catalogue::PatternRule;
using reading::Bearing;
using reading::PatternReading;
using reading::Place;

class PatternTeller
{
public:
    PatternTeller(const records::Visit& visit, const catalogue::Catalogue& catalogue,
                  const Phrasebook& phrases)
        : m_visit(visit), m_catalogue(catalogue), m_phrases(phrases)
    {
    }

    Fields told(const catalogue::Pattern& pattern, const PatternReading& read) const
    {
        Fields fields;
        fields.text("title",
                    pattern.isOwn ? m_phrases("%1 (the clinic's own)").arg(pattern.title) : pattern.title);
        fields.flag("isReadable", read.needed.empty());
        if (!read.needed.empty()) {
            fields.text("needed",
                        m_phrases("not tested: %1").arg(m_phrases.joined("%1; %2", words(read.needed))));
            return fields;
        }
        std::vector<Fields> untested;
        for (const Place& place : read.notTested)
            untested.push_back(line(place, telling::placeWords(place, m_visit, m_catalogue, m_phrases)));
        const QString noneSeen = m_phrases("nothing recorded");
        fields.objects("columns", {column(bearings(read.supports, pattern.supports), noneSeen),
                                   column(bearings(read.contradicts, pattern.contradicts), noneSeen),
                                   column(untested, m_phrases("all of it was tested"))});
        fields.text("note", pattern.note);
        return fields;
    }

private:
    QStringList words(const std::vector<Place>& places) const
    {
        QStringList all;
        for (const Place& place : places)
            all += telling::placeWords(place, m_visit, m_catalogue, m_phrases);
        return all;
    }

    static Fields line(const Place& place, const QString& words)
    {
        return Fields().text("key", keyOf(place.measure, place.side)).text("words", words);
    }

    static Fields column(const std::vector<Fields>& lines, const QString& otherwise)
    {
        return Fields().objects("lines", lines).text("none", lines.empty() ? otherwise : QString());
    }

    std::vector<Fields> bearings(const std::vector<Bearing>& all, const std::vector<PatternRule>& rules) const
    {
        std::vector<Fields> lines;
        for (const Bearing& bearing : all) {
            const PatternRule& rule = rules[bearing.rule];
            lines.push_back(
                line(bearing.places.front(), telling::bearingWords(bearing, m_visit, m_catalogue, m_phrases))
                    .text("origin", telling::originWords(rule.source, rule.checked, m_catalogue, m_phrases)));
        }
        return lines;
    }

    const records::Visit& m_visit;
    const catalogue::Catalogue& m_catalogue;
    const Phrasebook& m_phrases;
};

} // namespace

QString patternBody(const records::Visit& visit, const catalogue::Catalogue& catalogue,
                    const Phrasebook& phrases)
{
    const PatternTeller teller(visit, catalogue, phrases);
    const auto readings = reading::readings(visit, catalogue);
    std::vector<Fields> told;
    for (size_t place = 0; place < readings.size(); ++place)
        told.push_back(teller.told(catalogue.patterns[place], readings[place]));
    Fields fields;
    fields.objects("patterns", told)
        .text("about",
              phrases(
                  "Findings of this visit that are seen together, side by side, in a fixed order. Nothing is "
                  "counted or weighed, and nothing here is a diagnosis: more than one pattern may fit, or "
                  "none. Signs that are no part of these tests are not known here."));
    return filled(templateNamed(QStringLiteral("patterns.html")), fields.made(), phrases);
}

Composition patternPage(const records::Visit& visit, const records::Patient& patient,
                        const records::Clinic& clinic, const catalogue::Catalogue& catalogue, QDate today,
                        const Phrasebook& phrases)
{
    Composition page;
    page.title = phrases("Patterns");
    page.direction = phrases.direction();
    page.identity = records::identityLine(patient, today, phrases);
    page.footer = base::isolated(clinic.name);
    page.pageWords = phrases("Page %1 of %2");
    page.paper = clinic.paper;
    if (visit.state == records::VisitState::Draft)
        page.draftMark = phrases("DRAFT");
    if (clinic.isDemo)
        page.demoMark = phrases("DEMO – invented patient");
    Fields fields;
    fields.page(page.title, page.direction)
        .text("day", phrases("Patterns, visit of %1").arg(records::dayInWords(visit.day, phrases)));
    const QString head = filled(
        templateNamed(QStringLiteral("page.html")).arg(QStringLiteral("<p class=\"clinic\">{{day}}</p>%1")),
        fields.made(), phrases);
    page.body = QString(head).replace(QLatin1String("%1"), patternBody(visit, catalogue, phrases));
    return page;
}

} // namespace letters
