#pragma once

#include <QLocalServer>

namespace shell
{

/// How a second start on the same records reaches the window that has them open: a socket of this user alone,
/// named after the file. To be made by the window that may write the records.
class Doorbell : public QObject
{
    Q_OBJECT

public:
    explicit Doorbell(const QString& records);

    /// Where it is.
    static QString pathFor(const QString& records);
    /// Whether a window of this user answered that it shows itself now.
    static bool isAnswered(const QString& records);

Q_SIGNALS:
    void rung();

private:
    void answer();

    QLocalServer m_server;
};

} // namespace shell
