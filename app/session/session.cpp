#include "app/session/session.h"

#include "app/session/languages.h"

#include "app/session/patient_record.h"
#include "core/catalogue/own.h"
#include "core/judging/change.h"
#include "core/records/check.h"
#include "core/records/letter.h"
#include "core/storage/backup.h"
#include "core/storage/letter_kinds.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/sealing.h"
#include "core/storage/store.h"
#include "core/storage/unsaved_entries.h"
#include "core/storage/visits.h"

#include <algorithm>

namespace session
{

namespace
{

/// The conditions of the last signed or draft visit before the day, to be confirmed; not those that are true
/// of one visit alone.
records::Conditions carriedForward(const std::vector<records::Visit>& visits, QDate day,
                                   const catalogue::Catalogue& catalogue)
{
    records::Conditions conditions;
    for (const records::Visit& visit : visits) {
        if (visit.day <= day)
            conditions = visit.conditions;
    }
    for (const QString& id : conditions.keys()) {
        if (records::wrongWithCondition(id, conditions[id], catalogue))
            conditions.remove(id);
    }
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (condition.isOfOneVisit)
            conditions.remove(condition.id);
    }
    return conditions;
}

/// The form without the measures that are no longer asked for.
catalogue::Form withoutRetired(catalogue::Form form, const catalogue::Catalogue& catalogue)
{
    const auto isRetired = [&](const QString& id) {
        const catalogue::Measure* measure = catalogue.measure(id);
        return measure != nullptr && measure->retired;
    };
    form.expected.removeIf(isRetired);
    for (catalogue::FormSection& section : form.sections)
        section.measures.removeIf(isRetired);
    std::erase_if(form.sections,
                  [](const catalogue::FormSection& section) { return section.measures.isEmpty(); });
    return form;
}

} // namespace

base::Result<std::unique_ptr<Session>> Session::open(const QString& path,
                                                     const catalogue::Catalogue& catalogue,
                                                     const records::Access& access, records::Opening opening)
{
    auto store = storage::Store::open(path, access, opening);
    if (!store)
        return store.error();
    const auto clinic = (*store)->clinic();
    if (!clinic)
        return clinic.error();
    std::unique_ptr<Session> session(
        new Session(std::move(*store), catalogue, access.now, *clinic, access.who));
    if (auto taken = session->takeNewestOwn(); !taken)
        return taken.error();
    return session;
}

Session::Session(std::unique_ptr<storage::Store> store, const catalogue::Catalogue& catalogue, Clock clock,
                 records::Clinic clinic, const QString& who)
    : m_store(std::move(store)),
      m_released(std::make_shared<const catalogue::Catalogue>(catalogue)),
      m_language(english),
      m_catalogue(m_released),
      m_own(std::make_unique<const catalogue::Own>()),
      m_clock(std::move(clock)),
      m_clinic(std::move(clinic)),
      m_person{who, {}, {}},
      m_record(std::make_unique<PatientRecord>())
{
    settleWhenIdle();
}

Session::~Session() = default;

/// The log is brought into the file between two saves rather than with one.
void Session::settleWhenIdle()
{
    m_idle.setSingleShot(true);
    m_idle.setInterval(1000);
    connect(&m_idle, &QTimer::timeout, this, [this] { m_store->settle(); });
    const auto saved = qOverload<>(&QTimer::start);
    connect(this, &Session::patientChanged, &m_idle, saved);
    connect(this, &Session::visitChanged, &m_idle, saved);
    connect(this, &Session::visitsChanged, &m_idle, saved);
    connect(this, &Session::letterChanged, &m_idle, saved);
    connect(this, &Session::judgingChanged, &m_idle, saved);
    connect(this, &Session::happeningsChanged, &m_idle, saved);
    connect(this, &Session::targetsChanged, &m_idle, saved);
    connect(this, &Session::clinicChanged, &m_idle, saved);
    connect(this, &Session::catalogueChanged, &m_idle, saved);
}

