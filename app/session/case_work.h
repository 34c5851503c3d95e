#pragma once

#include "core/records/ids.h"

#include <QObject>

#include <atomic>
#include <memory>
#include <vector>

class QThread;

namespace session
{

class Session;

/// Works out the summaries of patients beside the window, on a connection of its own that only reads, and
/// keeps them through the session. Ends when it goes, with what is kept so far.
class CaseWork : public QObject
{
    Q_OBJECT

public:
    explicit CaseWork(Session& session, QObject* parent = nullptr);
    ~CaseWork() override;

    /// In this order; what was begun before is let go.
    void start(const std::vector<records::PatientId>& patients);
    void stop();
    bool isRunning() const { return m_thread != nullptr; }

Q_SIGNALS:
    void kept(const std::vector<records::PatientId>& patients, int left);
    void ended(); ///< of itself: all are kept, or the records could not be read

private:
    struct Batch;
    void take(quint64 round, const Batch& batch);

    Session& m_session;
    QThread* m_thread = nullptr;
    std::shared_ptr<std::atomic<bool>> m_stopped;
    quint64 m_round = 0; ///< what comes from an older one is let go
};

} // namespace session
