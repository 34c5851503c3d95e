#include "app/shell/doorbell.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFileInfo>
#include <QLocalSocket>
#include <QStandardPaths>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

constexpr int patienceMs = 3000;
constexpr char reply = '1';

/// A folder of this user alone.
QString ownFolder()
{
    const QString running = qEnvironmentVariable("XDG_RUNTIME_DIR");
    if (!running.isEmpty() && QFileInfo(running).isDir())
        return running;
    const QString data = QStandardPaths::writableLocation(QStandardPaths::AppLocalDataLocation);
    if (!QDir(data).exists() && QDir().mkpath(data))
        QFile::setPermissions(data, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    return data;
}

} // namespace

Doorbell::Doorbell(const QString& records)
{
    const QString path = pathFor(records);
    QLocalServer::removeServer(path); // of a window that was ended; only one at a time may write the records
    m_server.setSocketOptions(QLocalServer::UserAccessOption);
    connect(&m_server, &QLocalServer::newConnection, this, &Doorbell::answer);
    m_server.listen(path); // without it a second start is told who has the records open
}

QString Doorbell::pathFor(const QString& records)
{
    const QFileInfo file(records);
    const QString real = file.exists() ? file.canonicalFilePath() : file.absoluteFilePath();
    const QByteArray name = QCryptographicHash::hash(real.toUtf8(), QCryptographicHash::Sha256).toHex();
    return QDir(ownFolder()).filePath(u"aplomb-%1"_s.arg(QString::fromLatin1(name.first(24))));
}

bool Doorbell::isAnswered(const QString& records)
{
    QLocalSocket socket;
    socket.connectToServer(pathFor(records));
    return socket.waitForConnected(patienceMs) && socket.waitForReadyRead(patienceMs) &&
           socket.read(1) == QByteArray(1, reply);
}

void Doorbell::answer()
{
    while (QLocalSocket* socket = m_server.nextPendingConnection()) {
        connect(socket, &QLocalSocket::disconnected, socket, &QObject::deleteLater);
        Q_EMIT rung();
        socket->write(&reply, 1);
        socket->flush();
        socket->disconnectFromServer();
    }
}

} // namespace shell
