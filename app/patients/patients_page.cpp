#include "app/patients/patients_page.h"

#include "app/patients/detail_words.h"
#include "app/patients/patient_form.h"
#include "app/patients/patient_table.h"
#include "app/session/messages.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/icons.h"
#include "app/widgets/let_undo_past.h"
#include "app/widgets/notice.h"
#include "app/widgets/table_menu.h"
#include "app/widgets/theme.h"
#include "app/widgets/undo_buttons.h"

#include <QAction>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace patients
{

PatientsPage::PatientsPage(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QWidget(parent),
      m_session(session),
      m_prompts(prompts),
      m_patients(new PatientTable(this)),
      m_found(new FoundPatients(*m_patients, this)),
      m_stack(new QStackedWidget(this)),
      m_form(new PatientForm(session, prompts, this))
{
    m_list = madeList();
    m_stack->addWidget(m_list);
    m_stack->addWidget(m_form);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(m_stack);

    auto* newKey = new QShortcut(QKeySequence(u"Ctrl+N"_s), this);
    newKey->setContext(Qt::WidgetWithChildrenShortcut);
    connect(newKey, &QShortcut::activated, this, &PatientsPage::newPatient);
    connect(m_form, &PatientForm::saved, this, &PatientsPage::formSaved);
    connect(m_form, &PatientForm::cancelled, this, &PatientsPage::formCancelled);
    connect(m_form, &PatientForm::otherChosen, this, &PatientsPage::opened);
    // Hidden, it waits for the next showing.
    const auto follow = [this] {
        if (isVisible())
            reload();
    };
    connect(&m_session, &session::Session::patientChanged, this, follow);
    connect(&m_session, &session::Session::visitsChanged, this, follow);
}

QWidget* PatientsPage::madeList()
{
    auto* list = new QWidget(this);
    m_notice = new widgets::Notice(list);
    m_empty = new widgets::EmptyState({}, {}, {}, list);
    auto* column = new QVBoxLayout(list);
    column->setContentsMargins(widgets::space6, widgets::space6, widgets::space6, widgets::space6);
    column->setSpacing(widgets::space4);
    column->addWidget(madeTop(list));
    column->addWidget(m_notice);
    madeTable(list);
    column->addWidget(m_table, 1);
    column->addWidget(m_empty, 1);
    m_undo = new widgets::UndoButtons(u"Details"_s, list);
    column->addWidget(m_undo, 0, Qt::AlignLeading);
    connect(m_undo, &widgets::UndoButtons::undoAsked, this, &PatientsPage::undo);
    connect(m_undo, &widgets::UndoButtons::redoAsked, this, &PatientsPage::redo);
    connect(&m_session, &session::Session::editsChanged, this, &PatientsPage::sayWhatWasEdited);
    sayWhatWasEdited();
    connect(m_empty, &widgets::EmptyState::stepTaken, this, [this] {
        if (m_patients->rowCount() == 0)
            newPatient();
        else
            m_search->clear();
    });
    return list;
}

QWidget* PatientsPage::madeTop(QWidget* parent)
{
    auto* top = new QWidget(parent);
    auto* title = new QLabel(tr("Patients"), top);
    title->setFont(widgets::titleFont());
    m_count = new QLabel(top);
    m_count->setObjectName(u"patientCount"_s);
    m_count->setProperty("role", u"quiet"_s);
    m_search = new QLineEdit(top);
    m_search->setObjectName(u"patientSearch"_s);
    setFocusProxy(m_search);
    m_search->setPlaceholderText(tr("Name, record number or birth date"));
    m_search->setAccessibleName(tr("Search patients"));
    m_search->setClearButtonEnabled(true);
    m_search->setMinimumWidth(320);
    widgets::letUndoPast(m_search);
    m_search->installEventFilter(this);
    m_edit = new QPushButton(tr("Edit"), top);
    m_edit->setObjectName(u"editPatient"_s);
    auto* make = new QPushButton(tr("New patient"), top);
    make->setObjectName(u"newPatient"_s);
    make->setProperty("kind", u"primary"_s);
    make->setToolTip(tr("Ctrl+N"));

    auto* row = new QHBoxLayout(top);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(widgets::space3);
    row->addWidget(title);
    row->addWidget(m_count);
    row->addStretch();
    row->addWidget(m_search);
    row->addWidget(m_edit);
    row->addWidget(make);
    connect(m_search, &QLineEdit::textChanged, this, [this](const QString& typed) {
        m_found->search(typed);
        settle();
    });
    connect(m_search, &QLineEdit::returnPressed, this, &PatientsPage::openCurrent);
    connect(m_edit, &QPushButton::clicked, this, &PatientsPage::editCurrent);
    connect(make, &QPushButton::clicked, this, &PatientsPage::newPatient);
    return top;
}

void PatientsPage::madeTable(QWidget* parent)
{
    m_table = new QTableView(parent);
    m_table->setObjectName(u"patientTable"_s);
    m_table->setAccessibleName(tr("Patients"));
    m_table->setModel(m_found);
    m_table->setSortingEnabled(true);
    m_table->sortByColumn(PatientTable::Family, Qt::AscendingOrder);
    widgets::dress(*m_table);
    QHeaderView* header = m_table->horizontalHeader();
    const int widths[PatientTable::columns] = {160, 150, 150, 140, 260, 190, 80};
    for (int column = 0; column < PatientTable::columns; ++column)
        m_table->setColumnWidth(column, widths[column]);
    header->setSectionResizeMode(PatientTable::Diagnosis, QHeaderView::Stretch);
    header->setMinimumSectionSize(60);
    const auto offer = [this](const QString& words, auto act) {
        auto* action = new QAction(words, m_table);
        connect(action, &QAction::triggered, this, act);
        m_table->addAction(action);
    };
    offer(tr("&Open"), &PatientsPage::openCurrent);
    offer(tr("&Edit"), &PatientsPage::editCurrent);
    offer(tr("&New patient"), &PatientsPage::newPatient);
    new widgets::TableMenu(*m_table, [this] {
        return widgets::sheetOf(
            tr("Patients on %1: %2").arg(session::dayInWords(m_session.today()), m_count->text()),
            m_session.clinic());
    });
    m_table->installEventFilter(this);
    connect(m_table, &QTableView::doubleClicked, this, &PatientsPage::openCurrent);
}

void PatientsPage::reload()
{
    const QModelIndex current = m_table->currentIndex();
    const records::PatientId chosen = current.isValid() ? m_found->patient(current).id : records::PatientId();
    auto all = m_session.patients();
    if (all) {
        m_notice->clear();
        m_patients->setPatients(std::move(*all), m_session.today());
        m_table->setCurrentIndex(m_found->indexOf(chosen));
    } else {
        m_notice->say(widgets::Notice::Kind::Danger, session::sentence(all.error()));
    }
    settle();
}

/// Everything that follows from which rows there are.
void PatientsPage::settle()
{
    const int all = m_patients->rowCount();
    const int found = m_found->rowCount();
    if (found > 0 && !m_table->currentIndex().isValid())
        m_table->setCurrentIndex(m_found->index(0, 0));
    m_table->setVisible(found > 0);
    m_empty->setVisible(found == 0);
    m_edit->setEnabled(found > 0);
    m_count->setText(found == all ? tr("%n patient(s)", nullptr, all) : tr("%1 of %2").arg(found).arg(all));
    if (all == 0)
        m_empty->setWords(tr("No patients yet"), tr("The people of this clinic will be listed here."),
                          tr("New patient"));
    else if (found == 0)
        m_empty->setWords(tr("Nobody found"),
                          tr("No name, record number or birth date begins with “%1”.").arg(m_search->text()),
                          tr("Show all patients"));
}

void PatientsPage::newPatient()
{
    records::Patient patient;
    patient.id = records::PatientId::make();
    begin(patient);
}

void PatientsPage::edit(const records::PatientId& id)
{
    const auto patient = m_session.patient(id);
    if (patient)
        begin(*patient);
    else
        m_prompts.tell(patient.error());
}

void PatientsPage::begin(const records::Patient& patient)
{
    const bool isBusy = hasUnsavedEntry();
    m_stack->setCurrentWidget(m_form);
    if (!isBusy)
        m_form->begin(patient);
    else if (m_form->draft().original.id != patient.id)
        m_form->say(tr("Save or cancel this entry first; what was typed is still here."));
}

void PatientsPage::showList()
{
    if (hasUnsavedEntry())
        return;
    m_stack->setCurrentWidget(m_list);
    m_search->setFocus();
}

void PatientsPage::search(const QString& typed)
{
    showList();
    m_search->setText(typed);
}

bool PatientsPage::hasUnsavedEntry() const
{
    return m_stack->currentWidget() == m_form && m_form->isChanged();
}

void PatientsPage::takeUpEntry()
{
    m_stack->setCurrentWidget(m_form); // before it takes the keyboard
    if (!m_form->takeUp())
        m_stack->setCurrentWidget(m_list);
}

void PatientsPage::throwAwayEntry()
{
    m_form->throwAway();
}

QString PatientsPage::unsavedWords() const
{
    return m_form->unsavedWords();
}

/// Among many nobody is in focus, so that nothing else was edited.
void PatientsPage::sayWhatWasEdited()
{
    const auto words = [](const std::vector<session::Edit>& edits) {
        return edits.empty() || !edits.front().patientAfter
                   ? QString()
                   : detailWords(*edits.front().patientBefore, *edits.front().patientAfter);
    };
    m_undo->say(words(m_session.edits().last()), words(m_session.edits().lastUndone()));
    m_undo->setVisible(!m_session.edits().last().empty() || !m_session.edits().lastUndone().empty());
}

void PatientsPage::undo()
{
    if (m_stack->currentWidget() != m_list)
        return;
    if (const auto done = m_session.undo(); !done)
        m_prompts.tell(done.error());
}

void PatientsPage::redo()
{
    if (m_stack->currentWidget() != m_list)
        return;
    if (const auto done = m_session.redo(); !done)
        m_prompts.tell(done.error());
}

void PatientsPage::openCurrent()
{
    const QModelIndex current = m_table->currentIndex();
    if (current.isValid())
        Q_EMIT opened(m_found->patient(current).id);
}

void PatientsPage::editCurrent()
{
    const QModelIndex current = m_table->currentIndex();
    if (current.isValid())
        edit(m_found->patient(current).id);
}

void PatientsPage::formSaved(const records::PatientId& id, bool isNew)
{
    m_stack->setCurrentWidget(m_list);
    m_search->clear();
    m_table->setCurrentIndex(m_found->indexOf(id));
    m_table->setFocus();
    if (isNew)
        Q_EMIT opened(id);
    else
        Q_EMIT editEnded();
}

void PatientsPage::formCancelled()
{
    m_stack->setCurrentWidget(m_list);
    m_table->setFocus();
    Q_EMIT editEnded();
}

void PatientsPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    reload();
}

bool PatientsPage::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::KeyPress)
        return false;
    const auto* key = static_cast<QKeyEvent*>(event);
    if (watched == m_search && key->key() == Qt::Key_Down) {
        m_table->setFocus();
        return true;
    }
    if (watched == m_table && (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter)) {
        openCurrent();
        return true;
    }
    return false;
}

} // namespace patients
