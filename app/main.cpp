#include "app/console/console.h"
#include "core/catalogue/reader.h"

#include <QApplication>
#include <QLoggingCategory>

using namespace Qt::StringLiterals;

namespace
{

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

/// Draws without a display; standard error is left to the one sentence that says what went wrong.
void goWithoutWindow()
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QLoggingCategory::setFilterRules(u"default.warning=false"_s);
}

} // namespace

int main(int count, char** words)
{
    const QStringList arguments = argumentsOf(count, words);
    if (console::isVerb(arguments))
        goWithoutWindow();
    QApplication application(count, words);
    QApplication::setApplicationName(u"Aplomb"_s);
    QApplication::setApplicationVersion(QStringLiteral(APLOMB_VERSION));

    QTextStream out(stdout);
    QTextStream err(stderr);
    const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
    if (!catalogue) {
        err << catalogue.error().what << '\n';
        return 1;
    }
    return console::run(arguments, *catalogue, now, out, err);
}
