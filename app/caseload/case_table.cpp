#include "app/caseload/case_table.h"

#include "app/session/messages.h"
#include "core/base/rounding.h"
#include "core/records/patient.h"
#include "core/telling/case_words.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace caseload
{

CaseTable::CaseTable(const CaseList& list, session::Session& session, QObject* parent)
    : QAbstractTableModel(parent), m_list(list), m_session(session)
{
}

void CaseTable::show(const Filter& filter, bool hasNames)
{
    beginResetModel();
    m_hasNames = hasNames;
    m_rows.clear();
    const QDate today = m_session.today();
    for (size_t place = 0; place < m_list.entries().size(); ++place) {
        if (isShown(m_list.entries()[place], filter, today))
            m_rows.push_back(place);
    }
    endResetModel();
}

int CaseTable::rowOf(const records::PatientId& id) const
{
    const auto found =
        std::ranges::find_if(m_rows, [&](size_t place) { return m_list.entries()[place].of.patient == id; });
    return found == m_rows.end() ? -1 : int(found - m_rows.begin());
}

int CaseTable::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_rows.size());
}

int CaseTable::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : ColumnCount;
}

QString CaseTable::text(const Entry& entry, int column) const
{
    const base::Phrasebook& phrases = session::screenPhrases();
    const auto day = [&](const std::optional<QDate>& of) {
        return of ? records::dayInWords(*of, phrases) : QString();
    };
    const judging::Case& of = entry.of;
    switch (column) {
    case Number:
        return of.recordNumber;
    case Name:
        return m_hasNames ? session::joined("%1, %2", {of.family, of.given}) : QString();
    case Population:
        return entry.population;
    case Clinician:
        return of.clinician;
    case LastVisit:
        return of.draft ? tr("draft %1").arg(day(of.draft)) : day(of.lastSeen);
    case Due:
        return entry.isDue(m_session.today()) && *entry.due < m_session.today()
                   ? tr("overdue, %n day(s)", nullptr, int(entry.due->daysTo(m_session.today())))
               : of.lastSeen && !entry.due ? tr("not set")
                                           : day(entry.due);
    case Strongest:
        return of.summary ? telling::strongestWords(of, m_session.catalogue(), phrases)
                          : tr("not worked out yet");
    case Flags:
        return of.summary && of.summary->flags > 0 ? tr("%1, by chance %2")
                                                         .arg(of.summary->flags)
                                                         .arg(base::fixed(of.summary->expectedFalse, 1))
                                                   : QString();
    default:
        return {};
    }
}

QVariant CaseTable::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Entry& shown = entry(index.row());
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole)
        return text(shown, index.column());
    if (role == Qt::AccessibleTextRole) {
        const QString words = text(shown, index.column());
        return words.isEmpty() ? tr("none") : words;
    }
    return {};
}

QVariant CaseTable::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    switch (section) {
    case Number:
        return tr("No.");
    case Name:
        return tr("Name");
    case Population:
        return tr("Population");
    case Clinician:
        return tr("Clinician");
    case LastVisit:
        return tr("Last visit");
    case Due:
        return tr("Due");
    case Strongest:
        return tr("Strongest change");
    case Flags:
        return tr("Flags");
    default:
        return {};
    }
}

} // namespace caseload
