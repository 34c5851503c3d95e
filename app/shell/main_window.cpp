#include "app/shell/main_window.h"

#include "app/caseload/caseload_page.h"
#include "app/handbook/measures_page.h"
#include "app/importing/import_acts.h"
#include "app/own/forms_page.h"
#include "app/own/own_error_page.h"
#include "app/patients/patients_page.h"
#include "app/session/messages.h"
#include "app/shell/dropped.h"
#include "app/shell/find_field.h"
#include "app/shell/patient_page.h"
#include "app/shell/settings.h"
#include "app/shell/status_line.h"
#include "app/shell/top_bar.h"
#include "app/shell/visit_actions.h"
#include "app/shell/visit_ribbon.h"
#include "app/widgets/page_stack.h"
#include "app/widgets/window_place.h"
#include "app/writing/author_setting.h"
#include "app/writing/batch_dialog.h"

#include <QApplication>
#include <QCloseEvent>
#include <QDir>
#include <QFileInfo>
#include <QKeyEvent>
#include <QMimeData>
#include <QScreen>
#include <QShortcut>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <QWindow>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

constexpr QSize usualSize(1280, 860);
constexpr int changeTab = 1;

} // namespace

MainWindow::MainWindow(session::Session& session, session::Prompts& prompts, QWidget* parent)
    : QMainWindow(parent), m_session(session), m_prompts(prompts)
{
    setWindowTitle(u"Aplomb"_s);
    writing::followPerson(session, prompts);
    setMinimumSize(640, 400);
    setAcceptDrops(true);
    auto* ground = new QWidget(this);
    setCentralWidget(ground);
    m_top = new TopBar(session, prompts, ground);
    m_stack = new widgets::PageStack(ground);
    m_patients = new patients::PatientsPage(session, prompts, m_stack);
    m_stack->addWidget(m_patients);
    auto* column = new QVBoxLayout(ground);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_top);
    column->addWidget(new widgets::PageScroll(m_stack, ground), 1);

    connect(m_top, &TopBar::patientsAsked, this, &MainWindow::showPatients);
    connect(m_top, &TopBar::caseloadAsked, this, &MainWindow::showCaseload);
    connect(m_top, &TopBar::formsAsked, this, &MainWindow::showForms);
    connect(m_top, &TopBar::recordsAsked, this, &MainWindow::openRecords);
    connect(&m_top->find(), &FindField::patientChosen, this, &MainWindow::openPatient);
    connect(&m_top->find(), &FindField::testChosen, this, [this](const QString& measure) {
        showPage(&patientPage());
        patientPage().showMeasure(measure);
    });
    connect(m_top, &TopBar::measuresAsked, this, &MainWindow::showMeasures);
    connect(&m_top->find(), &FindField::pageChosen, this, &MainWindow::showHandbook);
    connect(&m_top->find(), &FindField::left, this, &MainWindow::goBack);
    connect(qApp, &QApplication::focusChanged, this, &MainWindow::focusMoved);
    connect(m_patients, &patients::PatientsPage::opened, this, &MainWindow::openPatient);
    connect(m_patients, &patients::PatientsPage::editEnded, this, &MainWindow::editEnded);
    bindKeys();
    if (!restoreGeometry(rememberedGeometry()))
        resize(usualSize);
    fitScreen();
    m_patients->takeUpEntry();
    showPatients();
}

PatientPage& MainWindow::patientPage()
{
    if (m_patient != nullptr)
        return *m_patient;
    m_patient = new PatientPage(m_session, m_prompts, m_stack);
    m_stack->addWidget(m_patient);
    connect(m_patient, &PatientPage::editAsked, this, &MainWindow::editPatient);
    connect(m_patient, &PatientPage::handbookAsked, this, &MainWindow::showHandbook);
    connect(m_patient, &PatientPage::patternsAsked, this, [this] {
        showPage(&formsPage());
        m_forms->showPatterns();
    });
    return *m_patient;
}

void MainWindow::showCaseload()
{
    if (m_caseload == nullptr) {
        m_caseload = new caseload::CaseloadPage(m_session, m_prompts, m_stack);
        m_stack->addWidget(m_caseload);
        connect(m_caseload, &caseload::CaseloadPage::opened, this, [this](const records::PatientId& id) {
            openPatient(id);
            if (isAtPatient())
                showTab(changeTab);
        });
        connect(m_caseload, &caseload::CaseloadPage::lettersAsked, this,
                [this](const auto& picked, const auto& listed) {
                    writing::BatchDialog(m_session, m_prompts, picked, listed, this).exec();
                });
    }
    m_session.leavePatient();
    showPage(m_caseload);
    m_caseload->setFocus(Qt::OtherFocusReason);
}

