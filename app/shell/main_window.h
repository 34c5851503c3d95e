#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QMainWindow>
#include <QPointer>

class QShortcut;
class QStackedWidget;

namespace caseload
{
class CaseloadPage;
}

namespace handbook
{
class MeasuresPage;
}

namespace own
{
class FormsPage;
class OwnErrorPage;
} // namespace own

namespace patients
{
class PatientsPage;
}

namespace shell
{

class PatientPage;
class TopBar;

/// The one window: the patients, one of them, the measures, or the forms.
class MainWindow : public QMainWindow
{
    Q_OBJECT

public:
    MainWindow(session::Session& session, session::Prompts& prompts, QWidget* parent = nullptr);

    ~MainWindow() override;

    void openPatient(const records::PatientId& id);
    void showPatients();
    void showCaseload();
    void showForms();
    void showMeasures();
    /// The handbook page of a measure.
    void showHandbook(const QString& measure);
    /// From now on closes without a question, because the desktop or the system ends the program: what is
    /// typed is in the records by then.
    void endUnasked();
    /// 0 Examination, 1 Change, 2 Trend, 3 Letters; of the patient who is open.
    void showTab(int tab);
    /// Records of another file, in a window of their own; what cannot be opened is said.
    void openRecords(const QString& path);
    /// The form of the patient, with the way back to where one was.
    void editPatient(const records::PatientId& id);

Q_SIGNALS:
    void recordsAsked(const QString& path); ///< a whole path of a file that is there

protected:
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    PatientPage& patientPage();
    own::FormsPage& formsPage();
    handbook::MeasuresPage& measuresPage();
    own::OwnErrorPage& ownErrorPage();
    void openNeighbour(int step); ///< in the caseload
    void bindKeys();
    void undo();
    void redo();
    void refresh(); ///< from the records file
    void take(const QList<QUrl>& dropped);
    void fitScreen();
    void editEnded();
    void takeKeyboard(); ///< into the page that is shown
    void goBack();       ///< to what had the keyboard before the bar or the handbook
    void focusMoved(QWidget* from, const QWidget* to);
    bool mayQuit();
    void showPage(QWidget* page);
    void openVisit(const records::PatientId& patient, const records::VisitId& visit, const QString& measure);
    void leaveMeasures(); ///< to the patient who is open, else to the patients
    bool isAtPatient() const;
    bool isAboutMeasures(const QWidget* page) const;

    session::Session& m_session;
    session::Prompts& m_prompts;
    bool m_isEnding = false; ///< nobody can be asked any more
    QMetaObject::Connection m_screenChange;
    TopBar* m_top;
    QPointer<QWidget> m_from; ///< had the keyboard before the bar or the handbook took it
    QShortcut* m_findKey = nullptr;
    QStackedWidget* m_stack;
    patients::PatientsPage* m_patients;
    // Made when they are first asked for, which would be most of a start.
    caseload::CaseloadPage* m_caseload = nullptr;
    PatientPage* m_patient = nullptr;
    own::FormsPage* m_forms = nullptr;
    handbook::MeasuresPage* m_measures = nullptr;
    own::OwnErrorPage* m_ownError = nullptr;
};

} // namespace shell
