#pragma once

#include "tests/support/places.h"

#include <QDBusArgument>
#include <QDBusConnection>
#include <QDBusMessage>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QFileInfo>
#include <QImage>
#include <QProcess>
#include <QRect>
#include <QTemporaryDir>
#include <QTest>
#include <QtEndian>

#include <functional>
#include <memory>

/// A screen of its own with a window manager and what screen readers listen to, and the program on it as a
/// person has it: keys and clicks come through the X server, what is seen is asked as a screen reader asks.
namespace window
{

using namespace Qt::StringLiterals;

constexpr int keyMs = 50;         ///< a fair hurried hand
constexpr int longestMs = 60'000; ///< until something that must come has come, on the slowest machine

/// Where what was seen is kept.
inline QString picturesFolder()
{
    return QFileInfo(places::program()).absoluteDir().filePath(u"window"_s);
}

/// Waits for a state, never for a time.
inline bool comes(const std::function<bool()>& state, int withinMs = longestMs)
{
    QElapsedTimer waited;
    for (waited.start(); waited.elapsed() < withinMs; QTest::qWait(40)) {
        if (state())
            return true;
    }
    return state();
}

/// What a screen reader knows of one thing on the screen.
struct Thing {
    QString service; ///< where it can be asked further
    QString path;
    QString role;
    QString name;
    QRect place; ///< in the program's own pixels
    bool isScrolled = false;
};

/// Started with the test and ended with it.
class Helper
{
public:
    ~Helper() { end(); }