base::Result<void> Session::keep()
{
    return m_store->keep();
}

QString Session::path() const
{
    return m_store->path();
}

base::Result<void> Session::backUp(const QString& path, const records::Progress& progress) const
{
    return storage::backUp(*m_store, path, progress);
}

bool Session::canSeal()
{
    return storage::canSeal();
}

bool Session::isSealed() const
{
    return m_store->isSealed();
}

base::Result<void> Session::seal(const sealing::Seal& seal, const records::Progress& progress)
{
    const auto done = m_store->seal(seal, progress);
    if (done)
        Q_EMIT clinicChanged(fact());
    return done;
}

base::Result<void> Session::changePassword(const QString& old, const QString& password)
{
    const auto seal = sealing::opened(path(), old);
    const auto anew = seal ? sealing::wrappedAnew(seal->key, password) : seal;
    return anew ? m_store->rewrap(anew->wrapped) : anew.error();
}

base::Result<QStringList> Session::code(const QString& password) const
{
    const auto seal = sealing::opened(path(), password);
    if (!seal)
        return seal.error();
    return seal->key.code();
}

QDate Session::today() const
{
    return m_clock().toLocalTime().date();
}

void Session::setPerson(const records::Author& person)
{
    m_person = person;
    m_isPersonKnown = true;
    m_store->setWho(records::inWords(person));
    Q_EMIT personChanged();
}

base::Result<void> Session::needPerson()
{
    if (m_isPersonKnown || !m_askPerson)
        return {};
    const auto person = m_askPerson();
    if (!person)
        return base::Error{
            base::ErrorKind::Refused, base::verbatim(tr("This is kept with a name, so it needs yours.")), {}};
    if (const auto wrong = records::wrongWith(*person))
        return *wrong;
    setPerson(*person);
    return {};
}

base::Result<void> Session::saveClinic(const records::Clinic& clinic)
{
    if (const auto wrong = records::wrongWith(clinic))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known;
    if (auto saved = m_store->save(clinic); !saved)
        return saved;
    const records::Judging before = m_clinic.judging;
    m_clinic = clinic;
    m_clinic.judging.choices = before.choices;
    const bool isJudgedAnew = m_clinic.judging != before;
    Q_EMIT clinicChanged(fact());
    if (isJudgedAnew)
        Q_EMIT judgingChanged(fact());
    return {};
}

base::Result<std::vector<records::PatientSummary>> Session::patients() const
{
    return storage::Patients(*m_store).all();
}

base::Result<records::Patient> Session::patient(const records::PatientId& id) const
{
    return storage::Patients(*m_store).withId(id);
}

base::Result<records::Patient> Session::savePatient(const records::Patient& patient)
{
    const auto before = patient.revision > 0 ? storage::Patients(*m_store).withId(patient.id)
                                             : base::Result<records::Patient>(records::Patient());
    auto saved = writePatient(patient);
    if (!saved || !before || before->revision == 0)
        return saved;
    Edit edit;
    edit.patientBefore = *before;
    edit.patientAfter = *saved;
    m_undo.remember(edit, Typing::Anew);
    Q_EMIT editsChanged();
    return saved;
}

base::Result<records::Patient> Session::writePatient(const records::Patient& patient)
{
    if (const auto wrong = records::wrongWith(patient, *m_catalogue, today()))
        return *wrong;
    auto saved = storage::Patients(*m_store).save(patient);
    if (!saved)
        return saved;
    if (m_focus.patient == saved->id) {
        if (auto read = m_record->readPatient(*m_store); !read)
            return read.error();
    }
    Q_EMIT patientChanged(fact(saved->id));
    return saved;
}

const records::Patient& Session::patientInFocus() const
{
    return m_record->patient();
}

const std::vector<records::Visit>& Session::versions() const
{
    return m_record->versions();
}

