#include "core/letters/letter_rows.h"

#include "core/interpretation/terms.h"
#include "core/interpretation/wording.h"
#include "core/records/wording.h"

#include <algorithm>

#include <cmath>

namespace letters
{

namespace
{

using interpretation::Change;
using interpretation::Comparison;
using interpretation::Verdict;
using records::Side;

bool isNumeric(const catalogue::Measure& measure)
{
    return measure.kind != catalogue::Kind::Grade && measure.kind != catalogue::Kind::Choice;
}

std::vector<Side> sidesOf(const catalogue::Measure& measure)
{
    return measure.hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
}

const Change* changeOf(const std::vector<Change>& changes, const QString& measure, Side side)
{
    const auto found = std::ranges::find_if(
        changes, [&](const Change& change) { return change.measure == measure && change.side == side; });
    return found == changes.end() ? nullptr : &*found;
}

bool isNotAsked(const records::Finding* finding)
{
    if (finding == nullptr)
        return true;
    const auto* missing = std::get_if<values::Missing>(&finding->value);
    return missing != nullptr && missing->why == values::Absence::NotAsked;
}

/// Decimals beyond the measure's own that show a difference and its limit apart.
int decimalsOf(const Comparison& comparison, const catalogue::Measure& measure)
{
    if (!comparison.difference || !comparison.threshold)
        return 0;
    const double limit = comparison.threshold->limitFor(*comparison.difference, measure.better);
    return interpretation::tellingDecimals(std::abs(*comparison.difference), limit, measure);
}

/// The condition's value as people read it.
QString conditionValue(const catalogue::Condition& condition, const QString& value)
{
    for (const catalogue::Option& option : condition.options) {
        if (option.key == value)
            return option.title;
    }
    const QString unit = values::symbol(condition.unit);
    return condition.isNumber && !unit.isEmpty() ? value + u' ' + unit : value;
}

/// Collects the rows while it walks the catalogue.
class RowMaker
{
public:
    RowMaker(const Material& material, const records::Visit& visit, const catalogue::Catalogue& catalogue,
             const base::Phrasebook& phrases)
        : m_visit(visit),
          m_catalogue(catalogue),
          m_phrases(phrases),
          m_changes(changesOf(material, catalogue))
    {
    }

    Rows made()
    {
        for (const catalogue::Measure& measure : m_catalogue.measures) {
            if (isNumeric(measure))
                addMeasure(measure);
            else
                addFinding(measure);
        }
        gatherCautions();
        addNotDone();
        addConditions();
        return m_rows;
    }

private:
    void addFinding(const catalogue::Measure& measure);
    void addMeasure(const catalogue::Measure& measure);
    void addComparisons(MeasureRow& row, const Change& change, const catalogue::Measure& measure);
    void gatherCautions();
    void addNotDone();
    void addConditions();
    QString seen(const catalogue::Measure& measure, Side side) const;
    QStringList besides(const records::Finding& finding) const;
    Earlier earlier(const Comparison& comparison, const catalogue::Measure& measure);
    void addEvidence(MeasureRow& row, const Comparison& comparison, const catalogue::Measure& measure);
    QString limitWords(const Comparison& comparison, const catalogue::Measure& measure) const;

