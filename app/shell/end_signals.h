#pragma once

#include <QObject>

namespace shell
{

/// Hears that the system wants the program to end: SIGTERM, SIGINT or SIGHUP. One at a time.
class EndSignals : public QObject
{
    Q_OBJECT

public:
    EndSignals();
    ~EndSignals() override;

Q_SIGNALS:
    void asked();
};

} // namespace shell
