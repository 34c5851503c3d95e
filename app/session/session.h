#pragma once

#include "app/session/focus.h"
#include "app/session/undo.h"
#include "core/base/result.h"
#include "core/records/author.h"
#include "core/records/clinic.h"
#include "core/records/opening.h"

#include <QDateTime>
#include <QObject>
#include <QTimer>

#include <functional>
#include <map>
#include <memory>

namespace catalogue
{
struct Catalogue;
struct Own;
} // namespace catalogue

namespace exchange
{
struct HappeningsAddition;
}

namespace judging
{
struct Case;
struct CaseLines;
struct Change;
struct Period;
struct RepeatQuestion;
struct RepeatedResults;
struct ServiceReport;
} // namespace judging

namespace records
{
struct Asked;
struct DeclaredEqual;
struct PatientSummary;
struct Target;
struct Use;
} // namespace records

namespace storage
{
class Store;
struct WorkedOut;
} // namespace storage

namespace session
{

class PatientRecord;

/// The instant it is, in UTC. Comes in from outside, so that tests choose the day.
using Clock = std::function<QDateTime()>;

/// That something was written to the records.
struct Fact {
    records::PatientId patient; ///< whose record it is; empty: of the clinic
    quint64 token = 0;          ///< rises with every fact, so that who has seen one knows what came after it
};

/// Asks who sits at the keyboard; empty when the person turned back.
using AskPerson = std::function<std::optional<records::Author>()>;

/// The one place besides the database where state lives: the open records, the focus, and what can be undone.
/// Reads through the repositories, writes through one function per kind of record, and signals after the
/// fact. Every one of these asks core/records/check first; what it refuses is not stored.
class Session : public QObject
{
    Q_OBJECT

public:
    static base::Result<std::unique_ptr<Session>> open(const QString& path,
                                                       const catalogue::Catalogue& catalogue,
                                                       const records::Access& access,
                                                       records::Opening opening);
    ~Session() override;

    /// Who sits at the keyboard and stands in every log from then on; until someone has said so it is the
    /// `who` of the access, without a role.
    const records::Author& person() const { return m_person; }
    bool isPersonKnown() const { return m_isPersonKnown; }
    void setPerson(const records::Author& person);
    /// How that is asked, once, by the first act that is logged with a name; not at all where nothing asks.
    void setAskPerson(AskPerson ask) { m_askPerson = std::move(ask); }
    /// Asks once; refused when the person turned back.
    base::Result<void> needPerson();

    /// The catalogue that comes with the program and the clinic's own part after it, until
    /// catalogueChanged().
    const catalogue::Catalogue& catalogue() const { return *m_catalogue; }
    /// The same for who keeps a pointer into it: it lasts as long as it is shared.
    const std::shared_ptr<const catalogue::Catalogue>& sharedCatalogue() const { return m_catalogue; }
    /// The same with its texts in another language, for a letter in it.
    std::shared_ptr<const catalogue::Catalogue> catalogueIn(const QString& language) const;
    /// Puts the texts of catalogue() into the language of the screen (session::speak), which records that
    /// are read for their data are not. Before any screen is made.
    void speakAsScreen();
    /// The catalogue that comes with the program alone.
    const catalogue::Catalogue& released() const { return *m_released; }
    /// The clinic's own part alone.
    const catalogue::Own& own() const { return *m_own; }
    /// Keeps the clinic's part as its newest version, whole or not at all. Besides what catalogue::ownFrom
    /// refuses: a measure once kept may be retired but not removed, nor changed so that a recorded result
    /// would no longer be allowed; a threshold chosen for a patient stays.
    base::Result<void> saveOwn(const catalogue::Own& own);
    /// The clinic's part as a file, to move it between clinics. What is read is added; an entry with a known
    /// id takes its place. A refused file changes nothing.
    base::Result<void> readOwn(const QString& path);
    base::Result<void> writeOwn(const QString& path) const;
    /// Why a newer version of the clinic's part was not taken when the records were opened; empty: it was.
    QString catalogueFault() const { return m_catalogueFault; }
    QString path() const;
    /// All of the records as they are now in one new file, opened again and checked.
    base::Result<void> backUp(const QString& path, const records::Progress& progress = {}) const;
    /// Whether this build can seal records, and open sealed ones.
    static bool canSeal();
    /// Whether only a password or the printed code opens the records.
    bool isSealed() const;
    /// Seals plain records in their place. What `progress` stops leaves them as they were.
    base::Result<void> seal(const sealing::Seal& seal, const records::Progress& progress);
    /// Has another password open the records; the key, and so the code, stays. Refused where `old` does not
    /// open them.
    base::Result<void> changePassword(const QString& old, const QString& password);
    /// The printed code once more, for who knows the password.
    base::Result<QStringList> code(const QString& password) const;
    /// Gives records that were begun (records::Opening::MayBegin) their place.
    base::Result<void> keep();
    QDate today() const;                        ///< local calendar day
    QDateTime now() const { return m_clock(); } ///< UTC
    records::Clinic clinic() const { return m_clinic; }
    base::Result<void> saveClinic(const records::Clinic& clinic);

