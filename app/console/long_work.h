#pragma once

#include "app/console/request.h"

#include <QElapsedTimer>

namespace console
{

/// A work that may take long: while it lives, a terminal is told how far it is and how long it will take, and
/// Ctrl+C, or the system's wish to end the program, stops it. A second one ends the program. One at a time.
class LongWork
{
public:
    LongWork(const Request& request, const base::Message& what);
    ~LongWork();
    LongWork(const LongWork&) = delete;
    LongWork& operator=(const LongWork&) = delete;

    /// Good as long as this lives.
    records::Progress progress()
    {
        return [this](int percent) { return went(percent); };
    }

private:
    bool went(int percent);
    QString line(int percent) const;
    void show(const QString& line);

    QTextStream* m_terminal;
    base::Message m_what;
    QElapsedTimer m_since;
    QString m_shown;
};

} // namespace console
