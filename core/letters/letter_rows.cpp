#include "core/letters/letter_rows.h"
#include "core/records/history.h"

#include "core/letters/letter_visit.h"
#include "core/records/wording.h"
#include "core/telling/course_words.h"
#include "core/telling/declared_words.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <algorithm>

#include <cmath>

namespace letters
{

namespace
{

using judging::Change;
using judging::Comparison;
using judging::Verdict;
using records::Side;

/// Decimals beyond the measure's own that show a difference and its limit apart.
int decimalsOf(const Comparison& comparison, const catalogue::Measure& measure)
{
    if (!comparison.difference || !comparison.threshold)
        return 0;
    const double limit = comparison.threshold->limitFor(*comparison.difference, measure.better);
    return telling::tellingDecimals(std::abs(*comparison.difference), limit, measure);
}

/// Collects the rows while it walks the catalogue.
class RowMaker
{
public:
    RowMaker(const Material& material, const records::Visit& visit, const catalogue::Catalogue& catalogue,
             const base::Phrasebook& phrases)
        : m_material(material),
          m_visit(visit),
          m_catalogue(catalogue),
          m_phrases(phrases),
          m_changes(changesOf(material, catalogue))
    {
    }

    Rows made()
    {
        for (const catalogue::Measure& measure : m_catalogue.measures) {
            if (catalogue::isNumeric(measure.kind))
                addMeasure(measure);
            else
                addFinding(measure);
        }
        gatherCautions();
        addRates();
        m_rows.cautions += compositeLines(m_material, m_catalogue, m_phrases);
        return m_rows;
    }

private:
    void addFinding(const catalogue::Measure& measure);
    void addMeasure(const catalogue::Measure& measure);
    void addComparisons(MeasureRow& row, const Change& change, const catalogue::Measure& measure);
    void gatherCautions();
    QString seen(const catalogue::Measure& measure, Side side) const;
    QStringList besides(const records::Finding& finding, const catalogue::Measure& measure) const;
    Earlier earlier(const Comparison& comparison, const judging::Change& change,
                    const catalogue::Measure& measure);
    void keepLongest(const judging::Raised& raised);
    void addRates();
    void addLimit(MeasureRow& row, const Comparison& comparison, const catalogue::Measure& measure);
    QString limitWords(const Comparison& comparison, const catalogue::Measure& measure) const;
    QStringList cautions(const Change& change, const Comparison& comparison) const;
    void addDeclared(const catalogue::Measure& measure, Side side);