    base::Result<std::vector<records::PatientSummary>> patients() const;
    base::Result<records::Patient> patient(const records::PatientId& id) const;
    base::Result<records::Patient> savePatient(const records::Patient& patient);
    /// What stands typed in a form that is saved only when it is whole, in the form's own words, so that it
    /// is there at the next start however this one ends; empty: nothing does.
    base::Result<void> keepEntry(const QString& form, const QString& typed);
    base::Result<QString> keptEntry(const QString& form) const;

    /// The two lines. Setting a patient chooses the newest visit; an unknown visit is not taken.
    const Focus& focus() const { return m_focus; }
    void choosePatient(const records::PatientId& id);
    void leavePatient();
    void chooseVisit(const records::VisitId& id);
    void chooseReference(const std::optional<records::VisitId>& id);
    /// Moves a line by one visit, back (−1) or forward (+1); the reference stays before this visit.
    void moveVisit(int step);
    void moveReference(int step);

    /// Of the patient in focus, kept in step with the database; empty without one.
    const records::Patient& patientInFocus() const;
    const std::vector<records::Visit>& versions() const; ///< every version of every visit
    const std::vector<records::Visit>& visits() const;   ///< the versions that count, drafts too
    /// The same with the visits entered in error, which can be looked at.
    const std::vector<records::Visit>& onRecord() const;
    const records::Visit* visitInFocus() const;
    std::vector<judging::Change> changes() const; ///< at the visit in focus

    /// All patients, each with a summary where one is kept that was worked out from the record as it is, and
    /// one of them.
    base::Result<std::vector<judging::Case>> cases() const;
    base::Result<std::optional<judging::Case>> caseOf(const records::PatientId& id) const;
    /// What a patient's lines at the head say at the visit their summary was worked out at.
    base::Result<judging::CaseLines> linesOf(const records::PatientId& id) const;

    /// Judges changes of the measure by this threshold for the patient in focus; an empty one goes back to
    /// the rule. Logged, so it needs a reason.
    base::Result<void> chooseEvidence(const QString& measure, const QString& threshold,
                                      const QString& reason);
    /// The same for everybody in the clinic of the population of the patient in focus, unless one is chosen
    /// for the patient.
    base::Result<void> chooseEvidenceForPopulation(const QString& measure, const QString& threshold,
                                                   const QString& reason);
    /// Counts what was not recorded of the measure's conditions as the same at two visits of the patient in
    /// focus; any versions of them will do. Logged, so it needs a reason, as has taking it back.
    base::Result<void> declareEqual(const QString& measure, const records::VisitId& earlier,
                                    const records::VisitId& later, const QString& reason);
    base::Result<void> takeBackEqual(const QString& measure, const records::VisitId& earlier,
                                     const records::VisitId& later, const QString& reason);
    /// The visits of all patients that used a measure.
    base::Result<std::vector<records::Use>> uses(const QString& measure) const;
    /// Hands over every patient who has visits, with the versions of these that count; one patient at a time
    /// is held in memory.
    using TakePatient =
        std::function<void(const records::Patient& patient, const std::vector<records::Visit>& visits)>;
    base::Result<void> eachPatient(const TakePatient& take) const;
    /// The repeated results of a measure in the signed visits of all patients, for the clinic's own error.
    base::Result<judging::RepeatedResults> repeatedResults(const judging::RepeatQuestion& question) const;
    /// What the service did in a period, over all patients. Refused where `progress` stops it.
    base::Result<judging::ServiceReport> serviceReport(const judging::Period& period,
                                                       const records::Progress& progress = {}) const;

