#include "core/letters/first_page.h"

#include "core/judging/drift.h"
#include "core/letters/letter_visit.h"
#include "core/records/normal.h"
#include "core/records/wording.h"
#include "core/telling/outcome_words.h"
#include "core/telling/terms.h"
#include "core/telling/visit_words.h"
#include "core/telling/wording.h"

#include <algorithm>
#include <cmath>

namespace letters
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;
using judging::Change;
using judging::Outcome;
using judging::OutcomeKind;
using records::Side;

bool tellsSomething(const Outcome& outcome)
{
    return outcome.kind != OutcomeKind::AsBefore && outcome.kind != OutcomeKind::First;
}

/// The glance without what the author left out; what is left is as sure as it was among all.
judging::Glance without(const QStringList& leftOut, const judging::Glance& glance)
{
    judging::Glance rest = glance;
    std::erase_if(rest.order, [&](size_t place) {
        return leftOut.contains(keyOf(glance.changes[place].measure, glance.changes[place].side));
    });
    return rest;
}

/// Collects what the first page says.
class PageMaker
{
public:
    PageMaker(const Material& material, const judging::Glance& glance, const catalogue::Catalogue& catalogue,
              const Phrasebook& phrases, qsizetype named)
        : m_material(material),
          m_visit(*material.record.visit()),
          m_glance(glance),
          m_catalogue(catalogue),
          m_phrases(phrases),
          m_named(named)
    {
    }

    FirstPage made()
    {
        tellMessage();
        for (const size_t place : m_glance.order)
            addNumber(place);
        std::stable_partition(m_page.numbers.begin(), m_page.numbers.end(),
                              [](const NumberRow& row) { return row.tells; });
        addOthers();
        m_page.circumstances =
            telling::circumstances(m_visit, nullptr, m_material.patient.population, m_catalogue, m_phrases);
        m_page.notTested = notDone(m_material, m_catalogue, m_phrases);
        tellHappenings();
        return m_page;
    }

private:
    void tellMessage();
    void tellDrift(const judging::Glance& told);
    void addNumber(size_t place);
    void addOthers();
    void tellHappenings();
    Dated dated(const judging::Comparison& comparison, const Measure& measure) const;
    QString seen(const Measure& measure, Side side);
    bool isAbnormal(const Measure& measure, Side side) const;
    size_t weightOf(const Measure& measure) const;
    NamedTest expected(const Measure& measure) const;
    QString sectionOf(const Measure& measure) const;
    bool isLeftOut(const Measure& measure, Side side) const
    {
        return m_material.letter.leftOut.contains(keyOf(measure.id, side));
    }
    const Outcome* outcomeOf(const QString& measure, Side side) const;
    QString shortWords(const Outcome& outcome, const NumberRow& row) const;

    const Material& m_material;
    const records::Visit& m_visit;
    const judging::Glance& m_glance;
    const catalogue::Catalogue& m_catalogue;
    const Phrasebook& m_phrases;
    qsizetype m_named;
    FirstPage m_page;
};

const Outcome* PageMaker::outcomeOf(const QString& measure, Side side) const
{
    for (size_t place = 0; place < m_glance.changes.size(); ++place) {
        if (m_glance.changes[place].measure == measure && m_glance.changes[place].side == side)
            return &m_glance.outcomes[place];
    }
    return nullptr;
}

/// Said with how often chance would do it, and that results of one person are not independent.
void PageMaker::tellDrift(const judging::Glance& told)
{
    const auto drift = judging::driftOf(told, m_catalogue);
    if (!drift)
        return;
    const bool isWorse = drift->direction == judging::Verdict::Worse;
    const bool areAll = drift->agreeing == drift->all;
    QString lean;
    if (areAll)
        lean =
            isWorse
                ? m_phrases.counted("The %1 number within error lies slightly on the worse side of its first "
                                    "comparable result.",
                                    "All %1 numbers within error lie slightly on the worse side of their "
                                    "first comparable result.",
                                    drift->all)
                : m_phrases.counted("The %1 number within error lies slightly on the better side of its "
                                    "first comparable result.",
                                    "All %1 numbers within error lie slightly on the better side of their "
                                    "first comparable result.",
                                    drift->all);
    else
        lean =
            isWorse
                ? m_phrases.counted("%1 of %2 numbers within error lies slightly on the worse side of its "
                                    "first comparable result.",
                                    "%1 of %2 numbers within error lie slightly on the worse side of their "
                                    "first comparable result.",
                                    drift->agreeing)
                : m_phrases.counted("%1 of %2 numbers within error lies slightly on the better side of its "
                                    "first comparable result.",
                                    "%1 of %2 numbers within error lie slightly on the better side of "
                                    "their first comparable result.",
                                    drift->agreeing);
    lean = lean.arg(drift->agreeing);
    constexpr double thousand = 1000;
    const QString chance =
        m_phrases("So many would lie on one side by chance in %1 of 1,000 people if each number stood for "
                  "itself; results of one person go together, so chance is likelier than that.")
            .arg(std::max(1, int(std::ceil(drift->p * thousand))));
    m_page.drift = m_phrases.joined("%1 %2", {areAll ? lean : lean.arg(drift->all), chance});
}