const std::vector<records::Visit>& Session::visits() const
{
    return m_record->visits();
}

const std::vector<records::Visit>& Session::onRecord() const
{
    return m_record->onRecord();
}

void Session::take(const Focus& focus)
{
    m_focus = focus;
    Q_EMIT focusChanged();
}

void Session::forgetEdits()
{
    m_undo.clear();
    Q_EMIT editsChanged();
}

void Session::choosePatient(const records::PatientId& id)
{
    const Focus chosen{id, {}, {}}; // `id` may be that of the focus itself
    const bool isRead = bool(m_record->read(*m_store, *chosen.patient));
    m_focus = {};
    forgetEdits();
    take(isRead ? settled(chosen, {}, onRecord()) : Focus());
}

void Session::leavePatient()
{
    m_record->clear();
    m_focus = {};
    forgetEdits();
    take({});
}

void Session::chooseVisit(const records::VisitId& id)
{
    if (placeOf(onRecord(), id) >= 0)
        take(settled(m_focus, id, onRecord()));
}

void Session::chooseReference(const std::optional<records::VisitId>& id)
{
    if (id && placeOf(onRecord(), id) >= placeOf(onRecord(), m_focus.visit))
        return;
    take(settled({m_focus.patient, m_focus.visit, id}, m_focus.visit, onRecord()));
}

void Session::moveVisit(int step)
{
    if (const Focus moved = withVisitMoved(m_focus, step, onRecord()); moved != m_focus)
        take(moved);
}

void Session::moveReference(int step)
{
    if (const Focus moved = withReferenceMoved(m_focus, step, onRecord()); moved != m_focus)
        take(moved);
}

const records::Visit* Session::visitInFocus() const
{
    const qsizetype place = placeOf(onRecord(), m_focus.visit);
    return place < 0 ? nullptr : &onRecord()[size_t(place)];
}

std::vector<judging::Change> Session::changes() const
{
    if (!m_focus.visit)
        return {};
    return judging::changesAt(*m_focus.visit, m_focus.reference, visits(), patientInFocus(), *m_catalogue,
                              m_clinic.judging);
}

base::Result<void> Session::takeVisits(const std::optional<records::VisitId>& wished)
{
    if (m_focus.patient) {
        if (auto read = m_record->read(*m_store, *m_focus.patient); !read)
            return read;
    }
    take(settled(m_focus, wished, onRecord()));
    Q_EMIT visitsChanged(fact(m_record->patient().id));
    return {};
}

base::Result<void> Session::readAgain()
{
    m_store->settle();
    const auto versionsBefore = versions();
    const auto taken = takeVisits(m_focus.visit);
    if (versions() != versionsBefore)
        forgetEdits();
    Q_EMIT patientChanged(fact());
    return taken;
}

base::Result<records::Visit> Session::startVisit(QDate day, const QString& form)
{
    const catalogue::Form* chosen = nullptr;
    if (!form.isEmpty())
        chosen = m_catalogue->form(form);
    else if (!m_catalogue->forms.empty())
        chosen = &m_catalogue->forms.front();
    if (chosen == nullptr)
        return base::Error{base::ErrorKind::NotFound, base::said("This form is not in the catalogue."), {}};
    records::Visit visit;
    visit.id = records::VisitId::make();
    visit.series = visit.id;
    visit.patient = patientInFocus().id;
    visit.day = day;
    visit.form = chosen->id;
    visit.formAsMade = withoutRetired(*chosen, *m_catalogue);
    visit.conditions = carriedForward(visits(), day, *m_catalogue);
    if (const auto wrong = records::wrongWith(visit, patientInFocus(), *m_catalogue, today()))
        return *wrong;
    auto added = storage::Visits(*m_store).add(visit);
    if (!added)
        return added;
    if (auto taken = takeVisits(added->id); !taken)
        return taken.error();
    return added;
}

