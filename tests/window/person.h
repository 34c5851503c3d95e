#pragma once

#include "core/sealing/seal.h"
#include "tests/support/records_file.h"
#include "tests/window/screen.h"

#include <csignal>

namespace window
{

/// A person before the running program, with the records file as another program reads it.
class Person
{
public:
    Person(Screen& screen, double scale = 1) : m_screen(screen), m_scale(scale)
    {
        m_environment = screen.environment();
        m_environment.insert(u"QT_SCALE_FACTOR"_s, QString::number(scale));
    }

    /// What was seen last is kept where a test has failed.
    ~Person()
    {
        const QString pictures = picturesFolder();
        if (QTest::currentTestFailed() && QDir().mkpath(pictures))
            m_screen.picture().save(
                u"%1/%2-failed.png"_s.arg(pictures, QLatin1String(QTest::currentTestFunction())));
    }
    Person(const Person&) = delete;
    Person& operator=(const Person&) = delete;

    const QString password = u"four words and blue"_s;
    QString records() const { return m_screen.home() + u"/clinic.aplomb"_s; }

    /// Starts the program, types the password where there are records, and waits until its window is there.
    bool open()
    {
        const bool isFirst = !QFile::exists(records());
        if (!start() || isFirst)
            return isOpen();
        if (!comesToShow(u"text"_s, u"Password"_s))
            return false;
        type(password);
        keys({u"Return"_s});
        return comes([this] { return !thing(u"text"_s, u"Password"_s) && hasKeyboard(); });
    }
    /// Starts the program on a demo clinic, which is not sealed.
    bool openDemo()
    {
        output(places::program(), {u"demo"_s, records()}, m_environment);
        return start() && comesToShow(u"push button"_s, u"New patient"_s);
    }
    bool hasKeyboard() { return m_screen.xdo({u"getactivewindow"_s, u"getwindowpid"_s}) == pid(); }
    /// Waits until a window of the program has the keyboard.
    bool waitForWindow()
    {
        return comes([this] { return hasKeyboard(); });
    }
    QString pid() { return QString::number(m_program->process().processId()); }
    bool isOpen() { return m_program->process().state() == QProcess::Running; }
    bool ends()
    {
        m_program->process().waitForFinished(longestMs);
        return !isOpen();
    }
    void kill() { end(SIGKILL); }
    /// Ends the program by a signal; gives back its exit code, or the signal where that killed it.
    int end(int signal)
    {
        ::kill(pid_t(m_program->process().processId()), signal);
        m_program->process().waitForFinished(longestMs);
        return m_program->process().exitCode();
    }
    QString said() { return QString::fromUtf8(m_program->process().readAllStandardError()); }

    void keys(const QStringList& keys)
    {
        m_pressed += int(keys.size());
        m_screen.xdo(QStringList{u"key"_s, u"--delay"_s, QString::number(keyMs)} + keys);
    }
    /// A line break is the key Return.
    void type(const QString& text)
    {
        const QStringList lines = text.split(u'\n');
        for (qsizetype line = 0; line < lines.size(); ++line) {
            if (line > 0)
                keys({u"Return"_s});
            m_pressed += int(lines[line].size());
            if (!lines[line].isEmpty())
                m_screen.xdo({u"type"_s, u"--delay"_s, QString::number(keyMs), lines[line]});
        }
    }
    /// Keys since it was asked last; one held down with another is one.
    int pressed() { return std::exchange(m_pressed, 0); }
    void pause(int milliseconds) { QTest::qWait(milliseconds); }