void PageMaker::tellMessage()
{
    const judging::Glance told = without(m_material.letter.leftOut, m_glance);
    tellDrift(told);
    m_page.message = telling::summary(told, m_catalogue, m_phrases,
                                      judging::targetsAt(m_material.targets,
                                                         {m_material.record.visits(), m_material.patient,
                                                          m_catalogue, m_material.clinic.judging},
                                                         m_visit.day),
                                      m_named);
    std::erase_if(m_page.message,
                  [](const telling::SummaryLine& line) { return line.kind == telling::LineKind::Missing; });
    const auto judged =
        std::ranges::count_if(m_glance.outcomes, [](const Outcome& each) { return each.chance.has_value(); });
    const bool isAny = std::ranges::any_of(m_glance.outcomes, [](const Outcome& each) {
        return each.isSure && (each.kind == OutcomeKind::Worse || each.kind == OutcomeKind::Better);
    });
    if (isAny && judged > 1)
        m_page.byChance =
            m_phrases
                .counted("%1 result was judged; of those called worse or better about one in twenty is "
                         "expected to be so by chance.",
                         "%1 results were judged together; of those called worse or better about one in "
                         "twenty is expected to be so by chance.",
                         double(judged))
                .arg(judged);
}

Dated PageMaker::dated(const judging::Comparison& comparison, const Measure& measure) const
{
    const auto& value = comparison.reference.finding.value;
    return {values::isDone(value) ? records::written(value, measure, m_phrases)
                                  : telling::shortly(value, measure, m_phrases),
            comparison.reference.day};
}

void PageMaker::addNumber(size_t place)
{
    const Change& change = m_glance.changes[place];
    const Outcome& outcome = m_glance.outcomes[place];
    const Measure* measure = m_catalogue.measure(change.measure);
    if (measure == nullptr || !catalogue::isNumeric(measure->kind) ||
        isSaidByAnother(*measure, m_glance, m_catalogue))
        return;
    NumberRow row;
    row.key = keyOf(change.measure, change.side);
    if (isLeftOut(*measure, change.side))
        return;
    row.title = records::titled(*measure, m_phrases);
    row.section = sectionOf(*measure);
    row.test = records::sidedTitle(*measure, change.side, m_phrases);
    const QString value = records::written(change.now.finding.value, *measure, m_phrases);
    row.now = change.now.finding.capReached ? m_phrases("%1, stopped at the cap").arg(value) : value;
    row.words = telling::verdictLine(outcome, change, m_catalogue, m_phrases);
    row.tells = tellsSomething(outcome);
    row.words = shortWords(outcome, row);
    if (change.previous)
        row.previous = dated(*change.previous, *measure);
    if (const judging::Comparison* held = judging::decidingOf(change))
        row.first = dated(*held, *measure);
    if (change.chosen) { // the letter's own reference
        row.first = dated(*change.chosen, *measure);
        row.words = telling::verdictWords(*change.chosen, m_phrases);
    }
    m_page.numbers.push_back(std::move(row));
}

/// The message says since when and over how many visits what is worse or better is so, and why what it names
/// is not compared; the row does not say it again.
QString PageMaker::shortWords(const Outcome& outcome, const NumberRow& row) const
{
    if (outcome.kind == OutcomeKind::NotCompared) {
        const bool isNamed = std::ranges::any_of(m_page.message, [&](const telling::SummaryLine& line) {
            return line.kind == telling::LineKind::NotCompared && line.text.contains(row.title);
        });
        return isNamed ? m_phrases("not compared") : row.words;
    }
    const bool isLong = outcome.claim && !outcome.besides &&
                        (outcome.claim->strength == judging::Strength::TrendSeenOnce ||
                         outcome.claim->strength == judging::Strength::Sustained);
    if (!isLong)
        return row.words;
    const QString words = telling::claimWords(*outcome.claim, m_phrases);
    return outcome.isSure ? words : m_phrases("%1; could be chance").arg(words);
}