/// Walks through the list as it was left, on the same tab.
void MainWindow::openNeighbour(int step)
{
    const auto id = m_caseload != nullptr && m_session.focus().patient
                        ? m_caseload->neighbour(*m_session.focus().patient, step)
                        : std::nullopt;
    if (!id)
        return;
    const int tab = m_patient->tab();
    openPatient(*id);
    if (isAtPatient())
        showTab(tab);
}

own::FormsPage& MainWindow::formsPage()
{
    if (m_forms != nullptr)
        return *m_forms;
    m_forms = new own::FormsPage(m_session, m_prompts, m_stack);
    m_stack->addWidget(m_forms);
    return *m_forms;
}

handbook::MeasuresPage& MainWindow::measuresPage()
{
    using handbook::MeasuresPage;
    if (m_measures != nullptr)
        return *m_measures;
    m_measures = new MeasuresPage(m_session, m_stack);
    m_stack->addWidget(m_measures);
    connect(m_measures, &MeasuresPage::left, this, &MainWindow::leaveMeasures);
    connect(m_measures, &MeasuresPage::visitAsked, this, &MainWindow::openVisit);
    connect(m_measures, &MeasuresPage::ownMeasureAsked, this, [this] {
        showForms();
        formsPage().newMeasure();
    });
    connect(m_measures, &MeasuresPage::ownThresholdAsked, this, [this](const QString& measure) {
        showForms();
        formsPage().newThreshold(measure);
    });
    connect(m_measures, &MeasuresPage::ownErrorAsked, this, [this](const QString& measure) {
        ownErrorPage().showMeasure(measure);
        showPage(m_ownError);
        takeKeyboard();
    });
    return *m_measures;
}

own::OwnErrorPage& MainWindow::ownErrorPage()
{
    using own::OwnErrorPage;
    if (m_ownError != nullptr)
        return *m_ownError;
    m_ownError = new OwnErrorPage(m_session, m_prompts, m_stack);
    m_stack->addWidget(m_ownError);
    connect(m_ownError, &OwnErrorPage::left, this, [this] {
        showPage(&measuresPage());
        m_measures->takeList();
    });
    connect(m_ownError, &OwnErrorPage::thresholdAsked, this,
            [this](const catalogue::Threshold& row, const catalogue::Source& source) {
                showForms();
                m_forms->newThreshold(row, source);
            });
    return *m_ownError;
}

MainWindow::~MainWindow()
{
    disconnect(qApp, nullptr, this, nullptr); // the keyboard leaves what is destroyed
}

/// Large enough to work in and no larger than the screen it is on, also after that has changed.
void MainWindow::fitScreen()
{
    disconnect(m_screenChange);
    m_screenChange = connect(screen(), &QScreen::availableGeometryChanged, this, &MainWindow::fitScreen);
    if (windowState().testAnyFlags(Qt::WindowMaximized | Qt::WindowFullScreen | Qt::WindowMinimized))
        return;
    setGeometry(widgets::fitted(geometry(), screen()->availableGeometry()));
}

void MainWindow::showEvent(QShowEvent* event)
{
    QMainWindow::showEvent(event);
    if (!event->spontaneous())
        connect(windowHandle(), &QWindow::screenChanged, this, &MainWindow::fitScreen, Qt::UniqueConnection);
}

