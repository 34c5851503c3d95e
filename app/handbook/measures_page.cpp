#include "app/handbook/measures_page.h"

#include "app/handbook/measure_list.h"
#include "app/handbook/measure_view.h"
#include "app/handbook/section_delegate.h"
#include "app/widgets/button_action.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>
#include <QSplitter>
#include <QTableView>

using namespace Qt::StringLiterals;

namespace handbook
{

namespace
{

constexpr int widestList = 340;

} // namespace

MeasuresPage::MeasuresPage(session::Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_measures(new MeasureList(this))
{
    auto* halves = new QSplitter(this);
    // Made in the order Tab goes: search, list, page, and what is on top last.
    halves->addWidget(madeList());
    m_view = new MeasureView(m_session, this);
    halves->addWidget(m_view);
    halves->setChildrenCollapsible(false);
    halves->setStretchFactor(0, 0);
    halves->setStretchFactor(1, 1);
    halves->setSizes({350, 880});
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(widgets::space6, widgets::space4, widgets::space6, widgets::space4);
    column->setSpacing(widgets::space3);
    column->addWidget(madeTop());
    column->addWidget(halves, 1);
    setFocusProxy(m_search);
    bindKeys();
    for (const QString& act : {u"printMeasure"_s, u"ownThreshold"_s, u"ownError"_s})
        m_list->addAction(new widgets::ButtonAction(*findChild<QPushButton*>(act), *m_list));
    connect(m_view, &MeasureView::measureAsked, this, &MeasuresPage::showMeasure);
    connect(m_view, &MeasureView::visitAsked, this, &MeasuresPage::visitAsked);
    connect(&m_session, &session::Session::catalogueChanged, this, &MeasuresPage::fill);
    search();
}

QWidget* MeasuresPage::madeTop()
{
    auto* top = new QWidget(this);
    auto* title = new QLabel(tr("Tests"), top);
    title->setFont(widgets::titleFont());
    m_count = new QLabel(top);
    m_count->setObjectName(u"measureCount"_s);
    m_count->setProperty("role", u"quiet"_s);
    auto* ownMeasure = new QPushButton(tr("Own test…"), top);
    ownMeasure->setObjectName(u"ownMeasure"_s);
    ownMeasure->setToolTip(tr("Add a test of this clinic"));
    auto* ownThreshold = new QPushButton(tr("Own threshold…"), top);
    ownThreshold->setObjectName(u"ownThreshold"_s);
    ownThreshold->setToolTip(tr("Add a threshold of change with its source to the test shown"));
    m_study = new QPushButton(tr("Own error…"), top);
    m_study->setObjectName(u"ownError"_s);
    m_study->setToolTip(tr("Work out this clinic's own measurement error of the test shown"));
    auto* print = new QPushButton(tr("&Print…"), top);
    print->setObjectName(u"printMeasure"_s);
    new QShortcut(QKeySequence::Print, print, print, &QPushButton::click);
    print->setToolTip(tr("The page of the test shown; key: Ctrl+P"));
    auto* back = new QPushButton(tr("Back"), top);
    back->setObjectName(u"measuresBack"_s);
    back->setProperty("kind", u"quiet"_s);
    back->setToolTip(tr("To where you came from (Escape)"));
    auto* row = new QHBoxLayout(top);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space3);
    row->addWidget(title);
    row->addWidget(m_count);
    row->addStretch();
    row->addWidget(back);
    row->addWidget(print);
    row->addWidget(m_study);
    row->addWidget(ownThreshold);
    row->addWidget(ownMeasure);
    connect(ownMeasure, &QPushButton::clicked, this, &MeasuresPage::ownMeasureAsked);
    connect(m_study, &QPushButton::clicked, this, [this] { Q_EMIT ownErrorAsked(measure()); });
    connect(ownThreshold, &QPushButton::clicked, this, [this] { Q_EMIT ownThresholdAsked(measure()); });
    connect(print, &QPushButton::clicked, m_view, &MeasureView::print);
    connect(back, &QPushButton::clicked, this, &MeasuresPage::left);
    return top;
}

QWidget* MeasuresPage::madeList()
{
    auto* side = new QWidget(this);
    side->setMaximumWidth(widestList);
    m_search = new QLineEdit(side);
    m_search->setObjectName(u"measureSearch"_s);
    m_search->setPlaceholderText(tr("Title, short form, section or population"));
    m_search->setAccessibleName(tr("Search tests"));
    m_search->setToolTip(tr("Ctrl+F"));
    m_search->setClearButtonEnabled(true);
    m_search->installEventFilter(this);
    m_list = new QTableView(side);
    m_list->setObjectName(u"measureList"_s);
    m_list->setAccessibleName(tr("Tests"));
    m_list->setModel(m_measures);
    m_list->setItemDelegate(new SectionDelegate(m_list));
    widgets::dress(*m_list);
    m_list->horizontalHeader()->hide();
    m_list->horizontalHeader()->setSectionResizeMode(MeasureList::Title, QHeaderView::Stretch);
    m_list->horizontalHeader()->setSectionResizeMode(MeasureList::ShortForm, QHeaderView::ResizeToContents);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->installEventFilter(this);
    new widgets::TableMenu(*m_list, {}); // the page has what is printed
    m_empty = new widgets::EmptyState({}, {}, {}, side);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, widgets::space2, 0);
    column->setSpacing(widgets::space2);
    column->addWidget(m_search);
    column->addWidget(m_list, 1);
    column->addWidget(m_empty, 1);
    connect(m_search, &QLineEdit::textChanged, this, &MeasuresPage::search);
    connect(m_empty, &widgets::EmptyState::stepTaken, m_search, &QLineEdit::clear);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& current) {
                if (const QString id = m_measures->measure(current.row()); !id.isEmpty())
                    m_view->showMeasure(id);
                const catalogue::Measure* shown = m_session.catalogue().measure(m_view->measure());
                m_study->setEnabled(shown != nullptr && catalogue::isNumeric(shown->kind));
            });
    return side;
}

