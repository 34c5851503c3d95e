#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTableView;

namespace widgets
{
class EmptyState;
class Notice;
class UndoButtons;
} // namespace widgets

namespace patients
{

class FoundPatients;
class PatientForm;
class PatientTable;

/// The clinic's patients: a table that searches as one types, and the form in which one is made or changed.
class PatientsPage : public QWidget
{
    Q_OBJECT

public:
    PatientsPage(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void newPatient();
    void edit(const records::PatientId& id);
    /// The list, unless an entry is still in the form.
    void showList();
    void search(const QString& typed);
    /// Take back, or make again, what was saved last in a patient's details.
    void undo();
    void redo();
    bool hasUnsavedEntry() const;
    /// Goes on with the entry that was being typed when the program ended, where there is one.
    void takeUpEntry();
    void throwAwayEntry();
    /// Whose entry it is, and what of it has not been saved.
    QString unsavedWords() const;

Q_SIGNALS:
    void opened(const records::PatientId& id);
    void editEnded(); ///< a patient that existed was saved, or its change given up

protected:
    void showEvent(QShowEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QWidget* madeList();
    QWidget* madeTop(QWidget* parent);
    void madeTable(QWidget* parent);
    void begin(const records::Patient& patient);
    void reload();
    void settle();
    void sayWhatWasEdited();
    void openCurrent();
    void editCurrent();
    void formSaved(const records::PatientId& id, bool isNew);
    void formCancelled();

    session::Session& m_session;
    session::Prompts& m_prompts;
    PatientTable* m_patients;
    FoundPatients* m_found;
    QStackedWidget* m_stack;
    QLabel* m_count = nullptr;
    QLineEdit* m_search = nullptr;
    QPushButton* m_edit = nullptr;
    QTableView* m_table = nullptr;
    widgets::UndoButtons* m_undo = nullptr;
    widgets::Notice* m_notice = nullptr;
    widgets::EmptyState* m_empty = nullptr;
    QWidget* m_list = nullptr;
    PatientForm* m_form;
};

} // namespace patients
