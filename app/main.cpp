#include "app/console/console.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "app/shell/command_line.h"
#include "app/shell/doorbell.h"
#include "app/shell/end_signals.h"
#include "app/shell/look.h"
#include "app/shell/main_window.h"
#include "app/shell/opening.h"
#include "app/shell/pictures.h"
#include "app/shell/settings.h"
#include "app/widgets/dialogs.h"
#include "app/widgets/menu_key.h"
#include "app/widgets/mnemonics.h"
#include "app/widgets/return_key.h"
#include "core/base/text.h"
#include "core/catalogue/reader.h"

#include <QApplication>
#include <QFileInfo>
#include <QIcon>
#include <QLocale>
#include <QLoggingCategory>
#include <QProcess>
#include <QSessionManager>
#include <QTextStream>

#include <cstdlib>
#include <optional>
#include <unistd.h>

using namespace Qt::StringLiterals;

namespace
{

enum Exit { Done = 0, CouldNot = 1, WrongUse = 2 };

QStringList argumentsOf(int count, char** words)
{
    QStringList arguments;
    for (int i = 1; i < count; ++i)
        arguments += QString::fromLocal8Bit(words[i]);
    return arguments;
}

QDateTime now()
{
    return QDateTime::currentDateTimeUtc();
}

/// A screen reader that is started after the program finds it silent otherwise (Qt 6.4).
void speakFromTheStart()
{
    constexpr auto always = "QT_LINUX_ACCESSIBILITY_ALWAYS_ON";
    if (!qEnvironmentVariableIsSet(always))
        qputenv(always, "1");
}

int failed(Exit how, const base::Message& sentence)
{
    QTextStream(stderr) << base::printable(sentence.in(session::screenPhrases())) << '\n';
    return how;
}

/// Takes --language CODE out of the arguments and speaks it, else what the environment wishes. Empty: a
/// language that the program speaks.
base::Message chooseLanguage(QStringList& arguments)
{
    const qsizetype place = arguments.indexOf(u"--language"_s);
    session::speak(session::spokenOf(QLocale::system().uiLanguages()));
    if (place < 0)
        return {};
    const QString code = arguments.value(place + 1);
    if (!session::isSpoken(code))
        return session::unspoken(u"--language"_s);
    session::speak(code);
    arguments.remove(place, 2);
    return {};
}

/// Draws without a display; standard error is left to the one sentence that says what went wrong.
void goWithoutWindow()
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QLoggingCategory::setFilterRules(u"default.warning=false"_s);
}

int failedWithoutDisplay()
{
    return failed(CouldNot, base::said("There is no display to open a window on; aplomb --help names "
                                       "what works without one."));
}

/// Stands in for the abort with which Qt ends the program where it finds no display.
void endWithoutDisplay(QtMsgType kind, const QMessageLogContext&, const QString&)
{
    if (kind == QtFatalMsg)
        std::_Exit(failedWithoutDisplay());
}

/// The work of the verb pictures.
base::Result<void> drawScreens(const console::Request& request)
{
    // The screens are worked with, so in a copy, and under a name of its own for what programs remember.
    QApplication::setApplicationName(u"Aplomb pictures"_s);
    const auto session =
        session::Session::open(request.records, request.catalogue,
                               {u"pictures"_s, request.clock, {}, request.seal}, records::Opening::AsCopy);
    if (!session)
        return session.error();
    (*session)->speakAsScreen();
    const auto written = shell::takePictures(**session, request.to);
    if (!written)
        return written.error();
    request.out << written->join(u'\n') << '\n';
    return {};
}

int verb(const QStringList& arguments, const catalogue::Catalogue& catalogue)
{
    QTextStream out(stdout);
    QTextStream err(stderr);
    return console::run(arguments, catalogue, now, {out, err, isatty(STDERR_FILENO) == 1}, drawScreens);
}

