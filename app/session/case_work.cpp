#include "app/session/case_work.h"

#include "app/session/session.h"
#include "core/catalogue/catalogue.h"
#include "core/storage/cases.h"

#include <QElapsedTimer>
#include <QThread>

namespace session
{

namespace
{

using records::PatientId;
using storage::WorkedOut;

/// People wait for the first ones only.
constexpr int shortest = 50;  ///< of a batch, in ms
constexpr int longest = 1000; ///< the same; a commit each second is enough

} // namespace

struct CaseWork::Batch {
    std::vector<WorkedOut> all;
    int left = 0;
};

CaseWork::CaseWork(Session& session, QObject* parent) : QObject(parent), m_session(session) {}

CaseWork::~CaseWork()
{
    stop();
}

void CaseWork::stop()
{
    ++m_round;
    if (m_thread == nullptr)
        return;
    m_stopped->store(true);
    m_thread->wait();
    m_thread->deleteLater();
    m_thread = nullptr;
}

void CaseWork::start(const std::vector<PatientId>& patients)
{
    stop();
    if (patients.empty() || m_session.workOutHere(patients)) {
        Q_EMIT kept(patients, 0);
        Q_EMIT ended();
        return;
    }
    m_stopped = std::make_shared<std::atomic<bool>>(false);
    const quint64 round = m_round;
    records::Access access = m_session.access();
    access.progress = {}; // of the window's own opening, which is over
    const auto work = [this, round, stopped = m_stopped, patients, path = m_session.path(), access,
                       catalogue = m_session.sharedCatalogue(), judging = m_session.clinic().judging] {
        const auto give = [&](Batch batch) {
            QMetaObject::invokeMethod(this, [this, round, batch = std::move(batch)] { take(round, batch); });
        };
        const auto store = storage::Store::open(path, access, records::Opening::ToRead);
        QElapsedTimer since;
        since.start();
        int due = shortest;
        Batch batch;
        for (size_t place = 0; store && place < patients.size() && !stopped->load(); ++place) {
            auto each = storage::Cases(**store).workOut(patients[place], *catalogue, judging);
            if (each)
                batch.all.push_back(std::move(*each));
            batch.left = int(patients.size() - place) - 1;
            if (since.elapsed() >= due || batch.left == 0) {
                give(std::exchange(batch, {}));
                due = std::min(2 * due, longest);
                since.restart();
            }
        }
        if (!store)
            give({});
    };
    m_thread = QThread::create(work);
    m_thread->start(QThread::LowPriority);
}

void CaseWork::take(quint64 round, const Batch& batch)
{
    if (round != m_round)
        return;
    std::vector<PatientId> patients;
    for (const WorkedOut& each : batch.all)
        patients.push_back(each.patient);
    const bool isKept = bool(m_session.keepCases(batch.all));
    if (batch.left == 0 || !isKept)
        stop();
    Q_EMIT kept(patients, batch.left);
    if (batch.left == 0 || !isKept)
        Q_EMIT ended();
}

} // namespace session
