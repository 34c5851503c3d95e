#include "app/console/verbs.h"
#include "tests/app/console/program.h"
#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QFileInfo>
#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace test_console
{

using program::Outcome;
using program::Place;
using program::start;

class TestConsole : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void helpNamesEveryVerb();
    void versionIsTold();
    void anUnknownVerbNamesThemAll();
    void wrongUseIsTwo_data();
    void wrongUseIsTwo();
    void recordsThatAreNotThereAreAnError_data();
    void recordsThatAreNotThereAreAnError();
    void checkRefusesAForeignFile();
    void everyVerbAndOptionIsToldEverywhere();
    void withoutADisplayItSaysSo_data();
    void withoutADisplayItSaysSo();
};

void TestConsole::helpNamesEveryVerb()
{
    const Outcome help = start({u"--help"_s});
    QCOMPARE(help.code, 0);
    QCOMPARE(help.err, QString());
    for (const QString& verb :
         {u"demo RECORDS"_s, u"import RECORDS FILE.csv"_s, u"change RECORDS"_s, u"letter RECORDS"_s,
          u"chart RECORDS"_s, u"report RECORDS"_s, u"check RECORDS"_s, u"backup RECORDS"_s})
        QVERIFY2(help.out.contains(verb), qPrintable(verb));
    QCOMPARE(start({u"import"_s, u"--help"_s}).code, 0);
}

void TestConsole::versionIsTold()
{
    const Outcome version = start({u"--version"_s});
    QCOMPARE(version.code, 0);
    QVERIFY(version.out.startsWith(u"Aplomb "_s));
}

void TestConsole::anUnknownVerbNamesThemAll()
{
    const QString said = start({u"delete"_s}).err;
    static const QRegularExpression use(u"^  aplomb ([a-z-]+)"_s, QRegularExpression::MultilineOption);
    int verbs = 0;
    auto used = use.globalMatch(start({u"--help"_s}).out);
    for (; used.hasNext(); ++verbs) {
        const QString verb = used.next().captured(1);
        QVERIFY2(said.contains(verb), qPrintable(verb + u": "_s + said));
    }
    QVERIFY(verbs > 12);
    QVERIFY2(!said.contains(u" more"_s), qPrintable(said));
}

void TestConsole::wrongUseIsTwo_data()
{
    QTest::addColumn<QStringList>("arguments");
    const auto add = [](const char* name, const QStringList& arguments) { QTest::newRow(name) << arguments; };
    add("an unknown verb", {u"delete"_s, u"x.aplomb"_s});
    add("demo without records", {u"demo"_s});
    add("demo with two", {u"demo"_s, u"x.aplomb"_s, u"y.aplomb"_s});
    add("import without file", {u"import"_s, u"x.aplomb"_s});
    add("an unknown option", {u"check"_s, u"x.aplomb"_s, u"--gently"_s});
    add("change for nobody", {u"change"_s, u"x.aplomb"_s});
    add("change for one and all", {u"change"_s, u"x.aplomb"_s, u"--all"_s, u"--patient"_s, u"1"_s});
    add("change with an empty number", {u"change"_s, u"x.aplomb"_s, u"--patient"_s, u""_s});
    add("letter without a place", {u"letter"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s});
    add("letter as a picture", {u"letter"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s, u"--to"_s, u"x.png"_s});
    add("chart as a letter", {u"chart"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s, u"--measure"_s, u"sara"_s,
                              u"--to"_s, u"x.pdf"_s});
    add("chart of nothing", {u"chart"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s, u"--to"_s, u"x.png"_s});
    add("chart of an unknown measure", {u"chart"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s, u"--measure"_s,
                                        u"height"_s, u"--to"_s, u"x.png"_s});
    add("a language nobody speaks",
        {u"letter"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s, u"--to"_s, u"x.pdf"_s, u"--in"_s, u"tlh"_s});
    add("an unknown side", {u"chart"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s, u"--measure"_s,
                            u"nine-hole-peg"_s, u"--side"_s, u"both"_s, u"--to"_s, u"x.png"_s});
    add("a side where there is none", {u"chart"_s, u"x.aplomb"_s, u"--patient"_s, u"1"_s, u"--measure"_s,
                                       u"sara"_s, u"--side"_s, u"left"_s, u"--to"_s, u"x.png"_s});
}

void TestConsole::wrongUseIsTwo()
{
    QFETCH(QStringList, arguments);
    const Outcome used = start(arguments);
    QCOMPARE(used.code, 2);
    QCOMPARE(used.out, QString());
    QVERIFY2(used.err.count(u'\n') == 1 && used.err.size() > 20, qPrintable(used.err));
    QVERIFY(!QFileInfo::exists(u"x.aplomb"_s));
}

void TestConsole::recordsThatAreNotThereAreAnError_data()
{
    QTest::addColumn<QStringList>("arguments");
    QTest::newRow("check") << QStringList{u"check"_s};
    QTest::newRow("change") << QStringList{u"change"_s, u"--patient"_s, u"1"_s};
    QTest::newRow("letter") << QStringList{u"letter"_s, u"--patient"_s, u"1"_s, u"--to"_s, u"x.pdf"_s};
    QTest::newRow("chart") << QStringList{u"chart"_s, u"--patient"_s, u"1"_s,    u"--measure"_s,
                                          u"sara"_s,  u"--to"_s,      u"x.svg"_s};
}

