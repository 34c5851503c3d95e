#include "app/caseload/case_list.h"

#include "core/base/text.h"
#include "core/catalogue/catalogue.h"
#include "core/judging/case_order.h"
#include "core/records/review.h"
#include "core/records/since_onset.h"

#include <QHash>

#include <algorithm>

namespace caseload
{

namespace
{

/// The code of the time since onset, or notRecorded.
QString sinceOnset(const Entry& entry, QDate today)
{
    const auto since = entry.of.onset ? records::sinceOnset(*entry.of.onset, today) : std::nullopt;
    return since ? records::code(*since) : notRecorded;
}

} // namespace

bool isIn(const Entry& entry, Group group, QDate today)
{
    const auto has = [&](bool judging::CaseSummary::*what) {
        return entry.of.summary && (*entry.of.summary).*what;
    };
    switch (group) {
    case Group::All:
        break;
    case Group::Worse:
        return has(&judging::CaseSummary::isWorse);
    case Group::Unable:
        return has(&judging::CaseSummary::isUnable);
    case Group::Reversed:
        return has(&judging::CaseSummary::hasReversed);
    case Group::Better:
        return has(&judging::CaseSummary::isBetter);
    case Group::Words:
        return has(&judging::CaseSummary::hasWorseWord);
    case Group::Due:
        return entry.isDue(today);
    case Group::Drafts:
        return entry.of.draft.has_value();
    case Group::Letters:
        return entry.of.hasUnsignedLetter;
    case Group::Injuries:
        return has(&judging::CaseSummary::hasInjury);
    }
    return true;
}

bool isAmong(const Entry& entry, const Filter& filter, QDate today)
{
    return (filter.population.isEmpty() || entry.populations.contains(filter.population)) &&
           (filter.clinician.isEmpty() || entry.of.clinician == filter.clinician) &&
           (filter.sinceOnset.isEmpty() || sinceOnset(entry, today) == filter.sinceOnset);
}

bool isShown(const Entry& entry, const Filter& filter, QDate today)
{
    if (!isIn(entry, filter.group, today) || !isAmong(entry, filter, today))
        return false;
    if (filter.typed.isEmpty())
        return true;
    QStringList keys;
    for (const QString& text :
         {entry.of.family, entry.of.given, entry.of.recordNumber, entry.population, entry.of.clinician})
        keys += base::folded(text);
    return base::matches(keys, filter.typed);
}

CaseList::CaseList(session::Session& session, QObject* parent)
    : QObject(parent), m_session(session), m_work(session)
{
    using session::Session;
    connect(&m_session, &Session::patientChanged, this, &CaseList::follow);
    connect(&m_session, &Session::visitChanged, this, &CaseList::follow);
    connect(&m_session, &Session::visitsChanged, this, &CaseList::follow);
    connect(&m_session, &Session::letterChanged, this, &CaseList::follow);
    connect(&m_session, &Session::happeningsChanged, this, &CaseList::follow);
    connect(&m_session, &Session::judgingChanged, this, &CaseList::forget);
    connect(&m_session, &Session::clinicChanged, this, &CaseList::forget);
    connect(&m_session, &Session::catalogueChanged, this, &CaseList::forget);
    connect(&m_work, &session::CaseWork::kept, this, [this](const std::vector<records::PatientId>& patients) {
        constexpr size_t few = 2;
        m_changed = patients;
        patients.size() > few ? readAll() : readChanged();
        m_changed.clear();
    });
    connect(&m_work, &session::CaseWork::ended, this, &CaseList::changed);
}

void CaseList::follow(const session::Fact& fact)
{
    constexpr size_t many = 20; ///< from then on all are read again
    if (fact.patient.isNull() || m_changed.size() > many)
        m_isStale = true;
    else if (std::ranges::find(m_changed, fact.patient) == m_changed.end())
        m_changed.push_back(fact.patient);
    Q_EMIT outdated();
}

void CaseList::forget()
{
    m_isStale = true;
    m_work.stop();
    Q_EMIT outdated();
}

bool CaseList::refresh()
{
    if (m_isStale)
        readAll();
    else if (!m_changed.empty())
        readChanged();
    else
        return false;
    m_isStale = false;
    m_changed.clear();
    workOnWaiting();
    return true;
}

/// What is not worked out, in the order of the list.
void CaseList::workOnWaiting()
{
    std::vector<records::PatientId> patients;
    for (const Entry& entry : m_entries) {
        if (!entry.of.summary)
            patients.push_back(entry.of.patient);
    }
    if (patients.empty())
        return;
    m_work.start(patients);
    if (m_work.isRunning())
        Q_EMIT changed();
}

void CaseList::readAll()
{
    auto cases = m_session.cases();
    if (!cases) {
        m_work.stop();
        Q_EMIT failed(cases.error());
        return;
    }
    arrange(std::move(*cases));
}

void CaseList::readChanged()
{
    std::vector<judging::Case> cases;
    cases.reserve(m_entries.size() + m_changed.size());
    for (const Entry& entry : m_entries) {
        if (std::ranges::find(m_changed, entry.of.patient) == m_changed.end())
            cases.push_back(entry.of);
    }
    for (const records::PatientId& id : m_changed) {
        auto each = m_session.caseOf(id);
        if (!each) {
            Q_EMIT failed(each.error());
            return;
        }
        if (*each)
            cases.push_back(std::move(**each));
    }
    arrange(std::move(cases));
}

void CaseList::arrange(std::vector<judging::Case> cases)
{
    const judging::CaseOrder order = judging::caseOrder(cases);
    const auto reviews = m_session.clinic().reviews;
    const catalogue::Catalogue& catalogue = m_session.catalogue();
    QHash<QString, QString> titles;
    QHash<QString, QStringList> withWider;
    for (const catalogue::Population& population : catalogue.populations) {
        titles.insert(population.id, population.title);
        for (const auto* each = &population; each != nullptr; each = catalogue.population(each->broader))
            withWider[population.id] += each->id;
    }
    std::vector<Entry> entries;
    entries.reserve(cases.size());
    for (const size_t place : order.places) {
        Entry entry;
        entry.isWorseForSure = order.isWorseForSure[place];
        entry.of = std::move(cases[place]);
        if (entry.of.lastSeen)
            entry.due =
                records::dueOn(reviews, entry.of.form, entry.of.population, *entry.of.lastSeen, catalogue);
        entry.population = titles.value(entry.of.population);
        entry.populations = withWider.value(entry.of.population);
        entries.push_back(std::move(entry));
    }
    m_entries = std::move(entries);
    Q_EMIT changed();
}

qsizetype CaseList::waiting() const
{
    return std::ranges::count_if(m_entries, [](const Entry& entry) { return !entry.of.summary; });
}

} // namespace caseload
