#pragma once

#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QFrame>

class QLabel;
class QMenu;
class QPushButton;
class QToolButton;

namespace shell
{

class FindField;

/// Where one is: among the patients, at the list of what changed in them, at one of them, at the measures, or
/// at the forms.
enum class Place { Patients, Caseload, Patient, Measures, Forms };

/// On top of everything: where one is, whose records these are, the find field, who sits at the keyboard, and
/// the menu of what is rarely needed.
class TopBar : public QFrame
{
    Q_OBJECT

public:
    TopBar(session::Session& session, session::Prompts& prompts, QWidget* parent);

    FindField& find() { return *m_find; }
    void showPlace(Place place);
    void openMenu();
    void askRecords(); ///< which are to be opened

Q_SIGNALS:
    void patientsAsked();
    void caseloadAsked();
    void formsAsked();
    void measuresAsked();
    void recordsAsked(const QString& path);

protected:
    void changeEvent(QEvent* event) override;

private:
    QPushButton* madePlace(const QString& words, const QString& name, const QString& keys);
    QMenu* madeMenu();
    void addLooks(QMenu& menu);
    void addOwnFiles(QMenu& menu);
    void addSealing(QMenu& menu);
    bool canBeSealed() const;
    void editClinic();
    void askPerson();
    void showPerson();
    void settle();

    session::Session& m_session;
    session::Prompts& m_prompts;
    QPushButton* m_patients;
    QPushButton* m_caseload;
    QPushButton* m_measures;
    QPushButton* m_forms;
    QLabel* m_clinic;
    QLabel* m_demo;
    QPushButton* m_plain; ///< offers to seal records that are not
    FindField* m_find;
    QPushButton* m_person;
    QToolButton* m_more;
};

} // namespace shell