void TestConsole::recordsThatAreNotThereAreAnError()
{
    QFETCH(QStringList, arguments);
    const Place place;
    arguments.insert(1, place.records);
    const Outcome tried = start(arguments);
    QCOMPARE(tried.code, 1);
    QCOMPARE(tried.out, QString());
    QCOMPARE(tried.err.count(u'\n'), 1);
    QVERIFY(!QFileInfo::exists(place.records));
}

void TestConsole::checkRefusesAForeignFile()
{
    const Place place;
    QFile foreign(place.records);
    QVERIFY(foreign.open(QIODevice::WriteOnly));
    foreign.write("Dear diary");
    foreign.close();
    const Outcome checked = start({u"check"_s, place.records});
    QCOMPARE(checked.code, 1);
    QCOMPARE(checked.err.count(u'\n'), 1);
}

/// In the help of all and of the verb, in the manual and in what the shell completes.
void TestConsole::everyVerbAndOptionIsToldEverywhere()
{
    const QString help = start({u"--help"_s}).out;
    const QString page = start({u"--man-page"_s}).out.replace(u"\\-"_s, u"-"_s);
    const QString completion = start({u"--bash-completion"_s}).out;
    QFile readMe(places::inSource(u"README.md"_s));
    QVERIFY(readMe.open(QIODevice::ReadOnly));
    const QString read = QString::fromUtf8(readMe.readAll());
    QVERIFY(page.startsWith(u".TH APLOMB 1 "_s));
    QVERIFY(console::verbs().size() > 12);
    for (const console::Verb& verb : console::verbs()) {
        const Outcome own = start({verb.name, u"--help"_s});
        QCOMPARE(own.code, 0);
        const QString section =
            page.section(u"\n.B "_s + verb.usage() + u'\n', 1).section(u"\n.RE\n"_s, 0, 0);
        const QString words =
            completion.section(u"        "_s + verb.name + u") words="_s, 1).section(u'\n', 0, 0);
        QVERIFY2(help.contains(u"  aplomb "_s + verb.usage() + u'\n'), qPrintable(verb.name));
        QVERIFY2(own.out.startsWith(u"Usage: aplomb "_s + verb.usage() + u'\n'), qPrintable(own.out));
        QVERIFY2(read.contains(u"aplomb "_s + verb.usage() + u'\n'), qPrintable(verb.usage()));
        for (const QString& text : {own.out, section})
            QVERIFY2(text.contains(verb.what), qPrintable(text));
        for (const QString& option : verb.options()) {
            const QString told = console::optionOf(verb, option).what;
            for (const QString& text : {own.out, section, words})
                QVERIFY2(text.contains(u"--"_s + option),
                         qPrintable(verb.name + u' ' + option + u": "_s + text));
            QVERIFY2(own.out.contains(told), qPrintable(told));
            QVERIFY2(section.contains(told.mid(1)), qPrintable(told));
        }
        for (const QString& positional : verb.positionals)
            QVERIFY2(own.out.contains(u"  "_s + positional + u' '), qPrintable(positional));
    }
    for (const console::Word& option : console::commonOptions()) {
        QVERIFY2(page.contains(u".B --"_s + option.name), qPrintable(option.name));
        QVERIFY2(completion.contains(u"--"_s + option.name), qPrintable(option.name));
    }
}

void TestConsole::withoutADisplayItSaysSo_data()
{
    QTest::addColumn<QStringList>("arguments");
    QTest::addColumn<QString>("display");
    QTest::newRow("no display") << QStringList() << QString();
    QTest::newRow("one that is not there") << QStringList() << u":987"_s;
    QTest::newRow("one that is named") << QStringList{u"-display"_s, u":987"_s} << QString();
    QTest::newRow("with records") << QStringList{u"none.aplomb"_s} << QString();
    QTest::newRow("a platform that is not there") << QStringList{u"-platform"_s, u"paper"_s} << QString();
}

void TestConsole::withoutADisplayItSaysSo()
{
    QFETCH(QStringList, arguments);
    QFETCH(QString, display);
    QProcess process;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    for (const QString& variable : {u"DISPLAY"_s, u"WAYLAND_DISPLAY"_s, u"QT_QPA_PLATFORM"_s})
        environment.remove(variable);
    if (!display.isEmpty())
        environment.insert(u"DISPLAY"_s, display);
    process.setProcessEnvironment(environment);
    process.start(places::program(), arguments);
    QVERIFY(process.waitForFinished(120'000));
    QCOMPARE(process.exitStatus(), QProcess::NormalExit);
    QCOMPARE(process.exitCode(), 1);
    QCOMPARE(process.readAllStandardOutput(), QByteArray());
    const QByteArray said = process.readAllStandardError();
    QVERIFY2(said.startsWith("There is no display") && said.count('\n') == 1, said.constData());
    process.start(places::program(), {u"--version"_s});
    QVERIFY(process.waitForFinished(120'000));
    QCOMPARE(process.exitCode(), 0);
}

HOUSE_TEST(TestConsole)

} // namespace test_console

#include "test_console.moc"
