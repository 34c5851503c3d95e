#include "app/changes/change_model.h"

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

/// How much a row has to tell.
int interest(const Row& row)
{
    if (!row.comparison)
        return 0;
    switch (row.comparison->verdict) {
    case judging::Verdict::BecameUnable:
    case judging::Verdict::BecameAble:
        return 3;
    case judging::Verdict::Better:
    case judging::Verdict::Worse:
        return 2;
    case judging::Verdict::StepBetter:
    case judging::Verdict::StepWorse:
    case judging::Verdict::Changed:
    case judging::Verdict::WithinError:
    case judging::Verdict::NotComparable:
        return row.change.course.trend && row.change.course.trend->direction ? 2 : 1;
    case judging::Verdict::Same:
    case judging::Verdict::NoThreshold:
        break;
    }
    return 0;
}

} // namespace

void ChangeModel::show(const std::vector<Row>& rows)
{
    beginResetModel();
    m_rows = rows;
    m_lines.clear();
    for (size_t i = 0; i < m_rows.size(); ++i) {
        const bool begins = i == 0 || m_rows[i].section != m_rows[i - 1].section;
        if (begins && !m_rows[i].section.isEmpty())
            m_lines.push_back({true, i});
        m_lines.push_back({false, i});
    }
    endResetModel();
}

bool ChangeModel::isSection(int place) const
{
    return place >= 0 && place < rowCount() && m_lines[size_t(place)].isSection;
}

const Row* ChangeModel::row(int place) const
{
    if (place < 0 || place >= rowCount() || isSection(place))
        return nullptr;
    return &m_rows[m_lines[size_t(place)].row];
}

int ChangeModel::tellingRow() const
{
    int telling = m_rows.empty() ? -1 : isSection(0) ? 1 : 0;
    int most = 0;
    for (int place = 0; place < rowCount(); ++place) {
        const Row* shown = row(place);
        if (shown != nullptr && interest(*shown) > most) {
            most = interest(*shown);
            telling = place;
        }
    }
    return telling;
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
    case Day:
        return row.referenceDay;
    case Now:
        return row.now;
    case Difference:
        return row.difference;
    case StripColumn:
        return row.stripWords;
    case Verdict:
        return qualified(row).isEmpty() ? row.verdict : row.verdict + u" · "_s + qualified(row);
    default:
        return {};
    }
}

QVariant ChangeModel::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Row* shown = row(index.row());
    if (shown == nullptr) {
        const bool isWord = role == Qt::DisplayRole || role == Qt::AccessibleTextRole;
        return isWord && index.column() == 0 ? QVariant(m_rows[m_lines[size_t(index.row())].row].section)
                                             : QVariant();
    }
    if (role == Qt::DisplayRole)
        return index.column() == Verdict && shown->isUnjudged ? u"–"_s : text(*shown, index.column());
    if (role == Qt::ToolTipRole)
        return text(*shown, index.column());
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
    if (section == StripColumn && role == Qt::AccessibleTextRole)
        return tr("Against the threshold of error");
    if (section == StripColumn && role == Qt::ToolTipRole)
        return tr(
            "Shaded: the range of measurement error. The ends are three times the threshold; an arrow goes "
            "beyond.");
    if (section == Reference && role == Qt::ToolTipRole)
        return tr("At the reference visit");
    if (role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Measure:
        return tr("Test");
    case Side:
        return tr("Side");
    case Reference:
        return tr("Earlier");
    case Day:
        return tr("On");
    case Now:
        return tr("This visit");
    case Difference:
        return tr("Difference");
    case StripColumn:
        return tr("Worse  ◂  ▸  better");
    case Verdict:
        return tr("Against error");
    default:
        return {};
    }
}

Qt::ItemFlags ChangeModel::flags(const QModelIndex& index) const
{
    if (!index.isValid() || isSection(index.row()))
        return Qt::NoItemFlags;
    return QAbstractTableModel::flags(index) | Qt::ItemNeverHasChildren;
}

} // namespace changes