/// aplomb [RECORDS | --records RECORDS]; empty where that is not what was said.
std::optional<QString> recordsOf(const QStringList& arguments)
{
    if (arguments.isEmpty())
        return QString();
    if (arguments.size() == 1 && !arguments.first().startsWith(u'-'))
        return arguments.first();
    return arguments.size() == 2 && arguments.first() == u"--records"_s ? std::optional(arguments.last())
                                                                        : std::nullopt;
}

int window(const QString& named, const catalogue::Catalogue& catalogue, QApplication& application)
{
    shell::applyWishedLook(application);
    QApplication::setWindowIcon(QIcon::fromTheme(u"aplomb"_s, QIcon(u":/desktop/aplomb.svg"_s)));
    const widgets::ReturnPresses returnKey(application);
    const widgets::Mnemonics mnemonics(application);
    const widgets::MenuKey menuKey(application);
    widgets::Dialogs dialogs;
    const QString path = named.isEmpty() ? shell::usualRecordsPath() : named;
    if (shell::Doorbell::isAnswered(path))
        return Done;
    const auto session = shell::openedRecords(path, catalogue, now, dialogs);
    if (!session)
        return CouldNot;
    shell::Doorbell doorbell(path);
    shell::MainWindow window(*session, dialogs);
    QObject::connect(&doorbell, &shell::Doorbell::rung, &window, [&window] {
        window.setWindowState(window.windowState() & ~Qt::WindowMinimized);
        window.raise();
        window.activateWindow();
    });
    const auto end = [&window] {
        window.endUnasked();
        QApplication::exit(Done); // out of every dialog
    };
    const shell::EndSignals endSignals;
    QObject::connect(&endSignals, &shell::EndSignals::asked, &window, end);
    QObject::connect(&application, &QGuiApplication::commitDataRequest, &window,
                     &shell::MainWindow::endUnasked);
    QObject::connect(&application, &QGuiApplication::saveStateRequest, &window,
                     [&path](QSessionManager& desktop) {
                         desktop.setRestartCommand({QApplication::applicationFilePath(),
                                                    QFileInfo(path).absoluteFilePath(), u"-session"_s,
                                                    desktop.sessionId() + u'_' + desktop.sessionKey()});
                     });
    QObject::connect(&window, &shell::MainWindow::recordsAsked, &window, [&dialogs](const QString& records) {
        const QStringList words = {records, u"--language"_s, session::spoken()};
        if (!QProcess::startDetached(QApplication::applicationFilePath(), words))
            dialogs.tell({base::ErrorKind::Unreadable,
                          base::said("A window for these records could not be opened."),
                          {}});
    });
    shell::rememberRecords(path);
    window.show();
    return QApplication::exec();
}

} // namespace

int main(int count, char** words)
{
    QStringList arguments = argumentsOf(count, words);
    const base::Message wrongLanguage = chooseLanguage(arguments);
    if (!wrongLanguage.isEmpty())
        return failed(WrongUse, wrongLanguage);
    const bool isVerb = console::isVerb(arguments);
    const auto [said, qts] = isVerb ? shell::CommandLine{arguments, {}} : shell::parted(arguments);
    const std::optional<QString> records = recordsOf(said);
    if (!isVerb && !records)
        return failed(WrongUse, base::said("Use: aplomb [RECORDS] [--language CODE]"));
    if (isVerb)
        goWithoutWindow();
    shell::Words forQt(QString::fromLocal8Bit(words[0]), qts);
    const auto loud = qInstallMessageHandler(endWithoutDisplay);
    speakFromTheStart();
    QApplication application(forQt.count(), forQt.words());
    qInstallMessageHandler(loud);
    QLocale::setDefault(QLocale::c()); // numbers are written alike in every language
    QApplication::setOrganizationName(u"Aplomb"_s);
    QApplication::setApplicationName(u"Aplomb"_s);
    QApplication::setApplicationVersion(QStringLiteral(APLOMB_VERSION));
    QApplication::setDesktopFileName(u"aplomb"_s);
    session::speak(session::spoken()); // once more, for the texts of the screens
    const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
    if (!catalogue)
        return failed(CouldNot, catalogue.error().what);
    return isVerb ? verb(arguments, *catalogue) : window(*records, *catalogue, application);
}
