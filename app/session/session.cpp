#include "app/session/session.h"

#include "core/records/check.h"
#include "core/storage/letters.h"
#include "core/storage/store.h"
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

qsizetype placeOf(const std::vector<records::Visit>& visits, const std::optional<records::VisitId>& id)
{
    const auto found =
        std::ranges::find_if(visits, [&](const records::Visit& visit) { return visit.id == id; });
    return found == visits.end() ? -1 : found - visits.begin();
}

} // namespace

base::Result<std::unique_ptr<Session>> Session::open(const QString& path,
                                                     const catalogue::Catalogue& catalogue, Clock clock,
                                                     const QString& who, storage::Opening opening)
{
    auto store = storage::Store::open(path, {who, clock}, opening);
    if (!store)
        return store.error();
    const auto clinic = (*store)->clinic();
    if (!clinic)
        return clinic.error();
    std::unique_ptr<Session> session(
        new Session(std::move(*store), catalogue, std::move(clock), *clinic, who));
    if (auto taken = session->takeNewestOwn(); !taken)
        return taken.error();
    return session;
}

Session::Session(std::unique_ptr<storage::Store> store, const catalogue::Catalogue& catalogue, Clock clock,
                 records::Clinic clinic, const QString& who)
    : m_store(std::move(store)),
      m_released(catalogue),
      m_catalogue(catalogue),
      m_clock(std::move(clock)),
      m_clinic(std::move(clinic)),
      m_person{who, {}, {}}
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
        return base::Error{base::ErrorKind::Refused, tr("This is kept with a name, so it needs yours."), {}};
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
    const bool isJudgedAnew = m_clinic.judging != clinic.judging;
    m_clinic = clinic;
    Q_EMIT clinicChanged();
    if (isJudgedAnew)
        Q_EMIT focusChanged();
    return {};
}

base::Result<std::vector<storage::PatientSummary>> Session::patients() const
{
    return storage::Patients(*m_store).all();
}

base::Result<records::Patient> Session::patient(const records::PatientId& id) const
{
    return storage::Patients(*m_store).withId(id);
}

base::Result<records::Patient> Session::savePatient(const records::Patient& patient)
{
    if (const auto wrong = records::wrongWith(patient, m_catalogue, today()))
        return *wrong;
    auto saved = storage::Patients(*m_store).save(patient);
    if (!saved)
        return saved;
    if (m_focus.patient == saved->id)
        m_patient = *saved;
    Q_EMIT patientChanged(saved->id);
    return saved;
}

base::Result<void> Session::reload()
{
    m_versions.clear();
    m_visits.clear();
    m_onRecord.clear();
    if (!m_focus.patient)
        return {};
    auto patient = storage::Patients(*m_store).withId(*m_focus.patient);
    if (!patient)
        return patient.error();
    auto versions = storage::Visits(*m_store).ofPatient(*m_focus.patient);
    if (!versions)
        return versions.error();
    m_patient = std::move(*patient);
    m_versions = std::move(*versions);
    m_visits = records::current(m_versions, true);
    m_onRecord = records::onRecord(m_versions);
    return {};
}

void Session::settleFocus(const std::optional<records::VisitId>& wished)
{
    m_focus.visit = placeOf(m_onRecord, wished) >= 0 ? wished : std::nullopt;
    if (!m_focus.visit && !m_onRecord.empty())
        m_focus.visit = m_visits.empty() ? m_onRecord.back().id : m_visits.back().id;
    if (placeOf(m_visits, m_focus.reference) < 0 ||
        placeOf(m_onRecord, m_focus.reference) >= placeOf(m_onRecord, m_focus.visit))
        m_focus.reference.reset();
    Q_EMIT focusChanged();
}

void Session::choosePatient(const records::PatientId& id)
{
    m_focus = {id, std::nullopt, std::nullopt};
    m_done.clear();
    m_undone.clear();
    if (!reload())
        m_focus = {};
    Q_EMIT editsChanged();
    settleFocus(std::nullopt);
}

void Session::leavePatient()
{
    m_focus = {};
    m_patient = {};
    m_versions.clear();
    m_visits.clear();
    m_onRecord.clear();
    m_done.clear();
    m_undone.clear();
    Q_EMIT editsChanged();
    Q_EMIT focusChanged();
}

void Session::chooseVisit(const records::VisitId& id)
{
    if (placeOf(m_onRecord, id) >= 0)
        settleFocus(id);
}

void Session::chooseReference(const std::optional<records::VisitId>& id)
{
    if (id && placeOf(m_onRecord, id) >= placeOf(m_onRecord, m_focus.visit))
        return;
    m_focus.reference = id;
    settleFocus(m_focus.visit);
}