    /// From no records to the list of a clinic without patients.
    bool beginClinic()
    {
        if (!open() || !fill(u"Name of the clinic"_s, u"Harbour clinic"_s))
            return false;
        type(u"\t"_s + password + u'\t' + password);
        keys({u"Return"_s});
        if (!click(u"check box"_s, u"I have it on paper"_s))
            return false;
        keys({u"Return"_s});
        if (!comesToShow(u"push button"_s, u"New patient"_s))
            return false;
        const auto seal = sealing::openedByPassword(records(), password);
        if (!seal)
            return false;
        m_key = inHex(seal->key);
        return true;
    }
    bool registerPatient()
    {
        keys({u"ctrl+n"_s});
        type(u"Plover\tAnsa\t1958-07-09\tW-1\tfemale\tright\t171\t70\tStroke three years ago\ts"_s);
        keys({u"Down"_s, u"Down"_s, u"Down"_s, u"ctrl+s"_s});
        return comesToBeStored(
            u"SELECT family, given, born, record_number, sex, height_cm, diagnosis FROM patients"_s,
            u"Plover|Ansa|1958-07-09|W-1|female|171.0|Stroke three years ago"_s);
    }
    /// From the list of patients, by the keyboard.
    bool openFirstPatient()
    {
        if (!comesToShow(u"push button"_s, u"New patient"_s))
            return false;
        test(u"plover"_s, {});
        return comesToShow(u"page tab"_s, u"Examination"_s);
    }
    bool beginVisit()
    {
        keys({u"ctrl+shift+n"_s});
        return comesToBeStored(u"SELECT count(*) FROM visits WHERE state = 'draft'"_s, u"1"_s) &&
               comesToShow(u"push button"_s, u"Sign visit"_s);
    }
    /// Ctrl+K, a few letters, Return; then what is typed there.
    void test(const QString& name, const QString& typed)
    {
        keys({u"ctrl+k"_s});
        type(name);
        keys({u"Return"_s});
        if (!typed.isEmpty())
            type(typed);
    }
    bool isDone(const QString& measure, const QString& values) const
    {
        return comesToBeStored(
            u"SELECT coalesce(grade, choice, number, state) FROM findings WHERE measure = '"_s + measure +
                u"' ORDER BY side DESC"_s,
            values);
    }
    /// Signs what is open, whatever is asked about it first.
    bool sign()
    {
        keys({u"ctrl+shift+s"_s});
        return comes([this] {
            if (stored(u"SELECT count(*) FROM visits WHERE state = 'signed'"_s) == u"1"_s)
                return true;
            if (thing(u"text"_s, u"Name"_s)) {
                click(u"text"_s, u"Name"_s);
                keys({u"ctrl+a"_s});
                type(u"A. Tester\tphysiotherapist\tP-1"_s);
                keys({u"Return"_s});
                comes([this] { return !thing(u"text"_s, u"Name"_s); });
            } else if (const auto button = thing(u"push button"_s, u"Sign"_s);
                       button && button->name != u"Sign visit"_s) {
                click(u"push button"_s, button->name);
            }
            return false;
        });
    }

    /// What stands on the screen, as a screen reader hears it, but not what can only be scrolled to.
    std::vector<Thing> things() const
    {
        std::vector<Thing> all;
        walk([&](const Thing& thing) {
            all.push_back(thing);
            return thing.isScrolled ? Go::Past : Go::On;
        });
        return all;
    }
    /// What can be scrolled to as well.
    std::vector<Thing> allThings() const
    {
        std::vector<Thing> all;
        walk([&](const Thing& thing) {
            all.push_back(thing);
            return Go::On;
        });
        return all;
    }
    /// The first thing whose name begins so.
    std::optional<Thing> thing(const QString& role, const QString& name) const
    {
        std::optional<Thing> found;
        walk([&](const Thing& thing) {
            if (thing.role != role || !thing.name.startsWith(name))
                return Go::On;
            found = thing;
            return Go::Home;
        });
        return found;
    }
    /// The note of the test in use, as it stands on the screen.
    QString noteShown() const
    {
        return textIn([](const QString& name) { return name.endsWith(u": note"_s); });
    }
    /// Named in a test that has failed.
    QString whatShows() const
    {
        QStringList all;
        for (const Thing& thing : things()) {
            if (!thing.name.isEmpty())
                all += thing.role + u" “"_s + thing.name + u'”';
        }
        return all.join(u", "_s);
    }
    bool comesToShow(const QString& role, const QString& name) const
    {
        return comes([&] { return thing(role, name).has_value(); });
    }
    /// Clicks on it as soon as it is there and has come to rest.
    bool click(const QString& role, const QString& name)
    {
        std::optional<Thing> before;
        const bool isThere = comes([&] {
            const auto now = thing(role, name);
            const bool rests = now && before && now->place == before->place;
            before = now;
            return rests;
        });
        if (!isThere)
            return false;
        const QPointF at = QPointF(before->place.center()) * m_scale;
        m_screen.xdo(
            {u"mousemove"_s, QString::number(int(at.x())), QString::number(int(at.y())), u"click"_s, u"1"_s});
        return true;
    }

