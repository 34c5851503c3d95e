#pragma once

#include "app/session/session.h"

#include <QWidget>

class QHBoxLayout;
class QPushButton;
class QStandardItemModel;
class QTableView;

namespace widgets
{
class EmptyState;
}

namespace own
{

/// A line of a list, known by its id.
struct ListRow {
    QString id;
    QStringList cells;
};

/// A table of entries of one kind, with what can be done with the marked one above it.
class OwnList : public QWidget
{
    Q_OBJECT

public:
    /// `name` names the table for tests: "<name>Table".
    OwnList(session::Session& session, const QString& title, const QString& name, const QStringList& columns,
            QWidget* parent);

    /// Shown while there is nothing.
    void setEmpty(const QString& title, const QString& explanation, const QString& step);
    QPushButton* addButton(const QString& words, const QString& name, const QString& hint);
    void setRows(const std::vector<ListRow>& rows);
    QString current() const; ///< empty where nothing is marked
    void choose(const QString& id);
    void setBeside(QWidget* widget); ///< on the right of the table

Q_SIGNALS:
    void activated(const QString& id); ///< Enter or a double click
    void currentChanged();
    void stepTaken();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QStandardItemModel* m_model;
    QTableView* m_table;
    widgets::EmptyState* m_empty;
    QHBoxLayout* m_buttons;
    QHBoxLayout* m_middle;
};

} // namespace own
