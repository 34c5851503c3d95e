#include "app/console/console.h"
#include "app/console/password.h"
#include "app/session/languages.h"
#include "app/session/messages.h"
#include "app/shell/doorbell.h"
#include "app/shell/look.h"
#include "app/shell/main_window.h"
#include "app/shell/opening.h"
#include "app/shell/pictures.h"
#include "app/widgets/dialogs.h"
#include "app/widgets/return_key.h"
#include "core/base/text.h"
#include "core/catalogue/reader.h"

#include <QApplication>
#include <QLocale>
#include <QLoggingCategory>
#include <QTextStream>

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

/// Qt would end the program with an abort where there is none.
bool hasDisplay()
{
    const auto isSet = [](const char* variable) { return !qEnvironmentVariableIsEmpty(variable); };
    return isSet("DISPLAY") || isSet("WAYLAND_DISPLAY") || isSet("QT_QPA_PLATFORM");
}

bool asksForPictures(const QStringList& arguments)
{
    return arguments.value(0) == u"pictures"_s;
}

/// aplomb pictures RECORDS --to FOLDER [--password-file FILE]
int pictures(const QStringList& arguments, const catalogue::Catalogue& catalogue)
{
    const bool isUsed =
        (arguments.size() == 4 || (arguments.size() == 6 && arguments.at(4) == u"--password-file"_s)) &&
        arguments.at(2) == u"--to"_s;
    if (!isUsed)
        return failed(WrongUse,
                      base::said("Use: aplomb pictures RECORDS --to FOLDER [--password-file FILE]"));
    QTextStream err(stderr);
    const auto seal = console::sealFor(arguments.at(1), arguments.value(5), err);
    if (!seal)
        return failed(CouldNot, seal.error().what);
    // The screens are worked with, so in a copy, and under a name of its own for what programs remember.
    QApplication::setApplicationName(u"Aplomb pictures"_s);
    const auto session = session::Session::open(arguments.at(1), catalogue, {u"pictures"_s, now, {}, *seal},
                                                records::Opening::AsCopy);
    if (!session)
        return failed(CouldNot, session.error().what);
    (*session)->speakAsScreen();
    const auto written = shell::takePictures(**session, arguments.at(3));
    if (!written)
        return failed(CouldNot, written.error().what);
    QTextStream out(stdout);
    out << written->join(u'\n') << '\n' << Qt::flush;
    return out.status() == QTextStream::Ok
               ? Done
               : failed(CouldNot, base::said("What was written could not be listed on the standard output."));
}

int verb(const QStringList& arguments, const catalogue::Catalogue& catalogue)
{
    QTextStream out(stdout);
    QTextStream err(stderr);
    return console::run(arguments, catalogue, now, out, err);
}

/// aplomb [--records FILE] [--language CODE]
bool asksForWindow(const QStringList& arguments)
{
    return arguments.isEmpty() || (arguments.size() == 2 && arguments.first() == u"--records"_s);
}

int window(const QStringList& arguments, const catalogue::Catalogue& catalogue, QApplication& application)
{
    shell::applyWishedLook(application);
    const widgets::ReturnPresses returnKey(application);
    widgets::Dialogs dialogs;
    const QString path = arguments.isEmpty() ? shell::usualRecordsPath() : arguments.at(1);
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
    if (!isVerb && !asksForWindow(arguments))
        return failed(WrongUse, base::said("Use: aplomb [--records FILE] [--language CODE]"));
    if (isVerb)
        goWithoutWindow();
    else if (!hasDisplay())
        return failed(CouldNot, base::said("There is no display to open a window on; aplomb --help names "
                                           "what works without one."));
    int ours = 1; // what the arguments mean is said above, so none is left to Qt
    QApplication application(ours, words);
    QLocale::setDefault(QLocale::c()); // numbers are written alike in every language
    QApplication::setOrganizationName(u"Aplomb"_s);
    QApplication::setApplicationName(u"Aplomb"_s);
    QApplication::setApplicationVersion(QStringLiteral(APLOMB_VERSION));
    session::speak(session::spoken()); // once more, for the texts of the screens
    const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
    if (!catalogue)
        return failed(CouldNot, catalogue.error().what);
    if (asksForPictures(arguments))
        return pictures(arguments, *catalogue);
    return isVerb ? verb(arguments, *catalogue) : window(arguments, *catalogue, application);
}