bool PageMaker::isAbnormal(const Measure& measure, Side side) const
{
    const records::Finding* finding = m_visit.finding(measure.id, side);
    if (isNotAsked(finding) || isLeftOut(measure, side))
        return false;
    if (values::isUnable(finding->value) || !finding->signs.isEmpty())
        return true;
    if (!values::isDone(finding->value))
        return false;
    const auto normal = records::normalValue(measure);
    if (!normal || finding->value != *normal)
        return true;
    const Outcome* outcome = outcomeOf(measure.id, side);
    return outcome != nullptr && tellsSomething(*outcome) && outcome->kind != OutcomeKind::NotCompared;
}

/// "marked, task done in part (3), slow; was 1"
QString PageMaker::seen(const Measure& measure, Side side)
{
    const records::Finding* finding = m_visit.finding(measure.id, side);
    if (isLeftOut(measure, side))
        return m_phrases("not told here");
    if (isNotAsked(finding))
        return m_phrases("not tested");
    QStringList parts = {records::written(finding->value, measure, m_phrases),
                         telling::signsWords(finding->signs, measure, m_phrases), finding->note};
    const auto place = std::ranges::find_if(m_glance.changes, [&](const Change& each) {
        return each.measure == measure.id && each.side == side;
    });
    const judging::Comparison* held = place == m_glance.changes.end() ? nullptr : judging::decidingOf(*place);
    if (held != nullptr && held->comparability.isComparable() &&
        held->reference.finding.value != finding->value) {
        m_page.was = m_phrases("“was”: at the first comparable visit.");
        parts += m_phrases("was %1").arg(telling::shortly(held->reference.finding.value, measure, m_phrases));
    }
    return m_phrases.joined("%1; %2", parts);
}

/// The smaller the weightier: what changed in its order, then the graver grades.
size_t PageMaker::weightOf(const Measure& measure) const
{
    constexpr size_t unchanged = 1000;
    constexpr size_t steps = 100;
    size_t weight = unchanged + steps;
    for (size_t rank = 0; rank < m_glance.order.size(); ++rank) {
        const size_t place = m_glance.order[rank];
        if (m_glance.changes[place].measure == measure.id && tellsSomething(m_glance.outcomes[place]))
            weight = std::min(weight, rank);
    }
    for (const Side side : records::sidesOf(measure)) {
        const records::Finding* finding = m_visit.finding(measure.id, side);
        const auto* grade = finding == nullptr ? nullptr : std::get_if<values::Grade>(&finding->value);
        if (grade != nullptr && measure.highest)
            weight = std::min(weight, unchanged + steps - size_t(std::abs(grade->step)));
    }
    return weight;
}

QString PageMaker::sectionOf(const Measure& measure) const
{
    const catalogue::Section* section = m_catalogue.section(measure.section);
    return section == nullptr ? m_phrases("Others") : section->title;
}

/// "Finger to nose", "Toe tapping, right", "Arm swing (note)"; empty where it was not done.
NamedTest PageMaker::expected(const Measure& measure) const
{
    QStringList done;
    bool isNoted = false;
    for (const Side side : records::sidesOf(measure)) {
        const records::Finding* finding = m_visit.finding(measure.id, side);
        if (finding == nullptr || !values::isDone(finding->value) || isLeftOut(measure, side))
            continue;
        const QString title = records::sidedTitle(measure, side, m_phrases);
        isNoted = isNoted || !finding->note.isEmpty();
        done += finding->note.isEmpty() ? title : m_phrases("%1 (%2)").arg(title, finding->note);
    }
    const bool isWhole = measure.hasSides && done.size() == 2 && !isNoted;
    return {isWhole ? records::titled(measure, m_phrases) : m_phrases.joined("%1, %2", done),
            sectionOf(measure), isNoted};
}

void PageMaker::addOthers()
{
    std::vector<std::pair<size_t, AbnormalRow>> abnormal;
    for (const Measure& measure : m_catalogue.measures) {
        if (catalogue::isNumeric(measure.kind))
            continue;
        const std::vector<Side> sides = records::sidesOf(measure);
        if (std::ranges::any_of(sides, [&](Side side) { return isAbnormal(measure, side); })) {
            AbnormalRow row{measure.id, records::titled(measure, m_phrases), {}, {}, {}, sectionOf(measure)};
            if (measure.hasSides) {
                row.right = seen(measure, Side::Right);
                row.left = seen(measure, Side::Left);
            } else {
                row.whole = seen(measure, Side::None);
            }
            abnormal.emplace_back(weightOf(measure), std::move(row));
            if (const QString scale = records::directionWords(measure, m_phrases);
                measure.kind == catalogue::Kind::Grade && !m_page.scales.contains(scale))
                m_page.scales += scale;
        } else if (NamedTest test = expected(measure); !test.words.isEmpty()) {
            m_page.asExpected.push_back(std::move(test));
        }
    }
    std::ranges::stable_sort(abnormal, {}, [](const auto& each) { return each.first; });
    m_page.abnormal.reserve(abnormal.size());
    for (auto& [weight, row] : abnormal)
        m_page.abnormal.push_back(std::move(row));
}

