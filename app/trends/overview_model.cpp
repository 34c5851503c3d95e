#include "app/trends/overview_model.h"

#include "app/session/messages.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace trends
{

namespace
{

struct OverviewWords {
    Q_DECLARE_TR_FUNCTIONS(trends::OverviewModel)

public:
    static QString nowOf(const OverviewLine& line)
    {
        return line.day.isEmpty() ? line.now : tr("%1 (%2)", "value (day)").arg(line.now, line.day);
    }
    static QString firstOf(const OverviewLine& line)
    {
        return line.first.isEmpty() ? QString() : tr("%1 (%2)", "value (day)").arg(line.first, line.firstDay);
    }
    static QString meaningOf(const OverviewLine& line)
    {
        return session::joined("%1, %2", {line.meaning.words, line.meaning.quiet});
    }
    static QString sided(const OverviewLine& line, const QString& words)
    {
        return line.name.isEmpty() || words.isEmpty() ? words
                                                      : tr("%1 %2", "side, words").arg(line.name, words);
    }
    /// "right first 24.1 s (04-Mar-2024), now 22.6 s, within error"
    static QString spoken(const OverviewLine& line)
    {
        const QString first = line.first.isEmpty() ? QString() : tr("first %1").arg(firstOf(line));
        return session::joined("%1, %2", {first, tr("now %1").arg(nowOf(line)), meaningOf(line)});
    }
};

QString eachLine(const OverviewRow& row, QString (*words)(const OverviewLine&))
{
    QStringList all;
    for (const OverviewLine& line : row.lines)
        all << OverviewWords::sided(line, words(line));
    return session::joined("%1; %2", all);
}

} // namespace

void OverviewModel::take(std::vector<OverviewRow> rows, OverviewTime time)
{
    beginResetModel();
    m_rows = std::move(rows);
    m_time = std::move(time);
    m_shown.clear();
    m_ticked.removeIf([this](const QString& id) {
        return std::ranges::find(m_rows, id, &OverviewRow::measure) == m_rows.end();
    });
    endResetModel();
}

void OverviewModel::ask(const OverviewAsked& asked)
{
    beginResetModel();
    m_shown = shownOf(m_rows, asked);
    endResetModel();
}

int OverviewModel::placeOf(const QString& measure) const
{
    const auto found =
        std::ranges::find_if(m_shown, [&](size_t place) { return m_rows[place].measure == measure; });
    return found == m_shown.end() ? -1 : int(found - m_shown.begin());
}

void OverviewModel::toggle(int place)
{
    const QString& id = row(place).measure;
    if (!m_ticked.remove(id))
        m_ticked.insert(id);
    Q_EMIT dataChanged(index(place, Test), index(place, Test), {Qt::CheckStateRole});
    Q_EMIT ticksChanged();
}

void OverviewModel::untick()
{
    m_ticked.clear();
    if (rowCount() > 0)
        Q_EMIT dataChanged(index(0, Test), index(rowCount() - 1, Test), {Qt::CheckStateRole});
    Q_EMIT ticksChanged();
}

QStringList OverviewModel::ticked() const
{
    QStringList found;
    for (const OverviewRow& row : m_rows) {
        if (m_ticked.contains(row.measure))
            found << row.measure;
    }
    return found;
}

int OverviewModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_shown.size());
}

int OverviewModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant OverviewModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const OverviewRow& shown = row(index.row());
    if (role == Qt::CheckStateRole && index.column() == Test)
        return int(m_ticked.contains(shown.measure) ? Qt::Checked : Qt::Unchecked);
    if (role == Qt::AccessibleTextRole && index.column() == Test)
        return session::joined("%1. %2", {shown.title, eachLine(shown, &OverviewWords::spoken)});
    if (role != Qt::DisplayRole && role != Qt::ToolTipRole && role != Qt::AccessibleTextRole)
        return {};
    switch (index.column()) {
    case Test:
        return role == Qt::ToolTipRole ? session::joined("%1. %2", {shown.title, shown.section})
                                       : shown.title;
    case Course:
        return eachLine(shown, [](const OverviewLine& line) {
            return tr("%n result(s)", nullptr, int(line.course.size()));
        });
    case First:
        return eachLine(shown, &OverviewWords::firstOf);
    case Now:
        return eachLine(shown, &OverviewWords::nowOf);
    case Meaning:
        return eachLine(shown, &OverviewWords::meaningOf);
    default:
        return {};
    }
}

bool OverviewModel::setData(const QModelIndex& index, const QVariant&, int role)
{
    if (role != Qt::CheckStateRole || !checkIndex(index, CheckIndexOption::IndexIsValid))
        return false;
    toggle(index.row());
    return true;
}

QVariant OverviewModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal)
        return {};
    if (role == Qt::ToolTipRole && section == Course)
        return tr(
            "All results on one time axis: right solid and round, left dashed and square. Rings are not "
            "comparable with the newest result, a bar is unable, a stroke at the right is the target.");
    if (role == Qt::ToolTipRole && section == First)
        return tr("The first comparable result, which the newest is held against");
    if (section == Course && role == Qt::AccessibleTextRole)
        return tr("Course");
    if (role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Test:
        return tr("Test");
    case First:
        return tr("First");
    case Now:
        return tr("Now");
    case Meaning:
        return tr("Against error");
    default:
        return {}; // what happened and the dates stand over the courses
    }
}

Qt::ItemFlags OverviewModel::flags(const QModelIndex& index) const
{
    if (!index.isValid())
        return Qt::NoItemFlags;
    const Qt::ItemFlags own = QAbstractTableModel::flags(index) | Qt::ItemNeverHasChildren;
    return index.column() == Test ? own | Qt::ItemIsUserCheckable : own;
}

} // namespace trends
