#pragma once

#include "app/own/form_draft.h"
#include "app/session/session.h"

#include <QAbstractListModel>

namespace own
{

/// The lines of a form: heads of sections, which can be renamed, and measures, ticked where they are
/// expected.
class FormRows : public QAbstractListModel
{
    Q_OBJECT

public:
    FormRows(const session::Session& session, QObject* parent);

    void setForm(const catalogue::Form& form);
    const catalogue::Form& form() const { return m_form; }
    Row row(int line) const { return m_rows[size_t(line)]; }
    int lineOf(const Row& row) const; ///< −1 where there is none

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

Q_SIGNALS:
    void edited(); ///< a head was renamed or a tick set

private:
    QVariant headData(const catalogue::FormSection& section, int role) const;
    QVariant measureData(const QString& id, int role) const;

    const session::Session& m_session;
    catalogue::Form m_form;
    std::vector<Row> m_rows;
};

/// The title of a measure, with what is special about it in the clinic.
QString titleOf(const catalogue::Measure& measure);
/// The same by its id, which stands for a measure the catalogue does not know.
QString titleOf(const QString& measure, const catalogue::Catalogue& catalogue);

} // namespace own
