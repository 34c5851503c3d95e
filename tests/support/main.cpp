#include "app/session/languages.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QFileInfo>

#include <cstdio>
#include <map>

using namespace Qt::StringLiterals;

namespace house
{

namespace
{

std::map<QString, Run>& offered()
{
    static std::map<QString, Run> tests;
    return tests;
}

} // namespace

bool offer(const char* file, Run run)
{
    return offered()
        .emplace(QFileInfo(QString::fromLocal8Bit(file)).completeBaseName().sliced(5), run)
        .second;
}

} // namespace house

/// PROGRAM TEST [options of Qt Test]. A test program with a main of its own does without this one.
int main(int count, char** words)
{
    const auto test = house::offered().find(QString::fromLocal8Bit(count > 1 ? words[1] : ""));
    if (test == house::offered().end()) {
        std::fprintf(stderr, "Name one of the tests:\n");
        for (const auto& [name, run] : house::offered())
            std::fprintf(stderr, "  %s\n", qPrintable(name));
        return 2;
    }
    words[1] = words[0];
    const QApplication application(--count, ++words);
    // Programs remember under their name: no two tests under the same one.
    QApplication::setApplicationName(QApplication::applicationName() + u'.' + test->first);
    session::speak(session::english);
    return test->second(count, words);
}
