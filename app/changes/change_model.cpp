#include "app/changes/change_model.h"

#include "app/session/messages.h"
#include "app/widgets/table_menu.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

/// The number alone where the words are a number and the unit, and nothing more.
QString bare(const QString& words, values::Unit unit)
{
    const QString number = words.section(u' ', 0, 0);
    const bool isBare = values::withUnit(number, unit, session::screenPhrases()) == words;
    return isBare ? QString(number).replace(u'−', u'-') : words;
}

} // namespace

void ChangeModel::take(std::vector<Row> rows, Against against, const charts::Axis& time)
{
    beginResetModel();
    m_rows = std::move(rows);
    m_lines.clear();
    m_against = against;
    m_time = time;
    endResetModel();
    Q_EMIT headerDataChanged(Qt::Horizontal, Reference, Reference);
}

void ChangeModel::arrange(std::vector<Line> lines)
{
    beginResetModel();
    m_lines = std::move(lines);
    endResetModel();
}

const Line* ChangeModel::line(int place) const
{
    return place >= 0 && place < rowCount() ? &m_lines[size_t(place)] : nullptr;
}

bool ChangeModel::isWide(int place) const
{
    const Line* shown = line(place);
    return shown != nullptr && shown->kind != Line::Kind::Row;
}

const Row* ChangeModel::row(int place) const
{
    const Line* shown = line(place);
    return shown != nullptr && shown->kind == Line::Kind::Row ? &m_rows[shown->row] : nullptr;
}

int ChangeModel::firstRow() const
{
    const auto first = std::ranges::find(m_lines, Line::Kind::Row, &Line::kind);
    return first == m_lines.end() ? -1 : int(first - m_lines.begin());
}

int ChangeModel::placeOf(const QString& measure, records::Side side) const
{
    for (int place = 0; place < rowCount(); ++place) {
        const Row* shown = row(place);
        if (shown != nullptr && shown->occasion.finding.measure == measure &&
            shown->occasion.finding.side == side)
            return place;
    }
    return -1;
}

int ChangeModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_lines.size());
}

int ChangeModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : ColumnCount;
}

QString ChangeModel::text(const Row& row, int column) const
{
    switch (column) {
    case Measure:
        return row.measure;
    case Side:
        return row.side;
    case Reference:
        return row.reference;
    case Previous:
        return row.previous;
    case Now:
        return row.now;
    case Course:
        return session::joined("%1. %2",
                               {tr("%n result(s)", nullptr, int(row.course.size())), row.targetWords});
    case Difference:
        return row.difference;
    case Verdict:
        return row.quiet.isEmpty() ? row.verdict : row.verdict + u" · "_s + row.quiet;
    case JudgedBy:
        return row.judgedBy;
    default:
        return {};
    }
}

/// The unit stands with the test, so that its numbers are bare.
QString ChangeModel::plain(const Row& row, int column) const
{
    const QString unit = values::unitWords(row.unit, session::screenPhrases());
    switch (column) {
    case Measure:
        return unit.isEmpty() ? row.measure : tr("%1 (%2)", "test, unit").arg(row.measure, unit);
    case Reference:
    case Previous:
    case Now:
    case Difference:
        return bare(text(row, column), row.unit);
    default:
        return text(row, column);
    }
}

QVariant ChangeModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Row* shown = row(index.row());
    if (shown == nullptr) {
        const bool isWord = role == Qt::DisplayRole || role == Qt::AccessibleTextRole;
        return isWord && index.column() == 0 ? QVariant(line(index.row())->words) : QVariant();
    }
    if (role == Qt::ToolTipRole && index.column() == Reference)
        return shown->referenceDay;
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole)
        return text(*shown, index.column());
    if (role == widgets::PlainRole)
        return plain(*shown, index.column());
    if (role == Qt::AccessibleTextRole) {
        const QString words = text(*shown, index.column());
        return words.isEmpty() ? tr("none") : words;
    }
    return {};
}

QVariant ChangeModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal)
        return {};
    if (section == Course && role == Qt::ToolTipRole)
        return tr(
            "All results on the time axis above; rings are not comparable with this visit, a bar at the "
            "foot is unable, a stroke at the right is the target.");
    if (section == Reference && role == Qt::ToolTipRole)
        return tr("What this visit is held against");
    if (role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Measure:
        return tr("Test");
    case Side:
        return tr("Side");
    case Reference:
        return m_against == Against::Course ? tr("First") : tr("Reference visit");
    case Previous:
        return tr("Previous");
    case Now:
        return tr("Now");
    case Course:
        return tr("Course");
    case Difference:
        return tr("Difference");
    case Verdict:
        return tr("Against error");
    case JudgedBy:
        return tr("Judged by");
    default:
        return {};
    }
}

Qt::ItemFlags ChangeModel::flags(const QModelIndex& index) const
{
    const Line* shown = index.isValid() ? line(index.row()) : nullptr;
    if (shown == nullptr || shown->kind == Line::Kind::Title)
        return Qt::NoItemFlags;
    return QAbstractTableModel::flags(index) | Qt::ItemNeverHasChildren;
}

} // namespace changes
