#include "app/console/console.h"
#include "app/shell/look.h"
#include "app/shell/main_window.h"
#include "app/shell/opening.h"
#include "app/shell/pictures.h"
#include "app/widgets/dialogs.h"
#include "core/catalogue/reader.h"

#include <QApplication>
#include <QFile>
#include <QLoggingCategory>
#include <QTemporaryDir>
#include <QTextStream>
#include <QTranslator>

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

int failed(Exit how, const QString& sentence)
{
    QTextStream(stderr) << sentence << '\n';
    return how;
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

/// aplomb pictures RECORDS --to FOLDER
int pictures(const QStringList& arguments, const catalogue::Catalogue& catalogue)
{
    if (arguments.size() != 4 || arguments.at(2) != u"--to"_s)
        return failed(WrongUse, u"Use: aplomb pictures RECORDS --to FOLDER"_s);
    // The screens are worked with, so in a copy, and under a name of its own for what programs remember.
    QApplication::setApplicationName(u"Aplomb pictures"_s);
    const QTemporaryDir desk;
    const QString copy = desk.filePath(u"pictures.aplomb"_s);
    if (const QString& path = arguments.at(1); QFile::copy(path, copy))
        QFile::copy(path + u"-wal"_s, copy + u"-wal"_s);
    else
        return failed(CouldNot, u"The records file %1 cannot be read."_s.arg(path));
    const auto session = session::Session::open(copy, catalogue, now, u"pictures"_s, false);
    if (!session)
        return failed(CouldNot, session.error().what);
    const auto written = shell::takePictures(**session, arguments.at(3));
    if (!written)
        return failed(CouldNot, written.error().what);
    QTextStream(stdout) << written->join(u'\n') << '\n';
    return Done;
}

int verb(const QStringList& arguments, const catalogue::Catalogue& catalogue)
{
    QTextStream out(stdout);
    QTextStream err(stderr);
    return console::run(arguments, catalogue, now, out, err);
}

/// aplomb [--records FILE]
bool asksForWindow(const QStringList& arguments)
{
    return arguments.isEmpty() || (arguments.size() == 2 && arguments.first() == u"--records"_s);
}

int window(const QStringList& arguments, const catalogue::Catalogue& catalogue, QApplication& application)
{
    shell::applyWishedLook(application);
    widgets::Dialogs dialogs;
    const QString path = arguments.isEmpty() ? shell::usualRecordsPath() : arguments.at(1);
    const auto session = shell::openedRecords(path, catalogue, now, dialogs);
    if (!session)
        return CouldNot;
    shell::MainWindow window(*session, dialogs);
    window.show();
    return QApplication::exec();
}

} // namespace

int main(int count, char** words)
{
    const QStringList arguments = argumentsOf(count, words);
    const bool isVerb = console::isVerb(arguments);
    if (!isVerb && !asksForWindow(arguments))
        return failed(WrongUse, u"Use: aplomb [--records FILE]"_s);
    if (isVerb)
        goWithoutWindow();
    else if (!hasDisplay())
        return failed(CouldNot, u"There is no display to open a window on; aplomb --help names what works "
                                "without one."_s);
    QApplication application(count, words);
    QApplication::setOrganizationName(u"Aplomb"_s);
    QApplication::setApplicationName(u"Aplomb"_s);
    QApplication::setApplicationVersion(QStringLiteral(APLOMB_VERSION));
    QTranslator plurals;
    if (plurals.load(u":/translations/aplomb_en.qm"_s))
        QApplication::installTranslator(&plurals);

    const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
    if (!catalogue)
        return failed(CouldNot, catalogue.error().what);
    if (asksForPictures(arguments))
        return pictures(arguments, *catalogue);
    return isVerb ? verb(arguments, *catalogue) : window(arguments, *catalogue, application);
}