    const Material& m_material;
    const records::Visit& m_visit;
    const catalogue::Catalogue& m_catalogue;
    const base::Phrasebook& m_phrases;
    std::vector<Change> m_changes;
    std::map<QString, QStringList> m_declared; ///< a clinician's word, and the tests it is about
    std::map<statistics::FlagRule, judging::Raised> m_raised; ///< of each rule over the most visits
    int m_courses = 0;                                        ///< looked at anew at every visit
    Rows m_rows;
};

/// What was seen beside the value.
QStringList RowMaker::besides(const records::Finding& finding, const catalogue::Measure& measure) const
{
    QStringList parts = {finding.capReached ? m_phrases("stopped at the cap") : QString(),
                         telling::signsWords(finding.signs, measure, m_phrases), finding.note};
    parts.removeAll(QString());
    return parts;
}

QString RowMaker::seen(const catalogue::Measure& measure, Side side) const
{
    const records::Finding* finding = m_visit.finding(measure.id, side);
    if (isNotAsked(finding))
        return m_phrases("not tested");
    const QString value = records::writtenInFull(finding->value, measure, m_phrases);
    const QString words = m_phrases.joined("%1; %2", QStringList(value) + besides(*finding, measure));
    const Change* change = changeOf(m_changes, measure.id, side);
    if (change == nullptr || !earlierOf(*change))
        return words;
    const Comparison& comparison = *earlierOf(*change);
    const QString earlier = records::written(comparison.reference.finding.value, measure, m_phrases);
    const QString day = records::dayInWords(comparison.reference.day, m_phrases);
    const QString before =
        comparison.verdict == Verdict::NoThreshold || comparison.verdict == Verdict::Same
            ? m_phrases("was %1 on %2").arg(earlier, day)
            : m_phrases("was %1 on %2: %3").arg(earlier, day, telling::verdictWords(comparison, m_phrases));
    return words + u'\n' + before;
}

void RowMaker::addFinding(const catalogue::Measure& measure)
{
    const std::vector<Side> sides = records::sidesOf(measure);
    if (std::ranges::all_of(sides, [&](Side side) { return isNotAsked(m_visit.finding(measure.id, side)); }))
        return;
    FindingRow row;
    row.test = records::titled(measure, m_phrases);
    if (measure.hasSides) {
        row.right = seen(measure, Side::Right);
        row.left = seen(measure, Side::Left);
    } else {
        row.whole = seen(measure, Side::None);
    }
    m_rows.findings.push_back(row);
    for (const Side side : sides)
        addDeclared(measure, side);
}

Earlier RowMaker::earlier(const Comparison& comparison, const judging::Change& change,
                          const catalogue::Measure& measure)
{
    const bool isAtConfidence = comparison.threshold && comparison.threshold->row.confidence;
    m_rows.judged += isAtConfidence && comparison.difference ? 1 : 0;
    Earlier earlier;
    earlier.value = records::written(comparison.reference.finding.value, measure, m_phrases);
    earlier.day = records::dayInWords(comparison.reference.day, m_phrases);
    if (comparison.difference && comparison.verdict != Verdict::NotComparable)
        earlier.difference = telling::signedAmount(*comparison.difference, measure, m_phrases,
                                                   decimalsOf(comparison, measure));
    earlier.verdict = telling::verdictWords(comparison, m_phrases);
    earlier.strength = telling::strengthWords(comparison, change, m_catalogue, m_phrases);
    if (comparison.raised)
        keepLongest(*comparison.raised);
    if (change.course.trend && change.course.trend->raised)
        keepLongest(*change.course.trend->raised);
    if (change.course.trend && change.course.trend->reversal && change.course.trend->reversal->raised)
        keepLongest(*change.course.trend->reversal->raised);
    earlier.isJudged = comparison.verdict != Verdict::NoThreshold && comparison.verdict != Verdict::Same;
    if (comparison.verdict == Verdict::NotComparable)
        earlier.reason = whyNotComparable(comparison, m_catalogue, m_phrases);
    return earlier;
}

QString RowMaker::limitWords(const Comparison& comparison, const catalogue::Measure& measure) const
{
    const judging::Applied& applied = *comparison.threshold;
    const int decimals = decimalsOf(comparison, measure);
    const QString better = telling::amount(applied.improvement, measure, m_phrases, decimals);
    if (applied.improvement == applied.decline)
        return better;
    return m_phrases("%1 for the better, %2 for the worse")
        .arg(better, telling::amount(applied.decline, measure, m_phrases, decimals));
}

void RowMaker::addLimit(MeasureRow& row, const Comparison& comparison, const catalogue::Measure& measure)
{
    if (!comparison.threshold)
        return;
    const catalogue::Threshold& evidence = comparison.threshold->row;
    const QString written = telling::written(evidence, m_catalogue, m_phrases);
    const QString inFull = (evidence.note.endsWith(u'.') ? m_phrases("%1 Why this threshold: %2.")
                                                         : m_phrases("%1. Why this threshold: %2."))
                               .arg(written, telling::whyThisRow(comparison, m_catalogue, m_phrases));
    if (!m_rows.sources.contains(inFull))
        m_rows.sources += inFull;
    const catalogue::Source* source = m_catalogue.source(evidence.source);
    const QString name = source != nullptr ? source->shortForm : evidence.source;
    const QString words = evidence.checked == catalogue::Checked::Memory ? m_phrases("%1, from memory [%2]")
                                                                         : m_phrases("%1 [%2]");
    const Limit limit{limitWords(comparison, measure),
                      words.arg(name, QString::number(m_rows.sources.indexOf(inFull) + 1))};
    if (row.limits.empty() || row.limits.back() != limit)
        row.limits.push_back(limit);
}

/// What speaks for caution, and the clinician's word it rests on.
QStringList RowMaker::cautions(const Change& change, const Comparison& comparison) const
{
    QStringList lines = telling::cautions(change, comparison, m_catalogue, m_phrases);
    if (comparison.comparability.isComparable())
        lines += telling::declaredWords(comparison, m_material.patient, m_material.record.visits(),
                                        m_catalogue, m_phrases);
    lines.removeAll(QString());
    return lines;
}

/// The rows of graded and worded tests have no room for it, so it is gathered.
void RowMaker::addDeclared(const catalogue::Measure& measure, Side side)
{
    const Change* change = changeOf(m_changes, measure.id, side);
    if (change == nullptr || !earlierOf(*change) || !earlierOf(*change)->comparability.isComparable())
        return;
    const QString words = telling::declaredWords(*earlierOf(*change), m_material.patient,
                                                 m_material.record.visits(), m_catalogue, m_phrases);
    if (!words.isEmpty())
        m_declared[words] += records::sidedTitle(measure, side, m_phrases);
}

void RowMaker::addComparisons(MeasureRow& row, const Change& change, const catalogue::Measure& measure)
{
    if (!change.now.computedFrom.isEmpty())
        row.notes += change.now.computedFrom.in(m_phrases);
    m_courses += judging::coursesWatched(change);
    const auto& previous = earlierOf(change);
    if (previous) {
        row.previous = earlier(*previous, change, measure);
        if (m_material.letter.reference && !change.chosen) // it does not hold this measure
            row.previous->day = m_phrases("%1, the previous").arg(row.previous->day);
        addLimit(row, *previous, measure);
        row.cautions = cautions(change, *previous);
    }
    if (!change.baseline)
        return;
    row.isBaselinePrevious = previous && previous->reference.visit == change.baseline->reference.visit;
    if (row.isBaselinePrevious)
        return;
    row.baseline = earlier(*change.baseline, change, measure);
    addLimit(row, *change.baseline, measure);
    for (const QString& caution : cautions(change, *change.baseline)) {
        if (!row.cautions.contains(caution))
            row.cautions += m_phrases("Baseline: %1").arg(caution);
    }
    if (row.limits.size() == 2) {
        const QString first = change.chosen ? m_phrases("%1 (reference visit)") : m_phrases("%1 (previous)");
        row.limits.front().words = first.arg(row.limits.front().words);
        row.limits.back().words = m_phrases("%1 (baseline)").arg(row.limits.back().words);
    }
}

void RowMaker::addMeasure(const catalogue::Measure& measure)
{
    for (const Side side : records::sidesOf(measure)) {
        const records::Finding* finding = m_visit.finding(measure.id, side);
        const Change* change = changeOf(m_changes, measure.id, side);
        if (change == nullptr && isNotAsked(finding))
            continue;
        MeasureRow row;
        row.measure = records::sidedTitle(measure, side, m_phrases);
        const records::Finding& now = change != nullptr ? change->now.finding : *finding;
        row.isDone = change != nullptr;
        if (const auto* missing = std::get_if<values::Missing>(&now.value)) {
            row.today = records::written(missing->why, m_phrases);
            row.notes += missing->reason;
        } else {
            row.today = records::written(now.value, measure, m_phrases);
        }
        row.notes += besides(now, measure);
        row.notes.removeAll(QString());
        if (row.isDone)
            addComparisons(row, *change, measure);
        m_rows.measures.push_back(row);
    }
}

/// Says once what is to be borne in mind for several measures, or has no row to stand in.
void RowMaker::gatherCautions()
{
    std::map<QString, QStringList> measuresOf = m_declared;
    for (const MeasureRow& row : m_rows.measures) {
        for (const QString& caution : row.cautions)
            measuresOf[caution] += row.measure;
    }
    for (const auto& [caution, measures] : measuresOf) {
        if (measures.size() < 2 && !m_declared.contains(caution))
            continue;
        m_rows.cautions += m_phrases("%1 (%2)").arg(caution, m_phrases.joined("%1; %2", measures));
        for (MeasureRow& row : m_rows.measures)
            row.cautions.removeAll(caution);
    }
}

void RowMaker::keepLongest(const judging::Raised& raised)
{
    const auto [kept, isNew] = m_raised.try_emplace(raised.rule, raised);
    if (!isNew && kept->second.visits < raised.visits)
        kept->second = raised;
}

void RowMaker::addRates()
{
    for (const auto& each : m_raised)
        m_rows.rates += telling::raisedWords(each.second, m_material.clinic.judging, m_phrases);
    m_rows.rates += telling::familyWords(m_courses, m_material.clinic.judging, m_phrases);
    m_rows.rates.removeAll(QString());
}

} // namespace

Rows rowsOf(const Material& material, const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    const records::Visit* visit = material.record.visit();
    return visit == nullptr ? Rows() : RowMaker(material, *visit, catalogue, phrases).made();
}

} // namespace letters
