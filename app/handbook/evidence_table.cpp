#include "app/handbook/evidence_table.h"

#include "app/handbook/evidence_words.h"
#include "app/session/messages.h"
#include "core/telling/row_words.h"

using namespace Qt::StringLiterals;

namespace handbook
{

void EvidenceTable::show(const QString& measure, const catalogue::Catalogue& catalogue)
{
    beginResetModel();
    m_rows.clear();
    const catalogue::Measure* of = catalogue.measure(measure);
    const base::Phrasebook& phrases = session::screenPhrases();
    for (const auto answers : {catalogue::Answers::Error, catalogue::Answers::Important}) {
        for (const catalogue::Threshold& row : catalogue.thresholds) {
            if (of == nullptr || row.measure != measure || row.answers != answers)
                continue;
            const catalogue::Source* source = catalogue.source(row.source);
            const QString interval = telling::intervalWords(row, phrases);
            m_rows.push_back(
                {{answerWords(row), valueWords(row, *of, phrases), peopleWords(row, catalogue, phrases),
                  row.n ? QString::number(*row.n) : tr("not stated"),
                  interval.isEmpty() ? tr("not stated") : interval, confidenceWords(row, phrases),
                  originWords(row, catalogue)},
                 detailWords(row, catalogue, phrases),
                 source != nullptr ? linkOf(*source) : QString()});
        }
    }
    endResetModel();
}

QStringList EvidenceTable::detail(int row) const
{
    return row >= 0 && row < rowCount() ? m_rows[size_t(row)].detail : QStringList();
}

QString EvidenceTable::link(int row) const
{
    return row >= 0 && row < rowCount() ? m_rows[size_t(row)].link : QString();
}

int EvidenceTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_rows.size());
}

int EvidenceTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : columns;
}

QVariant EvidenceTable::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole)
        return m_rows[size_t(index.row())].cells[index.column()];
    if (role == Qt::AccessibleTextRole && m_rows[size_t(index.row())].cells[index.column()].isEmpty())
        return tr("not stated");
    if (role == Qt::TextAlignmentRole && index.column() == Number)
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter);
    return {};
}

QVariant EvidenceTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal)
        return {};
    if (role == Qt::ToolTipRole && section == Answers)
        return tr("Error: is a change beyond measurement error? Importance: does it matter?");
    if (role == Qt::TextAlignmentRole && section == Number)
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter);
    if (role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Answers:
        return tr("Answers");
    case Value:
        return tr("Value");
    case People:
        return tr("People");
    case Number:
        return tr("n");
    case Interval:
        return tr("Between");
    case Confidence:
        return tr("Confidence");
    case Source:
        return tr("Source");
    default:
        return {};
    }
}

} // namespace handbook