void Session::moveVisit(int step)
{
    const qsizetype place = placeOf(m_onRecord, m_focus.visit) + step;
    if (place >= 0 && place < qsizetype(m_onRecord.size()))
        chooseVisit(m_onRecord[size_t(place)].id);
}

void Session::moveReference(int step)
{
    const qsizetype visit = placeOf(m_onRecord, m_focus.visit);
    qsizetype place = m_focus.reference ? placeOf(m_onRecord, m_focus.reference) : visit;
    do {
        place += step;
    } while (place >= 0 && place < visit && m_onRecord[size_t(place)].withdrawn);
    if (place >= visit)
        chooseReference(std::nullopt);
    else if (place >= 0)
        chooseReference(m_onRecord[size_t(place)].id);
}

const records::Visit* Session::visitInFocus() const
{
    const qsizetype place = placeOf(m_onRecord, m_focus.visit);
    return place < 0 ? nullptr : &m_onRecord[size_t(place)];
}

std::vector<judging::Change> Session::changes() const
{
    if (!m_focus.visit)
        return {};
    return judging::changesAt(*m_focus.visit, m_focus.reference, m_visits, m_patient, m_catalogue,
                              m_clinic.judging);
}

base::Result<records::Visit> Session::startVisit(QDate day, const QString& form)
{
    const catalogue::Form* chosen = nullptr;
    if (!form.isEmpty())
        chosen = m_catalogue.form(form);
    else if (!m_catalogue.forms.empty())
        chosen = &m_catalogue.forms.front();
    if (chosen == nullptr)
        return base::Error{
            base::ErrorKind::NotFound, QStringLiteral("This form is not in the catalogue."), {}};
    records::Visit visit;
    visit.id = records::VisitId::make();
    visit.series = visit.id;
    visit.patient = m_patient.id;
    visit.day = day;
    visit.form = chosen->id;
    visit.formAsMade = withoutRetired(*chosen, m_catalogue);
    visit.conditions = carriedForward(m_visits, day, m_catalogue);
    if (const auto wrong = records::wrongWith(visit, m_patient, m_catalogue, today()))
        return *wrong;
    auto added = storage::Visits(*m_store).add(visit);
    if (!added)
        return added;
    if (auto loaded = reload(); !loaded)
        return loaded.error();
    settleFocus(added->id);
    Q_EMIT visitsChanged();
    return added;
}

base::Result<void> Session::discardVisit(const records::VisitId& visit)
{
    if (auto discarded = storage::Visits(*m_store).discard(visit); !discarded)
        return discarded;
    m_done.clear();
    m_undone.clear();
    if (auto loaded = reload(); !loaded)
        return loaded;
    Q_EMIT editsChanged();
    settleFocus(std::nullopt);
    Q_EMIT visitsChanged();
    return {};
}

base::Result<void> Session::refuseWrong(const records::VisitId& id) const
{
    const auto visit = storage::Visits(*m_store).withId(id);
    if (!visit)
        return visit.error();
    const auto patient = storage::Patients(*m_store).withId(visit->patient);
    if (!patient)
        return patient.error();
    if (const auto wrong = records::wrongWith(*visit, *patient, m_catalogue, today()))
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
    m_done.clear();
    m_undone.clear();
    if (auto loaded = reload(); !loaded)
        return loaded.error();
    Q_EMIT editsChanged();
    settleFocus(withdrawn->id);
    Q_EMIT visitsChanged();
    return withdrawn;
}

base::Result<records::Visit> Session::amendVisit(const records::VisitId& visit, const QString& reason)
{
    if (const auto wrong = records::wrongWithReason(reason))
        return *wrong;
    auto amendment = storage::Visits(*m_store).amend(visit, reason);
    if (!amendment)
        return amendment;
    if (auto loaded = reload(); !loaded)
        return loaded.error();
    settleFocus(amendment->id);
    Q_EMIT visitsChanged();
    return amendment;
}

base::Result<std::vector<records::Letter>> Session::letters() const
{
    return storage::Letters(*m_store).ofPatient(m_patient.id);
}

base::Result<records::Letter> Session::saveLetter(const records::Letter& letter)
{
    if (const auto wrong = records::wrongWith(letter))
        return *wrong;
    auto saved = storage::Letters(*m_store).save(letter);
    if (saved)
        Q_EMIT letterChanged(saved->id);
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
    Q_EMIT letterChanged(saved->id);
    return saved;
}

} // namespace session
