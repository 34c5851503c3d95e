#pragma once

#include "app/patients/patient_draft.h"
#include "app/session/prompts.h"
#include "app/session/session.h"

#include <QWidget>

#include <set>

class QLabel;

namespace widgets
{
class FormField;
class Notice;
} // namespace widgets

namespace patients
{

class LookAlikePanel;
struct LookAlike;

/// Everything recorded of a person, to be made or changed. Keeps what was typed until it is saved or thrown
/// away.
class PatientForm : public QWidget
{
    Q_OBJECT

public:
    PatientForm(session::Session& session, session::Prompts& prompts, QWidget* parent);

    void begin(const records::Patient& patient);
    /// Goes on with what was typed when the program ended without it being saved or thrown away; false where
    /// nothing was.
    bool takeUp();
    /// What was typed is let go.
    void throwAway();
    bool isChanged() const;
    const PatientDraft& draft() const { return m_draft; }
    void say(const QString& words);
    /// Whose entry it is, and what of it has not been saved.
    QString unsavedWords() const;

    void save();
    void cancel();

Q_SIGNALS:
    void saved(const records::PatientId& id, bool isNew);
    void cancelled();
    void otherChosen(const records::PatientId& id); ///< a look-alike on record is opened instead

private:
    QWidget* madeFields();
    QWidget* madeAnswers();
    widgets::FormField* add(Field field, widgets::FormField* made);
    void fill();
    void edited(Field field);
    void keep();
    void fieldLeft(Field field);
    void showFaults(const std::map<Field, QString>& faults);
    void readRecord();
    void showLookAlikes();
    std::vector<LookAlike> foundAlike() const;
    bool isSurelyNew(const records::Patient& patient);
    void goOnAfterConflict(const base::Error& error);

    session::Session& m_session;
    session::Prompts& m_prompts;
    PatientDraft m_draft;
    std::map<Field, widgets::FormField*> m_fields;
    std::vector<records::PatientSummary> m_onRecord;
    std::set<Field> m_left; ///< fields whose faults may be shown
    QLabel* m_title;
    QLabel* m_who; ///< identity as last saved
    widgets::Notice* m_notice;
    LookAlikePanel* m_alike;
};

} // namespace patients
