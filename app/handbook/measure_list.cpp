#include "app/handbook/measure_list.h"

#include "core/base/text.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace handbook
{

namespace
{

void addTitle(QStringList& keys, const QString& title)
{
    const QString folded = base::folded(title);
    if (!folded.isEmpty())
        keys += folded.split(u' ') + QStringList{folded};
}

QStringList keysOf(const catalogue::Measure& measure, const catalogue::Section& section,
                   const catalogue::Catalogue& catalogue)
{
    QStringList keys;
    addTitle(keys, measure.title);
    addTitle(keys, measure.shortForm);
    addTitle(keys, section.title);
    for (const catalogue::Threshold& row : catalogue.thresholds) {
        const catalogue::Population* population = catalogue.population(row.population);
        if (row.measure == measure.id && population != nullptr)
            addTitle(keys, population->title);
    }
    return keys;
}

QString titleOf(const catalogue::Measure& measure)
{
    if (measure.retired)
        return MeasureList::tr("%1 (retired)").arg(measure.title);
    return measure.isOwn ? MeasureList::tr("%1 (the clinic's own)").arg(measure.title) : measure.title;
}

} // namespace

void MeasureList::show(const catalogue::Catalogue& catalogue, const QString& typed)
{
    beginResetModel();
    m_lines.clear();
    for (const catalogue::Section& section : catalogue.sections) {
        bool isBegun = false;
        for (const catalogue::Measure& measure : catalogue.measures) {
            if (measure.section != section.id || !base::matches(keysOf(measure, section, catalogue), typed))
                continue;
            if (!isBegun)
                m_lines.push_back({{}, section.title, {}});
            isBegun = true;
            m_lines.push_back({measure.id, titleOf(measure), measure.shortForm});
        }
    }
    endResetModel();
}

bool MeasureList::isSection(int row) const
{
    return row >= 0 && row < rowCount() && m_lines[size_t(row)].measure.isEmpty();
}

QString MeasureList::measure(int row) const
{
    return row >= 0 && row < rowCount() ? m_lines[size_t(row)].measure : QString();
}

int MeasureList::rowOf(const QString& measure) const
{
    const auto line = std::ranges::find(m_lines, measure, &Line::measure);
    return measure.isEmpty() || line == m_lines.end() ? -1 : int(line - m_lines.begin());
}

int MeasureList::firstNamed(const QString& typed) const
{
    const QString folded = base::folded(typed);
    const auto isNamed = [&](const Line& line) {
        return !line.measure.isEmpty() && (base::folded(line.title).startsWith(folded) ||
                                           base::folded(line.shortForm).startsWith(folded));
    };
    const auto line = std::ranges::find_if(m_lines, isNamed);
    if (line != m_lines.end())
        return int(line - m_lines.begin());
    return m_lines.empty() ? -1 : 1;
}

int MeasureList::count() const
{
    return int(std::ranges::count_if(m_lines, [](const Line& line) { return !line.measure.isEmpty(); }));
}

int MeasureList::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_lines.size());
}

int MeasureList::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : columns;
}

QVariant MeasureList::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Line& line = m_lines[size_t(index.row())];
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole)
        return index.column() == Title ? line.title : line.shortForm;
    if (role == Qt::AccessibleTextRole && index.column() != Title && line.shortForm.isEmpty())
        return tr("no short form");
    return {};
}

QVariant MeasureList::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    return section == Title ? tr("Test") : tr("Short form");
}

Qt::ItemFlags MeasureList::flags(const QModelIndex& index) const
{
    if (!index.isValid() || isSection(index.row()))
        return Qt::NoItemFlags;
    return QAbstractTableModel::flags(index) | Qt::ItemNeverHasChildren;
}

} // namespace handbook