void MainWindow::bindKeys()
{
    const auto bind = [this](const QString& keys, auto act) {
        connect(new QShortcut(QKeySequence(keys), this), &QShortcut::activated, this, act);
    };
    const auto find = [this] {
        m_top->find().setFocus(Qt::ShortcutFocusReason);
        m_top->find().selectAll();
    };
    bind(u"Ctrl+K"_s, find);
    m_findKey = new QShortcut(QKeySequence::Find, this, find);
    bind(u"Ctrl+0"_s, [this] { showPatients(); });
    bind(u"Ctrl+7"_s, [this] { showCaseload(); });
    bind(u"Ctrl+8"_s, [this] { showForms(); });
    bind(u"Ctrl+9"_s, [this] { showMeasures(); });
    for (int tab = 0; tab < PatientPage::tabCount; ++tab)
        bind(u"Ctrl+%1"_s.arg(tab + 1), [this, tab] { showTab(tab); });
    const auto bindAtPatient = [this, &bind](const QString& keys, auto act) {
        bind(keys, [this, act] {
            if (isAtPatient())
                act();
        });
    };
    bindAtPatient(u"Ctrl+Shift+N"_s, [this] { m_patient->actions().newVisit(); });
    bindAtPatient(u"Ctrl+Alt+N"_s, [this] { m_patient->chooseForm(); });
    bindAtPatient(u"Ctrl+Shift+S"_s, [this] { m_patient->sign(); });
    bindAtPatient(u"Ctrl+PgDown"_s, [this] { openNeighbour(1); });
    bindAtPatient(u"Ctrl+PgUp"_s, [this] { openNeighbour(-1); });
    bindAtPatient(u"F6"_s, [this] { m_patient->ribbon().setFocus(Qt::ShortcutFocusReason); });
    bind(u"Ctrl+Z"_s, [this] { undo(); });
    bind(u"Ctrl+Shift+Z"_s, [this] { redo(); });
    bind(u"Ctrl+Y"_s, [this] { redo(); });
    bind(u"Ctrl+Q"_s, [this] { close(); });
    bind(u"Ctrl+W"_s, [this] { close(); });
    bind(u"Ctrl+O"_s, [this] { m_top->askRecords(); });
    bind(u"Ctrl+R"_s, [this] { refresh(); });
    bind(u"F10"_s, [this] { m_top->openMenu(); });
}

bool MainWindow::isAtPatient() const
{
    return m_patient != nullptr && m_stack->currentWidget() == m_patient;
}

void MainWindow::undo()
{
    if (isAtPatient())
        m_patient->status().undo();
    else if (m_stack->currentWidget() == m_forms)
        m_forms->undo();
    else if (m_stack->currentWidget() == m_patients)
        m_patients->undo();
}

void MainWindow::redo()
{
    if (isAtPatient())
        m_patient->status().redo();
    else if (m_stack->currentWidget() == m_forms)
        m_forms->redo();
    else if (m_stack->currentWidget() == m_patients)
        m_patients->redo();
}

void MainWindow::takeKeyboard()
{
    if (isAtPatient())
        m_patient->takeKeyboard();
    else if (m_stack->currentWidget() == m_forms)
        m_forms->takeKeyboard();
    else
        m_stack->currentWidget()->setFocus(Qt::OtherFocusReason);
}

void MainWindow::focusMoved(QWidget* from, const QWidget* to)
{
    if (to != nullptr && m_top->isAncestorOf(to) && from != nullptr &&
        m_stack->currentWidget()->isAncestorOf(from))
        m_from = from;
}

void MainWindow::goBack()
{
    QWidget* from = m_from;
    m_from.clear();
    if (from != nullptr && from->isVisible() && m_stack->currentWidget()->isAncestorOf(from))
        from->setFocus(Qt::OtherFocusReason);
    else
        takeKeyboard();
}

void MainWindow::showPage(QWidget* page)
{
    m_stack->setCurrentWidget(page);
    m_findKey->setEnabled(page != m_measures); // which has a field of its own for that key
    m_top->showPlace(page == m_patients      ? Place::Patients
                     : page == m_caseload    ? Place::Caseload
                     : page == m_forms       ? Place::Forms
                     : isAboutMeasures(page) ? Place::Measures
                                             : Place::Patient);
}

void MainWindow::openPatient(const records::PatientId& id)
{
    PatientPage& page = patientPage();
    m_session.choosePatient(id);
    if (m_session.focus().patient != id) {
        m_prompts.tell(
            {base::ErrorKind::NotFound, base::verbatim(tr("This patient's records could not be read.")), {}});
        showPatients();
        return;
    }
    showPage(&page);
    showTab(0);
}

void MainWindow::showPatients()
{
    // An entry begun from the patient's own banner is gone on with; else nobody is in focus among many.
    if (!m_patients->hasUnsavedEntry())
        m_session.leavePatient();
    showPage(m_patients);
    m_patients->showList();
}

void MainWindow::showForms()
{
    showPage(&formsPage());
    m_forms->showList();
}

void MainWindow::showMeasures()
{
    QWidget* keyboard = focusWidget();
    if (keyboard != nullptr && !isAboutMeasures(m_stack->currentWidget()) &&
        m_stack->currentWidget()->isAncestorOf(keyboard))
        m_from = keyboard;
    showPage(&measuresPage());
    takeKeyboard();
}

bool MainWindow::isAboutMeasures(const QWidget* page) const
{
    return page != nullptr && (page == m_measures || page == m_ownError);
}

void MainWindow::showHandbook(const QString& measure)
{
    measuresPage().showMeasure(measure);
    showMeasures();
}

