#include "app/patients/patient_table.h"

#include "app/patients/patient_search.h"
#include "app/session/messages.h"
#include "core/base/text.h"
#include "core/records/patient.h"
#include "core/values/age.h"

#include <tuple>

using namespace Qt::StringLiterals;

namespace patients
{

namespace
{

QString bornInWords(const records::PatientSummary& patient, QDate today)
{
    if (!patient.born)
        return PatientTable::tr("not recorded");
    const auto age = values::ageInYears(*patient.born, today);
    const QString day = session::dayInWords(*patient.born);
    return age ? PatientTable::tr("%1 (%2)", "day of birth, age").arg(day, QString::number(*age)) : day;
}

QString lastVisitInWords(const records::PatientSummary& patient)
{
    if (!patient.lastVisit)
        return PatientTable::tr("none yet");
    const QString day = session::dayInWords(*patient.lastVisit);
    return patient.hasDraft ? PatientTable::tr("%1, draft open").arg(day) : day;
}

QString shown(const records::PatientSummary& patient, int column, QDate today)
{
    switch (column) {
    case PatientTable::Family:
        return patient.family;
    case PatientTable::Given:
        return patient.given;
    case PatientTable::Born:
        return bornInWords(patient, today);
    case PatientTable::RecordNumber:
        return patient.recordNumber;
    case PatientTable::Diagnosis:
        return patient.diagnosis;
    case PatientTable::LastVisit:
        return lastVisitInWords(patient);
    case PatientTable::Visits:
        return QString::number(patient.visits);
    default:
        return {};
    }
}

} // namespace

void PatientTable::setPatients(std::vector<records::PatientSummary> patients, QDate today)
{
    beginResetModel();
    m_patients = std::move(patients);
    m_today = today;
    m_keys.assign(m_patients.size(), {});
    endResetModel();
}

const QStringList& PatientTable::keys(int row) const
{
    QStringList& keys = m_keys.at(static_cast<size_t>(row));
    if (keys.isEmpty())
        keys = searchKeys(patient(row));
    return keys;
}

int PatientTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(m_patients.size());
}

int PatientTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : columns;
}

QVariant PatientTable::data(const QModelIndex& index, int role) const
{
    if (!index.isValid())
        return {};
    if (role == Qt::DisplayRole || (role == Qt::ToolTipRole && index.column() == Diagnosis))
        return shown(patient(index.row()), index.column(), m_today);
    if (role == Qt::TextAlignmentRole && index.column() == Visits)
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter);
    return {};
}

QVariant PatientTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal)
        return {};
    if (role == Qt::TextAlignmentRole && section == Visits)
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter);
    if (role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Family:
        return tr("Family name");
    case Given:
        return tr("Given name");
    case Born:
        return tr("Born (age)");
    case RecordNumber:
        return tr("Record number");
    case Diagnosis:
        return tr("Diagnosis");
    case LastVisit:
        return tr("Last visit");
    case Visits:
        return tr("Visits");
    default:
        return {};
    }
}

FoundPatients::FoundPatients(PatientTable& table, QObject* parent)
    : QSortFilterProxyModel(parent), m_table(table)
{
    m_collator.setCaseSensitivity(Qt::CaseInsensitive);
    m_collator.setNumericMode(true);
    setSourceModel(&table);
}

void FoundPatients::search(const QString& typed)
{
    m_typed = typed;
    invalidateFilter();
}

const records::PatientSummary& FoundPatients::patient(const QModelIndex& index) const
{
    return m_table.patient(mapToSource(index).row());
}

QModelIndex FoundPatients::indexOf(const records::PatientId& id) const
{
    for (int row = 0; row < rowCount(); ++row) {
        if (patient(index(row, 0)).id == id)
            return index(row, 0);
    }
    return {};
}

bool FoundPatients::filterAcceptsRow(int row, const QModelIndex&) const
{
    return m_typed.isEmpty() || base::matches(m_table.keys(row), m_typed);
}

bool FoundPatients::lessThan(const QModelIndex& left, const QModelIndex& right) const
{
    const records::PatientSummary& a = m_table.patient(left.row());
    const records::PatientSummary& b = m_table.patient(right.row());
    const auto names = [this](const QString& one, const QString& other) {
        return m_collator.compare(one, other);
    };
    const int byName = names(a.family, b.family) != 0 ? names(a.family, b.family) : names(a.given, b.given);
    switch (left.column()) {
    case PatientTable::Born:
        return std::tuple(a.born, byName) < std::tuple(b.born, 0);
    case PatientTable::LastVisit:
        return std::tuple(a.lastVisit, byName) < std::tuple(b.lastVisit, 0);
    case PatientTable::Visits:
        return std::tuple(a.visits, byName) < std::tuple(b.visits, 0);
    case PatientTable::Family:
        return byName < 0;
    default:
        const int byText = names(left.data().toString(), right.data().toString());
        return byText != 0 ? byText < 0 : byName < 0;
    }
}

} // namespace patients
