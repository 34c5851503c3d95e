#include "app/trends/trend_table.h"

#include "app/session/messages.h"
#include "app/widgets/table_menu.h"
#include "core/base/text.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace trends
{

namespace
{

const charts::TrendEntry* entryAt(const charts::TrendLine& line, const records::VisitId& visit)
{
    const auto found = std::ranges::find(line.entries, visit, &charts::TrendEntry::visit);
    return found == line.entries.end() ? nullptr : &*found;
}

/// Bare under a title that says the unit; a trial that was stopped at the cap keeps its words.
QString plainOf(const charts::TrendEntry* entry, const charts::TrendPoints& points)
{
    if (entry == nullptr)
        return {};
    const bool isNumber = !points.isOrdinal && entry->number && !entry->isAtCap;
    return isNumber ? entry->plain : entry->words;
}

QStringList eventsAt(const charts::TrendPoints& points, const records::VisitId& visit)
{
    QStringList words;
    for (const charts::TrendEvent& event : points.events) {
        if (event.visit == visit)
            words << event.label;
    }
    return words;
}

} // namespace

void TrendTable::show(const charts::TrendPoints& points)
{
    beginResetModel();
    m_rows.clear();
    m_titles = {tr("Date")};
    m_plainTitles = m_titles;
    for (const charts::TrendLine& line : points.lines) {
        m_titles << (line.name.isEmpty() ? tr("Value") : base::capitalised(line.name));
        m_plainTitles << (points.unitWords.isEmpty() || points.isOrdinal
                              ? m_titles.last()
                              : tr("%1 (%2)", "side or value, unit").arg(m_titles.last(), points.unitWords));
        for (const charts::TrendEntry& entry : line.entries) {
            if (std::ranges::find(m_rows, entry.visit, &Row::visit) == m_rows.end())
                m_rows.push_back({entry.visit, entry.day, {}, {}});
        }
    }
    for (const charts::TrendLine& line : points.lines) {
        const QString against =
            points.isBaseline ? tr("against the baseline") : tr("against the reference visit");
        m_titles << base::capitalised(
            line.name.isEmpty() ? against
                                : tr("%1 %2", "side, what it is held against").arg(line.name, against));
    }
    const bool hasEvents = !points.events.empty();
    if (hasEvents)
        m_titles << tr("Events");
    m_titles << tr("Conditions changed") << tr("State");
    std::ranges::stable_sort(m_rows, {}, &Row::day);
    for (Row& row : m_rows) {
        QStringList verdicts;
        QStringList changes;
        bool isDraft = false;
        row.cells << session::dayInWords(row.day);
        row.plain << row.day.toString(Qt::ISODate);
        for (const charts::TrendLine& line : points.lines) {
            const charts::TrendEntry* entry = entryAt(line, row.visit);
            row.cells << (entry != nullptr ? entry->words : QString());
            row.plain << plainOf(entry, points);
            const bool isReference = entry != nullptr && entry->isReference;
            verdicts << (isReference        ? (points.isBaseline ? tr("baseline") : tr("reference visit"))
                         : entry != nullptr ? entry->verdictWords
                                            : QString());
            if (entry != nullptr) {
                changes << entry->changes;
                isDraft = entry->isDraft;
            }
        }
        changes.removeDuplicates();
        row.cells << verdicts;
        if (hasEvents)
            row.cells << session::joined("%1; %2", eventsAt(points, row.visit));
        row.cells << session::joined("%1; %2", changes) << (isDraft ? tr("draft") : QString());
    }
    endResetModel();
}

std::optional<records::VisitId> TrendTable::visit(int row) const
{
    if (row < 0 || row >= rowCount())
        return std::nullopt;
    return m_rows[size_t(row)].visit;
}

int TrendTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_rows.size());
}

int TrendTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_titles.size());
}

QVariant TrendTable::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Row& row = m_rows[size_t(index.row())];
    if (role == widgets::PlainRole)
        return index.column() < row.plain.size() ? QVariant(row.plain[index.column()]) : QVariant();
    const QString& words = row.cells[index.column()];
    if (role == Qt::DisplayRole || (role == Qt::ToolTipRole && !words.isEmpty()))
        return words;
    if (role == Qt::AccessibleTextRole)
        return words.isEmpty() ? tr("none") : words;
    return {};
}

QVariant TrendTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount())
        return {};
    if (role == widgets::PlainRole)
        return m_plainTitles.value(section, m_titles[section]);
    return role == Qt::DisplayRole ? QVariant(m_titles[section]) : QVariant();
}

} // namespace trends