void MainWindow::leaveMeasures()
{
    if (!m_session.focus().patient || m_patients->hasUnsavedEntry()) {
        showPatients();
        return;
    }
    showPage(&patientPage());
    goBack();
}

void MainWindow::openVisit(const records::PatientId& patient, const records::VisitId& visit,
                           const QString& measure)
{
    openPatient(patient);
    if (!isAtPatient())
        return;
    m_session.chooseVisit(visit);
    m_patient->showMeasure(measure);
}

void MainWindow::showTab(int tab)
{
    if (isAboutMeasures(m_stack->currentWidget()))
        leaveMeasures();
    if (isAtPatient())
        m_patient->showTab(tab);
}

void MainWindow::editPatient(const records::PatientId& id)
{
    showPage(m_patients);
    m_patients->edit(id);
}

void MainWindow::editEnded()
{
    if (!m_session.focus().patient)
        return;
    showPage(&patientPage());
    m_patient->takeKeyboard();
}

/// Shows the entry that would be lost where the person does not want to lose it.
bool MainWindow::mayQuit()
{
    const QStringList inForm = m_patient != nullptr ? m_patient->unsaved() : QStringList();
    const std::tuple<bool, QWidget*, QString> entries[] = {
        {!inForm.isEmpty(), m_patient,
         records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()) +
             u"\n\n"_s + tr("This stands in the examination and is not recorded:") + u'\n' +
             inForm.join(u'\n')},
        {m_patients->hasUnsavedEntry(), m_patients, m_patients->unsavedWords()},
        {m_forms != nullptr && m_forms->hasUnsavedEntry(), m_forms,
         tr("The entry of the clinic's own has not been saved.")}};
    for (const auto& [isUnsaved, page, words] : entries) {
        if (isUnsaved &&
            !m_prompts.mayLose(tr("Quit and throw away what you typed?"), words, tr("Throw away and quit"))) {
            showPage(page);
            return false;
        }
    }
    return true;
}

void MainWindow::endUnasked()
{
    m_isEnding = true;
    rememberGeometry(saveGeometry());
}

void MainWindow::closeEvent(QCloseEvent* event)
{
    if (!m_isEnding && !mayQuit()) {
        event->ignore();
        return;
    }
    if (!m_isEnding)
        m_patients->throwAwayEntry();
    rememberGeometry(saveGeometry());
    QMainWindow::closeEvent(event);
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event)
{
    if (event->mimeData()->hasUrls())
        event->acceptProposedAction();
}

/// What is dropped is looked at once whoever let it go has been answered.
void MainWindow::dropEvent(QDropEvent* event)
{
    event->acceptProposedAction();
    const QList<QUrl> dropped = event->mimeData()->urls();
    QMetaObject::invokeMethod(
        this, [this, dropped] { take(dropped); }, Qt::QueuedConnection);
}

void MainWindow::take(const QList<QUrl>& dropped)
{
    const auto refuse = [this](const QString& why) {
        m_prompts.tell({base::ErrorKind::Refused, base::verbatim(why), {}});
    };
    switch (whatIsDropped(dropped)) {
    case Dropped::Findings:
        importing::importFindings(dropped.front().toLocalFile(), m_session, m_prompts, this);
        break;
    case Dropped::Records:
        openRecords(dropped.front().toLocalFile());
        break;
    case Dropped::Several:
        refuse(tr("One file at a time can be dropped here; nothing was taken."));
        break;
    case Dropped::Unknown:
        refuse(tr("A file of findings (.csv), a FHIR bundle (.json) or records (.aplomb) can be dropped "
                  "here; nothing was taken."));
        break;
    }
}

void MainWindow::openRecords(const QString& path)
{
    const QFileInfo file(path);
    if (!file.isFile()) {
        forgetRecords(path);
        m_prompts.tell({base::ErrorKind::NotFound,
                        base::verbatim(tr("%1 is no longer there, so it is taken off the list.")
                                           .arg(QDir::toNativeSeparators(path))),
                        {}});
    } else if (file.canonicalFilePath() == QFileInfo(m_session.path()).canonicalFilePath()) {
        m_prompts.tell(
            {base::ErrorKind::Refused, base::verbatim(tr("These records are open in this window.")), {}});
    } else {
        Q_EMIT recordsAsked(file.absoluteFilePath());
    }
}

void MainWindow::refresh()
{
    if (const auto read = m_session.readAgain(); !read)
        m_prompts.tell(read.error());
}

/// F5 reaches the window wherever no page has another use for it.
void MainWindow::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_F5 && event->modifiers() == Qt::NoModifier)
        refresh();
    else
        QMainWindow::keyPressEvent(event);
}

} // namespace shell
