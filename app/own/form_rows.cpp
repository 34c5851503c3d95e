#include "app/own/form_rows.h"

#include "app/own/panels.h"
#include "core/base/text.h"
#include "core/catalogue/catalogue.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

QString titleOf(const catalogue::Measure& measure)
{
    QString title = measure.title;
    if (measure.isOwn)
        title = FormRows::tr("%1 (the clinic's own)").arg(title);
    return measure.retired ? FormRows::tr("%1 (retired)").arg(title) : title;
}

QString titleOf(const QString& id, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(id);
    return measure == nullptr ? id : titleOf(*measure);
}

FormRows::FormRows(const session::Session& session, QObject* parent)
    : QAbstractListModel(parent), m_session(session)
{
}

void FormRows::setForm(const catalogue::Form& form)
{
    beginResetModel();
    m_form = form;
    m_rows = rows(form);
    endResetModel();
}

int FormRows::lineOf(const Row& row) const
{
    const auto place = std::ranges::find(m_rows, row);
    return place == m_rows.end() ? -1 : int(place - m_rows.begin());
}

int FormRows::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(m_rows.size());
}

QVariant FormRows::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    const Row& row = m_rows[size_t(index.row())];
    const catalogue::FormSection& section = m_form.sections[size_t(row.section)];
    return row.isHead() ? headData(section, role) : measureData(section.measures.at(row.measure), role);
}

QVariant FormRows::headData(const catalogue::FormSection& section, int role) const
{
    if (role == Qt::DisplayRole || role == Qt::EditRole)
        return section.title;
    if (role == Qt::AccessibleTextRole)
        return tr("Section %1").arg(section.title);
    if (role == Qt::FontRole)
        return headFont();
    return {};
}

QVariant FormRows::measureData(const QString& id, int role) const
{
    const bool isExpected = m_form.expected.contains(id);
    const QString title = titleOf(id, m_session.catalogue());
    if (role == Qt::DisplayRole)
        return title;
    if (role == Qt::AccessibleTextRole)
        return isExpected ? tr("%1, expected").arg(title) : title;
    if (role == Qt::CheckStateRole)
        return isExpected ? Qt::Checked : Qt::Unchecked;
    return {};
}

bool FormRows::setData(const QModelIndex& index, const QVariant& value, int role)
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return false;
    const Row& row = m_rows[size_t(index.row())];
    catalogue::FormSection& section = m_form.sections[size_t(row.section)];
    const QString title = base::tidied(value.toString());
    if (row.isHead() && role == Qt::EditRole && !title.isEmpty())
        section.title = title;
    else if (!row.isHead() && role == Qt::CheckStateRole)
        setExpected(m_form, section.measures.at(row.measure), value.toInt() == Qt::Checked);
    else
        return false;
    Q_EMIT dataChanged(index, index);
    Q_EMIT edited();
    return true;
}

Qt::ItemFlags FormRows::flags(const QModelIndex& index) const
{
    if (!index.isValid())
        return Qt::NoItemFlags;
    const Qt::ItemFlags always = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    return always | (row(index.row()).isHead() ? Qt::ItemIsEditable : Qt::ItemIsUserCheckable);
}

} // namespace own