void MeasuresPage::bindKeys()
{
    const auto bind = [this](const QKeySequence& keys, auto act) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, act);
    };
    bind(QKeySequence::Find, [this] {
        m_search->setFocus(Qt::ShortcutFocusReason);
        m_search->selectAll();
    });
    bind(Qt::Key_Escape, [this] { escape(); });
}

/// The first whose name is typed becomes the one shown.
void MeasuresPage::search()
{
    fill();
    if (m_measures->count() > 0 && !m_search->text().isEmpty())
        m_list->setCurrentIndex(m_measures->index(m_measures->firstNamed(m_search->text()), 0));
}

void MeasuresPage::fill()
{
    const QString shown = m_view->measure();
    m_measures->show(m_session.catalogue(), m_search->text());
    const int found = m_measures->count();
    m_list->clearSpans();
    for (int row = 0; row < m_measures->rowCount(); ++row) {
        if (m_measures->isSection(row))
            m_list->setSpan(row, 0, 1, MeasureList::columns);
    }
    const int again = m_measures->rowOf(shown);
    if (found > 0)
        m_list->setCurrentIndex(m_measures->index(again >= 0 ? again : m_measures->firstNamed({}), 0));
    m_list->setVisible(found > 0);
    m_empty->setVisible(found == 0);
    m_count->setText(tr("%1 of %2").arg(found).arg(m_session.catalogue().measures.size()));
    if (m_search->text().isEmpty())
        m_empty->setWords(tr("No tests"), tr("The tests of the catalogue will be listed here."), {});
    else
        m_empty->setWords(
            tr("Nothing found"),
            tr("No title, short form, section or population begins with “%1”.").arg(m_search->text()),
            tr("Show all tests"));
}

void MeasuresPage::showMeasure(const QString& id)
{
    if (m_measures->rowOf(id) < 0)
        m_search->clear();
    const int row = m_measures->rowOf(id);
    if (row < 0)
        return;
    const QModelIndex index = m_measures->index(row, 0);
    m_list->setCurrentIndex(index);
    m_list->scrollTo(index, QAbstractItemView::PositionAtCenter);
}

QString MeasuresPage::measure() const
{
    return m_view->measure();
}

void MeasuresPage::takeList()
{
    m_list->setFocus(Qt::OtherFocusReason);
}

void MeasuresPage::escape()
{
    if (m_search->hasFocus() && !m_search->text().isEmpty())
        m_search->clear();
    else
        Q_EMIT left();
}

bool MeasuresPage::searchKey(int key)
{
    if (key != Qt::Key_Down && key != Qt::Key_Return && key != Qt::Key_Enter)
        return false;
    if (m_measures->count() > 0)
        takeList();
    return true;
}

/// What is typed in the list is searched for.
bool MeasuresPage::listKey(const QString& typed, int key)
{
    const bool isSpace = key == Qt::Key_Space;
    if (typed.isEmpty() || !typed.at(0).isPrint() || isSpace)
        return false;
    m_search->setFocus(Qt::OtherFocusReason);
    m_search->setText(typed);
    return true;
}

bool MeasuresPage::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::KeyPress)
        return QWidget::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool isPlain = !(key->modifiers() & (Qt::ControlModifier | Qt::AltModifier));
    if (watched == m_search)
        return searchKey(key->key());
    return watched == m_list && isPlain && listKey(key->text(), key->key());
}

} // namespace handbook