    /// Does what the thing's first action is, as a screen reader does for someone without a keyboard.
    bool act(const QString& role, const QString& name) const
    {
        const auto found = thing(role, name);
        return found &&
               m_screen.ask(found->service, found->path, u"org.a11y.atspi.Action"_s, u"DoAction"_s, {0})
                       .type() == QDBusMessage::ReplyMessage;
    }
    /// Puts a text into the line of this name, as a screen reader does.
    bool put(const QString& name, const QString& text) const
    {
        const auto found = thing(u"text"_s, name);
        return found && m_screen.ask(found->service, found->path, u"org.a11y.atspi.EditableText"_s,
                                     u"SetTextContents"_s, {text})
                                .type() == QDBusMessage::ReplyMessage;
    }
    /// The number of a thing's actions; 0 where it has none.
    int actionsOf(const Thing& thing) const
    {
        const auto answer = m_screen.ask(thing.service, thing.path, u"org.freedesktop.DBus.Properties"_s,
                                         u"Get"_s, {u"org.a11y.atspi.Action"_s, u"NActions"_s});
        return answer.arguments().value(0).value<QDBusVariant>().variant().toInt();
    }
    /// A bit of the thing's state, by its number in AT-SPI 2.
    bool isIn(const Thing& thing, int state) const
    {
        const auto answer = m_screen.ask(thing.service, thing.path, QLatin1String(accessible), u"GetState"_s);
        if (answer.type() != QDBusMessage::ReplyMessage) // it has gone meanwhile
            return false;
        QList<quint32> bits;
        answer.arguments().value(0).value<QDBusArgument>() >> bits;
        return bits.size() > state / 32 && (bits[state / 32] & (1U << (state % 32))) != 0;
    }