base::Result<void> Session::discardVisit(const records::VisitId& visit)
{
    if (auto discarded = storage::Visits(*m_store).discard(visit); !discarded)
        return discarded;
    forgetEdits();
    return takeVisits({});
}

base::Result<void> Session::refuseWrong(const records::VisitId& id) const
{
    const auto visit = storage::Visits(*m_store).withId(id);
    if (!visit)
        return visit.error();
    const auto patient = storage::Patients(*m_store).withId(visit->patient);
    if (!patient)
        return patient.error();
    if (const auto wrong = records::wrongWith(*visit, *patient, *m_catalogue, today()))
        return *wrong;
    return {};
}

base::Result<records::Visit> Session::withdrawVisit(const records::VisitId& visit, const QString& reason)
{
    if (const auto wrong = records::wrongWithReason(reason))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known.error();
    auto withdrawn = storage::Visits(*m_store).withdraw(visit, reason, m_person);
    if (!withdrawn)
        return withdrawn;
    forgetEdits();
    if (auto taken = takeVisits(withdrawn->id); !taken)
        return taken.error();
    return withdrawn;
}

base::Result<records::Visit> Session::amendVisit(const records::VisitId& visit, const QString& reason)
{
    if (const auto wrong = records::wrongWithReason(reason))
        return *wrong;
    auto amendment = storage::Visits(*m_store).amend(visit, reason);
    if (!amendment)
        return amendment;
    if (auto taken = takeVisits(amendment->id); !taken)
        return taken.error();
    return amendment;
}

base::Result<std::vector<records::Letter>> Session::letters() const
{
    return storage::Letters(*m_store).ofPatient(patientInFocus().id);
}

base::Result<records::Letter> Session::letter(const records::LetterId& id) const
{
    return storage::Letters(*m_store).withId(id);
}

base::Result<void> Session::keepEntry(const QString& form, const QString& typed)
{
    auto kept = storage::UnsavedEntries(*m_store).keep(form, typed);
    if (kept)
        m_idle.start();
    return kept;
}

base::Result<QString> Session::keptEntry(const QString& form) const
{
    return storage::UnsavedEntries(*m_store).of(form);
}

base::Result<std::vector<records::LetterKind>> Session::letterKinds() const
{
    return storage::LetterKinds(*m_store).all();
}

base::Result<records::LetterKind> Session::saveLetterKind(const records::LetterKind& kind)
{
    if (const auto wrong = records::wrongWith(kind))
        return *wrong;
    auto saved = storage::LetterKinds(*m_store).save(kind);
    if (saved)
        Q_EMIT clinicChanged(fact());
    return saved;
}

base::Result<std::vector<records::Handover>> Session::handovers() const
{
    return storage::Letters(*m_store).handovers(patientInFocus().id);
}

base::Result<void> Session::noteHandover(const records::Handover& handover)
{
    if (const auto wrong = records::wrongWith(handover))
        return *wrong;
    auto noted = storage::Letters(*m_store).noteHandover(handover);
    if (noted)
        Q_EMIT letterChanged(fact(patientInFocus().id), handover.letter);
    return noted;
}

base::Result<records::Letter> Session::saveLetter(const records::Letter& letter)
{
    if (const auto wrong = records::wrongWith(letter))
        return *wrong;
    auto saved = storage::Letters(*m_store).save(letter);
    if (saved)
        Q_EMIT letterChanged(fact(saved->patient), saved->id);
    return saved;
}

base::Result<records::Letter> Session::signOffLetter(const records::Letter& letter)
{
    if (const auto wrong = records::wrongWith(letter))
        return *wrong;
    auto saved = storage::Letters(*m_store).signOff(letter);
    if (!saved)
        return saved;
    m_store->settle();
    if (!m_isPersonKnown)
        setPerson(letter.author);
    Q_EMIT letterChanged(fact(saved->patient), saved->id);
    return saved;
}

} // namespace session