    bool start(const QString& program, const QStringList& words, const QProcessEnvironment& environment)
    {
        m_process.setProcessEnvironment(environment);
        m_process.setProcessChannelMode(QProcess::SeparateChannels);
        m_process.start(program, words);
        return m_process.waitForStarted();
    }
    /// The first line it says.
    QString line()
    {
        QByteArray said;
        comes([&] {
            m_process.waitForReadyRead(20);
            said += m_process.readAllStandardOutput();
            return said.contains('\n') || m_process.state() == QProcess::NotRunning;
        });
        return QString::fromUtf8(said).section(u'\n', 0, 0);
    }
    void end()
    {
        if (m_process.state() == QProcess::NotRunning)
            return;
        m_process.terminate();
        if (!m_process.waitForFinished(5'000)) {
            m_process.kill();
            m_process.waitForFinished();
        }
    }
    QProcess& process() { return m_process; }

private:
    QProcess m_process;
};

inline QString output(const QString& program, const QStringList& words,
                      const QProcessEnvironment& environment)
{
    QProcess process;
    process.setProcessEnvironment(environment);
    process.start(program, words);
    return process.waitForFinished(longestMs) ? QString::fromUtf8(process.readAllStandardOutput())
                                              : QString();
}

class Screen
{
public:
    explicit Screen(QSize size) : m_environment(QProcessEnvironment::systemEnvironment())
    {
        for (const auto& name : {u"QT_QPA_PLATFORM"_s, u"WAYLAND_DISPLAY"_s, u"QT_SCALE_FACTOR"_s})
            m_environment.remove(name);
        m_environment.insert(u"HOME"_s, m_home.path());
        for (const auto& [name, folder] : {std::pair(u"XDG_CONFIG_HOME"_s, u"config"_s),
                                           {u"XDG_DATA_HOME"_s, u"data"_s},
                                           {u"XDG_CACHE_HOME"_s, u"cache"_s},
                                           {u"XDG_STATE_HOME"_s, u"state"_s},
                                           {u"XDG_RUNTIME_DIR"_s, u"run"_s}}) {
            QDir(m_home.path()).mkdir(folder);
            QFile::setPermissions(m_home.filePath(folder),
                                  QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
            m_environment.insert(name, m_home.filePath(folder));
        }
        m_environment.insert(u"USER"_s, u"tester"_s);
        m_server.start(u"Xvfb"_s,
                       {u"-displayfd"_s, u"1"_s, u"-nolisten"_s, u"tcp"_s, u"-fbdir"_s, m_home.path(),
                        u"-screen"_s, u"0"_s, u"%1x%2x24"_s.arg(size.width()).arg(size.height())},
                       m_environment);
        m_environment.insert(u"DISPLAY"_s, u':' + m_server.line());
        m_bus.start(u"dbus-daemon"_s, {u"--session"_s, u"--nofork"_s, u"--print-address"_s}, m_environment);
        m_environment.insert(u"DBUS_SESSION_BUS_ADDRESS"_s, m_bus.line());
        m_readers.start(u"/usr/libexec/at-spi-bus-launcher"_s, {u"--launch-immediately"_s}, m_environment);
        // The server names its screen a moment before it can be reached; a manager that came too early has
        // gone.
        m_isUp = comes([this] {
                     if (m_manager.process().state() == QProcess::NotRunning)
                         m_manager.start(u"openbox"_s, {}, m_environment);
                     return xdo({u"get_num_desktops"_s}).toInt() > 0; // 0 without a window manager
                 }) &&
                 connectToReaders();
    }
    ~Screen() { QDBusConnection::disconnectFromBus(u"readers"_s); }

    bool isUp() const { return m_isUp; }
    QString home() const { return m_home.path(); }
    const QProcessEnvironment& environment() const { return m_environment; }
    QString xdo(const QStringList& words) const
    {
        return output(u"xdotool"_s, words, m_environment).trimmed();
    }

    /// What begins to show from now on is told to `ear`, as AT-SPI 2 does it.
    bool listen(QObject& ear, const char* slot) const
    {
        ask(u"org.a11y.atspi.Registry"_s, u"/org/a11y/atspi/registry"_s, u"org.a11y.atspi.Registry"_s,
            u"RegisterEvent"_s, {u"object:state-changed:showing"_s});
        return QDBusConnection(u"readers"_s)
            .connect({}, {}, u"org.a11y.atspi.Event.Object"_s, u"StateChanged"_s, &ear, slot);
    }
    QDBusMessage ask(const QString& service, const QString& path, const QString& interface,
                     const QString& what, const QVariantList& with = {}) const
    {
        auto call = QDBusMessage::createMethodCall(service, path, interface, what);
        call.setArguments(with);
        return QDBusConnection(u"readers"_s).call(call, QDBus::Block, longestMs);
    }

    /// What the screen shows, read from the server's memory (the format of xwd).
    QImage picture() const
    {
        QFile file(m_home.filePath(u"Xvfb_screen0"_s));
        if (!file.open(QIODevice::ReadOnly))
            return {};
        const QByteArray bytes = file.readAll();
        const auto number = [&](int place) {
            return int(qFromBigEndian<quint32>(bytes.constData() + place * 4));
        };
        const int pixels = number(0) + number(19) * 12; // behind the header and the colours
        return QImage(reinterpret_cast<const uchar*>(bytes.constData()) + pixels, number(4), number(5),
                      number(12), QImage::Format_RGB32)
            .copy();
    }

private:
    bool connectToReaders()
    {
        auto session =
            QDBusConnection::connectToBus(m_environment.value(u"DBUS_SESSION_BUS_ADDRESS"_s), u"desk"_s);
        QString address;
        comes([&] {
            const auto answer = session.call(QDBusMessage::createMethodCall(
                u"org.a11y.Bus"_s, u"/org/a11y/bus"_s, u"org.a11y.Bus"_s, u"GetAddress"_s));
            address = answer.arguments().value(0).toString();
            return address.startsWith(u"unix"_s);
        });
        QDBusConnection::disconnectFromBus(u"desk"_s);
        return QDBusConnection::connectToBus(address, u"readers"_s).isConnected();
    }

    QTemporaryDir m_home;
    QProcessEnvironment m_environment;
    Helper m_server;
    Helper m_bus;
    Helper m_readers;
    Helper m_manager;
    bool m_isUp = false;
};

} // namespace window