    /// Types into the line of this name, and looks whether it stands there.
    bool fill(const QString& name, const QString& text)
    {
        return comes([&] {
            if (!click(u"text"_s, name))
                return false;
            keys({u"ctrl+a"_s});
            type(text);
            return comes([&] { return textIn([&](const QString& of) { return of == name; }) == text; },
                         5'000);
        });
    }

    /// The answer of the sqlite3 shell to the records as another program decrypts them, its columns parted by
    /// "|".
    QString stored(const QString& question) const
    {
        const QString plain = m_screen.home() + u"/decrypted"_s;
        output(u"python3"_s, {places::inSource(u"tests/support/read_sealed.py"_s), records(), m_key, plain},
               m_environment);
        const QString answer =
            output(u"sqlite3"_s, {u"-readonly"_s, plain, question}, m_environment).trimmed();
        QFile::remove(plain); // what could not be decrypted the next time is not answered from this one
        return answer;
    }
    bool comesToBeStored(const QString& question, const QString& answer) const
    {
        return comes([&] { return stored(question) == answer; });
    }

private:
    bool start()
    {
        m_program = std::make_unique<Helper>();
        m_program->start(places::program(), {u"--records"_s, records()}, m_environment);
        return waitForWindow();
    }

    static constexpr auto accessible = "org.a11y.atspi.Accessible";

    QList<std::pair<QString, QString>> children(const QString& service, const QString& path) const
    {
        QList<std::pair<QString, QString>> all;
        const auto answer = m_screen.ask(service, path, QLatin1String(accessible), u"GetChildren"_s);
        if (answer.type() != QDBusMessage::ReplyMessage)
            return all;
        const auto list = answer.arguments().first().value<QDBusArgument>();
        for (list.beginArray(); !list.atEnd();) {
            QString name;
            QDBusObjectPath child;
            list.beginStructure();
            list >> name >> child;
            list.endStructure();
            all.append({name, child.path()});
        }
        list.endArray();
        return all;
    }

    /// What stands in the first line whose name is such.
    QString textIn(const std::function<bool(const QString& name)>& isMeant) const
    {
        QString text;
        walk([&](const Thing& thing) {
            if (thing.role != u"text"_s || !isMeant(thing.name))
                return Go::On;
            text = m_screen.ask(thing.service, thing.path, u"org.a11y.atspi.Text"_s, u"GetText"_s, {0, -1})
                       .arguments()
                       .value(0)
                       .toString();
            return Go::Home;
        });
        return text;
    }

    enum class Go { On, Past, Home }; ///< into the thing, past it, or home

    void walk(const std::function<Go(const Thing&)>& visit) const
    {
        for (const auto& [service, path] :
             children(u"org.a11y.atspi.Registry"_s, u"/org/a11y/atspi/accessible/root"_s)) {
            auto windows = children(service, path);
            std::ranges::reverse(windows); // the newest is in front
            for (const auto& [name, window] : windows) {
                if (!walkInto(name, window, {}, false, visit, nullptr, nullptr))
                    return;
            }
        }
    }

    /// Tells the thing and what stands in it. A part of the window that scrolls holds the bars beside its
    /// port: what reaches beyond the port is scrolled. The bars come last, so they are asked first.
    bool walkInto(const QString& service, const QString& path, const QRect& port, bool isPort,
                  const std::function<Go(const Thing&)>& visit, int* barsAround, int* barsBeside) const
    {
        auto thing = seen(service, path);
        if (!thing)
            return true;
        thing->isScrolled = port.isValid() && !port.contains(thing->place);
        if (thing->role == u"scroll bar"_s && barsAround != nullptr)
            ++*barsAround;
        const Go go = visit(*thing);
        if (go != Go::On)
            return go == Go::Past;
        auto inside = children(service, path);
        std::ranges::reverse(inside);
        int bars = 0;
        for (const auto& [name, child] : inside) {
            if (!walkInto(name, child, isPort ? thing->place : QRect(), bars > 0, visit, barsBeside, &bars))
                return false;
        }
        return true;
    }

    /// Empty for what does not show.
    std::optional<Thing> seen(const QString& service, const QString& path) const
    {
        const QString asked = QLatin1String(accessible);
        const auto state = m_screen.ask(service, path, asked, u"GetState"_s);
        if (state.type() != QDBusMessage::ReplyMessage) // it has gone meanwhile
            return std::nullopt;
        QList<quint32> bits;
        state.arguments().value(0).value<QDBusArgument>() >> bits;
        constexpr quint32 showing = 1U << 25;
        if (bits.isEmpty() || (bits.first() & showing) == 0)
            return std::nullopt;
        Thing thing{service, path, {}, {}, {}};
        thing.role = m_screen.ask(service, path, asked, u"GetRoleName"_s).arguments().value(0).toString();
        thing.name =
            m_screen.ask(service, path, u"org.freedesktop.DBus.Properties"_s, u"Get"_s, {asked, u"Name"_s})
                .arguments()
                .value(0)
                .value<QDBusVariant>()
                .variant()
                .toString();
        const auto extents =
            m_screen.ask(service, path, u"org.a11y.atspi.Component"_s, u"GetExtents"_s, {quint32(0)});
        if (extents.type() == QDBusMessage::ReplyMessage) {
            int x = 0, y = 0, width = 0, height = 0;
            const auto place = extents.arguments().first().value<QDBusArgument>();
            place.beginStructure();
            place >> x >> y >> width >> height;
            place.endStructure();
            thing.place = {x, y, width, height};
        }
        return thing;
    }

    Screen& m_screen;
    QString m_key; ///< of the records, in hexadecimal digits
    double m_scale;
    int m_pressed = 0;
    QProcessEnvironment m_environment;
    std::unique_ptr<Helper> m_program;
};

} // namespace window