void PageMaker::tellHappenings()
{
    const auto& visits = m_material.record.visits();
    const QDate before = visits.size() > 1 ? visits[visits.size() - 2].day : QDate();
    QStringList told;
    bool hasFall = false;
    bool hasRelapse = false;
    for (const records::Happening& each : m_material.happenings) {
        const QDate until = each.until.value_or(each.from);
        if (each.from > m_visit.day || (before.isValid() && until < before))
            continue;
        hasFall = hasFall || each.kind == records::HappeningKind::Fall;
        hasRelapse = hasRelapse || each.kind == records::HappeningKind::Relapse;
        const QString what = m_phrases("%1 (%2)").arg(records::kindWords(each, m_phrases),
                                                      records::daysInWords(each, m_phrases));
        told += m_phrases.joined("%1: %2", {what, each.words});
    }
    if (!told.isEmpty())
        m_page.happened = (before.isValid() ? m_phrases("Since %1: %2.") : m_phrases("Until %1: %2."))
                              .arg(records::dayInWords(before.isValid() ? before : m_visit.day, m_phrases),
                                   m_phrases.joined("%1; %2", told));
    const bool isCounted = std::ranges::any_of(m_visit.findings, [&](const records::Finding& finding) {
        const Measure* measure = m_catalogue.measure(finding.measure);
        return measure != nullptr && measure->countsEvents && !isNotAsked(&finding);
    });
    if (m_material.isAsked && !hasFall && !hasRelapse)
        m_page.asked = m_phrases("Falls and relapses since then were asked about: none.");
    else if (m_material.isAsked && !hasFall)
        m_page.asked = m_phrases("Falls since then were asked about: none.");
    else if (!m_material.isAsked && !hasFall && !isCounted && m_material.letter.history.trimmed().isEmpty())
        m_page.asked = m_phrases("Falls: not stated.");
}

} // namespace

QString keyOf(const QString& measure, Side side)
{
    return side == Side::None ? measure : QStringLiteral("%1/%2").arg(measure, records::code(side));
}

bool isSaidByAnother(const Measure& measure, const judging::Glance& glance,
                     const catalogue::Catalogue& catalogue)
{
    const auto isThere = [&](const QString& id) {
        return std::ranges::any_of(glance.changes, [&](const Change& each) { return each.measure == id; });
    };
    if (!measure.partOf.isEmpty())
        return isThere(measure.partOf);
    return std::ranges::any_of(catalogue.measures, [&](const Measure& other) {
        return other.computed && other.computed->rule == catalogue::Computing::Speed &&
               other.computed->parts.contains(measure.id) && isThere(other.id);
    });
}

std::optional<judging::Glance> glanceOf(const Material& material, const catalogue::Catalogue& catalogue)
{
    const records::Visit* visit = material.record.visit();
    if (visit == nullptr)
        return std::nullopt;
    return judging::glanceAt(
        visit->id, material.letter.reference,
        {material.record.visits(), material.patient, catalogue, material.clinic.judging});
}

FirstPage firstPageOf(const Material& material, const catalogue::Catalogue& catalogue,
                      const Phrasebook& phrases, qsizetype named)
{
    const auto glance = glanceOf(material, catalogue);
    return glance ? PageMaker(material, *glance, catalogue, phrases, named).made() : FirstPage();
}

std::vector<Choosable> choosable(const Material& material, const catalogue::Catalogue& catalogue,
                                 const Phrasebook& phrases)
{
    const auto glance = glanceOf(material, catalogue);
    if (!glance)
        return {};
    std::vector<Choosable> all;
    all.reserve(glance->order.size());
    for (const size_t place : glance->order) {
        const Change& change = glance->changes[place];
        const Outcome& outcome = glance->outcomes[place];
        if (const Measure* measure = catalogue.measure(change.measure))
            all.push_back(
                {keyOf(change.measure, change.side), records::sidedTitle(*measure, change.side, phrases),
                 telling::verdictLine(outcome, change, catalogue, phrases), tellsSomething(outcome)});
    }
    return all;
}

} // namespace letters