    /// A new draft for the patient in focus, with a form of the catalogue (the first where none is named)
    /// kept as it stands now, less its retired measures; conditions carried forward to be confirmed. The
    /// focus moves to it.
    base::Result<records::Visit> startVisit(QDate day, const QString& form = {});
    base::Result<void> saveFinding(const records::VisitId& visit, const records::Finding& finding,
                                   Typing typing = Typing::Anew);
    /// Several findings, undone together. Stops at the first that cannot be saved; those before it are saved.
    base::Result<void> saveFindings(const records::VisitId& visit,
                                    const std::vector<records::Finding>& findings);
    base::Result<void> removeFinding(const records::VisitId& visit, const QString& measure,
                                     records::Side side, Typing typing = Typing::Anew);
    base::Result<void> saveConditions(const records::VisitId& visit, const records::Conditions& conditions,
                                      bool confirmed, Typing typing = Typing::Anew);
    /// What was answered about red flags, in place of all answers there were.
    base::Result<void> saveRedFlags(const records::VisitId& visit, const records::RedFlags& flags,
                                    Typing typing = Typing::Anew);
    base::Result<void> discardVisit(const records::VisitId& visit);
    /// Signs what is shown: where the stored draft is another, says how they differ, takes the stored one
    /// into focus and signs nothing.
    base::Result<records::Visit> signVisit(const records::VisitId& visit, const records::Author& author);
    base::Result<records::Visit> amendVisit(const records::VisitId& visit, const QString& reason);
    /// Marks a signed visit as entered in error, in the name of the person at the keyboard. Nothing undoes
    /// it.
    base::Result<records::Visit> withdrawVisit(const records::VisitId& visit, const QString& reason);

    /// What happened to the patient in focus between visits: every version of every event
    /// (records::newest), and the events that count, oldest first.
    const std::vector<records::Happening>& happeningVersions() const;
    std::vector<records::Happening> happenings() const;
    /// Keeps an event of the patient in focus: a new one where the version is 0, else a further version of
    /// it. Gives back what is stored. Logged, as is taking it back, which needs a reason.
    base::Result<records::Happening> saveHappening(const records::Happening& happening);
    base::Result<void> takeBackHappening(const records::HappeningId& id, const QString& reason);
    /// Whether falls and relapses since the last visit were asked about at a visit of the patient in focus;
    /// nullptr: not yet. Any version of the visit will do.
    const records::Asked* asked(const records::VisitId& visit) const;
    /// Keeps that they were; a second time nothing is written.
    base::Result<void> setAsked(const records::VisitId& visit);
    /// Events of all patients from a file or into one, whole or not at all (exchange::happeningsFromCsv).
    base::Result<exchange::HappeningsAddition> readHappenings(const QString& path);
    /// Gives back how many were written: the events that count.
    base::Result<int> writeHappenings(const QString& path) const;

    /// What the patient in focus wants to reach: every target ever agreed, oldest first (records::newest).
    const std::vector<records::Target>& targets() const;
    /// Adds a target, in place of an earlier one of its measure and side. Logged, as is no longer looking at
    /// it, which needs a reason.
    base::Result<void> saveTarget(const records::Target& target);
    base::Result<void> dropTarget(const QString& measure, records::Side side, const QString& reason);

    /// Reads the patient in focus again, as after many records were written at once, and says that any may
    /// have changed. Where this one did, what was edited before cannot be undone any more.
    base::Result<void> readAgain();

    const Undo& edits() const { return m_undo; }
    base::Result<void> undo();
    base::Result<void> redo();
    /// The same for the clinic's own part of the catalogue, since the records were opened; nullptr: nothing.
    /// A new test cannot be taken back, since one that was kept is never removed.
    const OwnEdit* lastOwnEdit() const { return m_ownDone.empty() ? nullptr : &m_ownDone.back(); }
    const OwnEdit* lastOwnUndone() const { return m_ownUndone.empty() ? nullptr : &m_ownUndone.back(); }
    base::Result<void> undoOwn();
    base::Result<void> redoOwn();

    base::Result<std::vector<records::Letter>>
    letters() const; ///< of the patient in focus, without documents
    base::Result<records::Letter> letter(const records::LetterId& id) const; ///< the whole of it
    base::Result<records::Letter> saveLetter(const records::Letter& letter);
    base::Result<records::Letter> signOffLetter(const records::Letter& letter);
    /// The kinds of letters that the clinic made itself, every version (letters::kinds).
    base::Result<std::vector<records::LetterKind>> letterKinds() const;
    base::Result<records::LetterKind> saveLetterKind(const records::LetterKind& kind);
    base::Result<std::vector<records::Handover>>
    handovers() const; ///< of all letters of the patient in focus
    base::Result<void> noteHandover(const records::Handover& handover);