    const records::Visit& m_visit;
    const catalogue::Catalogue& m_catalogue;
    const base::Phrasebook& m_phrases;
    std::vector<Change> m_changes;
    Rows m_rows;
};

/// What was seen beside the value.
QStringList RowMaker::besides(const records::Finding& finding) const
{
    QStringList parts = {finding.capReached ? m_phrases("stopped at the cap") : QString(),
                         finding.signs.join(QStringLiteral(", ")), finding.note};
    parts.removeAll(QString());
    return parts;
}

QString RowMaker::seen(const catalogue::Measure& measure, Side side) const
{
    const records::Finding* finding = m_visit.finding(measure.id, side);
    if (isNotAsked(finding))
        return m_phrases("not tested");
    const QString words =
        (QStringList(records::written(finding->value, measure, m_phrases)) + besides(*finding))
            .join(QStringLiteral("; "));
    const Change* change = changeOf(m_changes, measure.id, side);
    if (change == nullptr || !earlierOf(*change))
        return words;
    const Comparison& comparison = *earlierOf(*change);
    QString before = m_phrases("was %1 on %2")
                         .arg(records::written(comparison.reference.finding.value, measure, m_phrases),
                              records::dayInWords(comparison.reference.day));
    if (comparison.verdict != Verdict::NoThreshold)
        before += QStringLiteral(": ") + interpretation::written(comparison.verdict, m_phrases);
    return words + u'\n' + before;
}

void RowMaker::addFinding(const catalogue::Measure& measure)
{
    const std::vector<Side> sides = sidesOf(measure);
    if (std::ranges::all_of(sides, [&](Side side) { return isNotAsked(m_visit.finding(measure.id, side)); }))
        return;
    FindingRow row;
    row.test = measure.title;
    if (measure.kind == catalogue::Kind::Grade)
        row.scale = records::directionWords(measure, m_phrases);
    if (measure.hasSides) {
        row.right = seen(measure, Side::Right);
        row.left = seen(measure, Side::Left);
    } else {
        row.whole = seen(measure, Side::None);
    }
    m_rows.findings.push_back(row);
}

Earlier RowMaker::earlier(const Comparison& comparison, const catalogue::Measure& measure)
{
    const bool isAtConfidence = comparison.threshold && comparison.threshold->row.confidence;
    m_rows.judged += isAtConfidence && comparison.difference ? 1 : 0;
    Earlier earlier;
    earlier.value = records::written(comparison.reference.finding.value, measure, m_phrases);
    earlier.day = records::dayInWords(comparison.reference.day);
    if (comparison.difference)
        earlier.difference =
            interpretation::signedAmount(*comparison.difference, measure, decimalsOf(comparison, measure));
    earlier.verdict = interpretation::written(comparison.verdict, m_phrases);
    earlier.isJudged = comparison.verdict != Verdict::NoThreshold;
    if (comparison.verdict == Verdict::NotComparable)
        earlier.reason = interpretation::why(comparison, m_catalogue, m_phrases);
    return earlier;
}

QString RowMaker::limitWords(const Comparison& comparison, const catalogue::Measure& measure) const
{
    const interpretation::Applied& applied = *comparison.threshold;
    const int decimals = decimalsOf(comparison, measure);
    const QString better = interpretation::amount(applied.improvement, measure, decimals);
    if (applied.improvement == applied.decline)
        return better;
    return m_phrases("%1 for the better, %2 for the worse")
        .arg(better, interpretation::amount(applied.decline, measure, decimals));
}

void RowMaker::addEvidence(MeasureRow& row, const Comparison& comparison, const catalogue::Measure& measure)
{
    if (!comparison.threshold || !row.threshold.isEmpty())
        return;
    const catalogue::Threshold& evidence = comparison.threshold->row;
    row.threshold = limitWords(comparison, measure);
    const catalogue::Source* source = m_catalogue.source(evidence.source);
    row.source = source != nullptr ? source->shortForm : evidence.source;
    if (evidence.checked == catalogue::Checked::Memory)
        row.source = m_phrases("%1, from memory").arg(row.source);
    const QString inFull = interpretation::written(evidence, m_catalogue, m_phrases);
    if (!m_rows.sources.contains(inFull))
        m_rows.sources += inFull;
    row.sourceNumber = int(m_rows.sources.indexOf(inFull)) + 1;
}

void RowMaker::addComparisons(MeasureRow& row, const Change& change, const catalogue::Measure& measure)
{
    if (!change.now.computedFrom.isEmpty())
        row.notes += change.now.computedFrom;
    const auto& previous = earlierOf(change);
    if (previous) {
        row.previous = earlier(*previous, measure);
        addEvidence(row, *previous, measure);
        row.cautions = interpretation::cautions(*previous, m_catalogue, m_phrases);
    }
    if (!change.baseline)
        return;
    row.isBaselinePrevious = previous && previous->reference.visit == change.baseline->reference.visit;
    if (row.isBaselinePrevious)
        return;
    row.baseline = earlier(*change.baseline, measure);
    addEvidence(row, *change.baseline, measure);
}

void RowMaker::addMeasure(const catalogue::Measure& measure)
{
    for (const Side side : sidesOf(measure)) {
        const records::Finding* finding = m_visit.finding(measure.id, side);
        const Change* change = changeOf(m_changes, measure.id, side);
        if (change == nullptr && isNotAsked(finding))
            continue;
        MeasureRow row;
        row.measure = titleOf(measure, side, m_phrases);
        const records::Finding& now = change != nullptr ? change->now.finding : *finding;
        row.isDone = change != nullptr;
        if (const auto* missing = std::get_if<values::Missing>(&now.value)) {
            row.today = records::written(missing->why, m_phrases);
            row.notes += missing->reason;
        } else {
            row.today = records::written(now.value, measure, m_phrases);
        }
        row.notes += besides(now);
        row.notes.removeAll(QString());
        if (row.isDone)
            addComparisons(row, *change, measure);
        m_rows.measures.push_back(row);
    }
}

/// Says once what is to be borne in mind for several measures.
void RowMaker::gatherCautions()
{
    std::map<QString, QStringList> measuresOf;
    for (const MeasureRow& row : m_rows.measures) {
        for (const QString& caution : row.cautions)
            measuresOf[caution] += row.measure;
    }
    for (const auto& [caution, measures] : measuresOf) {
        if (measures.size() < 2)
            continue;
        m_rows.cautions += m_phrases("%1 (%2)").arg(caution, measures.join(QStringLiteral("; ")));
        for (MeasureRow& row : m_rows.measures)
            row.cautions.removeAll(caution);
    }
}

void RowMaker::addNotDone()
{
    const catalogue::Form* form = m_catalogue.form(m_visit.form);
    if (form == nullptr)
        return;
    for (const QString& id : form->measures) {
        const catalogue::Measure* measure = m_catalogue.measure(id);
        if (measure == nullptr)
            continue;
        const std::vector<Side> sides = sidesOf(*measure);
        const auto isOpen = [&](Side side) {
            return isNotAsked(m_visit.finding(id, side)) && changeOf(m_changes, id, side) == nullptr;
        };
        if (std::ranges::all_of(sides, isOpen)) {
            m_rows.notDone += measure->title;
            continue;
        }
        for (const Side side : sides) {
            const records::Finding* finding = m_visit.finding(id, side);
            if (isOpen(side))
                m_rows.notDone += titleOf(*measure, side, m_phrases);
            else if (finding != nullptr && !values::isDone(finding->value) &&
                     !values::isUnable(finding->value))
                m_rows.notDone +=
                    m_phrases("%1 (%2)").arg(titleOf(*measure, side, m_phrases),
                                             records::written(finding->value, *measure, m_phrases));
        }
    }
}

void RowMaker::addConditions()
{
    QStringList notRecorded;
    for (const catalogue::Condition& condition : m_catalogue.conditions) {
        const QString value = records::recorded(m_visit.conditions, condition.id);
        if (value.isEmpty())
            notRecorded += condition.title.toLower();
        else
            m_rows.conditions += m_phrases("%1: %2").arg(condition.title, conditionValue(condition, value));
    }
    for (const records::Finding& finding : m_visit.findings) {
        const catalogue::Measure* measure = m_catalogue.measure(finding.measure);
        for (const auto& [id, value] : finding.exceptions) {
            const catalogue::Condition* condition = m_catalogue.condition(id);
            if (measure == nullptr || condition == nullptr)
                continue;
            const QString words =
                value.isEmpty() ? m_phrases("not recorded") : conditionValue(*condition, value);
            m_rows.conditions +=
                m_phrases("%1 only: %2 %3")
                    .arg(titleOf(*measure, finding.side, m_phrases), condition->title.toLower(), words);
        }
    }
    if (!notRecorded.isEmpty())
        m_rows.conditions += m_phrases("Not recorded: %1").arg(notRecorded.join(QStringLiteral(", ")));
}

} // namespace

const records::Visit* visitOf(const Material& material)
{
    const auto found = std::ranges::find(material.visits, material.letter.visit, &records::Visit::id);
    return found == material.visits.end() ? nullptr : &*found;
}

std::vector<Change> changesOf(const Material& material, const catalogue::Catalogue& catalogue)
{
    return interpretation::changesAt(material.letter.visit, material.letter.reference, material.visits,
                                     material.patient, catalogue);
}

const std::optional<Comparison>& earlierOf(const Change& change)
{
    return change.chosen ? change.chosen : change.previous;
}

Rows rowsOf(const Material& material, const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    const records::Visit* visit = visitOf(material);
    return visit == nullptr ? Rows() : RowMaker(material, *visit, catalogue, phrases).made();
}

QString titleOf(const catalogue::Measure& measure, Side side, const base::Phrasebook& phrases)
{
    return side == Side::None ? measure.title
                              : phrases("%1, %2").arg(measure.title, records::written(side, phrases));
}

} // namespace letters
