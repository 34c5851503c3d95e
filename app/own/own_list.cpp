#include "app/own/own_list.h"

#include "app/widgets/button_action.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPushButton>
#include <QStandardItemModel>
#include <QTableView>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace own
{

OwnList::OwnList(session::Session& session, const QString& title, const QString& name,
                 const QStringList& columns, QWidget* parent)
    : QWidget(parent),
      m_model(new QStandardItemModel(0, int(columns.size()), this)),
      m_table(new QTableView(this)),
      m_empty(new widgets::EmptyState({}, {}, {}, this)),
      m_buttons(new QHBoxLayout),
      m_middle(new QHBoxLayout)
{
    m_model->setHorizontalHeaderLabels(columns);
    m_table->setObjectName(name + u"Table"_s);
    m_table->setAccessibleName(title);
    m_table->setModel(m_model);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    widgets::dress(*m_table);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_table->installEventFilter(this);
    new widgets::TableMenu(*m_table, [title, &session] { return widgets::sheetOf(title, session.clinic()); });
    m_empty->hide();
    setFocusProxy(m_table);

    m_buttons->setSpacing(widgets::space2);
    m_buttons->addStretch();
    m_middle->setSpacing(widgets::space4);
    m_middle->addWidget(m_table, 6);
    m_middle->addWidget(m_empty, 6);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(widgets::space3);
    column->addLayout(m_buttons);
    column->addLayout(m_middle, 1);
    connect(m_table, &QTableView::doubleClicked, this, [this] { Q_EMIT activated(current()); });
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &OwnList::currentChanged);
    connect(m_empty, &widgets::EmptyState::stepTaken, this, &OwnList::stepTaken);
}

void OwnList::setEmpty(const QString& title, const QString& explanation, const QString& step)
{
    m_empty->setWords(title, explanation, step);
}

QPushButton* OwnList::addButton(const QString& words, const QString& name, const QString& hint)
{
    auto* button = new QPushButton(words, this);
    button->setObjectName(name);
    button->setToolTip(hint);
    m_table->insertAction(m_table->actions().at(m_table->actions().size() - 2),
                          new widgets::ButtonAction(*button, *m_table));
    m_buttons->insertWidget(m_buttons->count() - 1, button);
    return button;
}

void OwnList::setBeside(QWidget* widget)
{
    m_middle->addWidget(widget, 5);
}

void OwnList::setRows(const std::vector<ListRow>& rows)
{
    const QString marked = current();
    m_model->removeRows(0, m_model->rowCount());
    for (const ListRow& row : rows) {
        QList<QStandardItem*> items;
        for (const QString& cell : row.cells) {
            items += new QStandardItem(cell);
            items.last()->setToolTip(cell);
        }
        items.first()->setData(row.id, Qt::UserRole);
        m_model->appendRow(items);
    }
    m_table->setVisible(!rows.empty());
    m_empty->setVisible(rows.empty());
    choose(marked);
    Q_EMIT currentChanged();
}

QString OwnList::current() const
{
    const QModelIndex index = m_table->currentIndex();
    return index.isValid() ? index.siblingAtColumn(0).data(Qt::UserRole).toString() : QString();
}

void OwnList::choose(const QString& id)
{
    for (int row = 0; row < m_model->rowCount(); ++row) {
        if (m_model->item(row)->data(Qt::UserRole).toString() == id) {
            m_table->setCurrentIndex(m_model->index(row, 0));
            return;
        }
    }
    if (m_model->rowCount() > 0)
        m_table->setCurrentIndex(m_model->index(0, 0));
}

bool OwnList::eventFilter(QObject* watched, QEvent* event)
{
    if (watched != m_table || event->type() != QEvent::KeyPress)
        return false;
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key != Qt::Key_Return && key != Qt::Key_Enter)
        return false;
    if (!current().isEmpty())
        Q_EMIT activated(current());
    return true;
}

} // namespace own