    storage::Store& store() { return *m_store; } ///< for imports, and the headless verbs of app/console

    quint64 lastToken() const { return m_token; } ///< of the newest fact

Q_SIGNALS:
    // Facts: one signal each, after the records hold it.
    void patientChanged(const session::Fact& fact); ///< saved, new or old
    void visitChanged(const session::Fact& fact,
                      const records::VisitId& id); ///< a finding, the conditions or the state
    void visitsChanged(const session::Fact& fact); ///< a visit came, went or has a new version
    void letterChanged(const session::Fact& fact, const records::LetterId& id);
    void
    judgingChanged(const session::Fact& fact); ///< how changes are judged, of one patient or in the clinic
    void happeningsChanged(const session::Fact& fact); ///< events, or that they were asked about
    void targetsChanged(const session::Fact& fact);
    void clinicChanged(const session::Fact& fact);
    void catalogueChanged(const session::Fact& fact); ///< the clinic's own part has a new version
    // What this window looks at and could take back.
    void focusChanged();
    void editsChanged();
    void personChanged();

private:
    friend class CaseWork;
    /// Works out and keeps summaries at once, where it is a matter of a moment or no other connection knows
    /// the records; false where it is not.
    bool workOutHere(const std::vector<records::PatientId>& patients);
    base::Result<void> keepCases(const std::vector<storage::WorkedOut>& all);
    const records::Access& access() const;

    Session(std::unique_ptr<storage::Store> store, const catalogue::Catalogue& catalogue, Clock clock,
            records::Clinic clinic, const QString& who);
    base::Result<void> takeNewestOwn();
    base::Result<void> keepOwn(const catalogue::Own& own, const QString& place);
    /// The same, which can be taken back.
    base::Result<void> editOwn(const catalogue::Own& own, const QString& place);
    void layOver(const catalogue::Own& own);
    base::Result<void> addDeclaration(records::DeclaredEqual word);
    /// Reads them of the patient in focus again, and says that those of this patient changed.
    base::Result<void> takeHappenings(const records::PatientId& patient);
    base::Result<void> takeTargets();
    /// Reads the patient in focus again after a word about how to judge, and says so.
    base::Result<void> mayChoose(const QString& measure, const QString& threshold, const QString& reason);
    base::Result<void> judgeAnew();
    base::Result<void> store(const Edit& edit, const std::optional<records::Finding>& finding,
                             const std::optional<VisitConditions>& conditions,
                             const std::optional<records::RedFlags>& flags);
    /// The one door (core/records/check), asked before anything is written.
    base::Result<void> refuseWrong(const records::VisitId& visit, const records::Finding& finding) const;
    base::Result<void> refuseWrong(const records::VisitId& visit) const;
    base::Result<void> edit(const Edit& edit, Typing typing);
    base::Result<records::Patient> writePatient(const records::Patient& patient);
    /// Puts one side of an edit of a patient's details in the place of the other.
    base::Result<void> exchangePatient(const records::Patient& from, const records::Patient& to);
    /// Reads the record again after a visit came, went or changed its state, and says so.
    base::Result<void> takeVisits(const std::optional<records::VisitId>& wished);
    void forgetEdits();
    void take(const Focus& focus);
    Fact fact(const records::PatientId& patient = {}) { return {patient, ++m_token}; }
    void settleWhenIdle();

    std::unique_ptr<storage::Store> m_store;
    std::shared_ptr<const catalogue::Catalogue> m_released; ///< as it comes with the program
    QString m_language;                                     ///< of m_catalogue
    std::shared_ptr<const catalogue::Catalogue> m_catalogue;
    mutable std::map<QString, std::shared_ptr<const catalogue::Catalogue>> m_inLanguages; ///< as asked for
    std::unique_ptr<const catalogue::Own> m_own;
    QString m_catalogueFault;
    Clock m_clock;
    QTimer m_idle; ///< since the last save
    records::Clinic m_clinic;
    records::Author m_person;
    bool m_isPersonKnown = false;
    AskPerson m_askPerson;
    Focus m_focus;
    std::unique_ptr<PatientRecord> m_record;
    Undo m_undo;
    std::vector<OwnEdit> m_ownDone;
    std::vector<OwnEdit> m_ownUndone;
    quint64 m_token = 0;
};

} // namespace session
