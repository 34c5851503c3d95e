#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QFile>
#include <QFileInfo>
#include <QImage>
#include <QProcess>
#include <QTemporaryDir>

#include <memory>

using namespace Qt::StringLiterals;

namespace test_installed
{

struct Answer {
    int code = -1;
    QString said; ///< on both outputs
};

/// The program as cmake puts it into a folder, in an environment that finds what lies there before anything
/// else.
struct Installed {
    QTemporaryDir folder;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();

    Installed()
    {
        environment.insert(u"XDG_DATA_DIRS"_s, path(u"share"_s) + u":/usr/share"_s);
        environment.insert(u"XDG_DATA_HOME"_s, path(u"home"_s));
        const QString build = QFileInfo(places::program()).absolutePath();
        const Answer put = answer(u"cmake"_s, {u"--install"_s, build, u"--prefix"_s, folder.path()});
        QVERIFY2(put.code == 0, qPrintable(put.said));
    }

    QString path(const QString& place) const { return folder.filePath(place); }

    Answer answer(const QString& program, const QStringList& arguments) const
    {
        QProcess process;
        process.setProcessEnvironment(environment);
        process.setProcessChannelMode(QProcess::MergedChannels);
        process.start(program, arguments);
        if (!process.waitForFinished(120'000) || process.exitStatus() != QProcess::NormalExit)
            return {-1, process.errorString()};
        return {process.exitCode(), QString::fromUtf8(process.readAllStandardOutput())};
    }
};

class TestInstalled : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void initTestCase() { m_installed = std::make_unique<Installed>(); }
    void cleanupTestCase() { m_installed.reset(); }

    void itRunsFromWhereItLies();
    void theDesktopFindsItsParts_data();
    void theDesktopFindsItsParts();
    void theMenuEntryOpensRecords();
    void theIconHasEverySize();
    void recordsAreKnownByNameAndContent_data();
    void recordsAreKnownByNameAndContent();
    void theManualIsWellFormed();
    void theShellCompletes_data();
    void theShellCompletes();

private:
    std::unique_ptr<Installed> m_installed;
};

/// With the SQLite that is installed beside it, without which it starts for nobody.
void TestInstalled::itRunsFromWhereItLies()
{
    const QString program = m_installed->path(u"bin/aplomb"_s);
    const QString records = m_installed->path(u"demo.aplomb"_s);
    const Answer made = m_installed->answer(program, {u"demo"_s, records});
    QVERIFY2(made.code == 0, qPrintable(made.said));
    const Answer linked = m_installed->answer(u"ldd"_s, {program});
    if (QFileInfo::exists(QFileInfo(places::program()).absolutePath() + u"/lib/libsqlite3.so.0"_s))
        QVERIFY2(linked.said.contains(m_installed->folder.path() + u"/bin/../lib"_s),
                 qPrintable(linked.said));
}

/// What is asked of each part by the reference programs of freedesktop.org.
void TestInstalled::theDesktopFindsItsParts_data()
{
    QTest::addColumn<QString>("program");
    QTest::addColumn<QStringList>("arguments");
    QTest::newRow("menu entry") << u"desktop-file-validate"_s
                                << QStringList{u"--warn-kde"_s, u"share/applications/aplomb.desktop"_s};
    QTest::newRow("description") << u"appstreamcli"_s
                                 << QStringList{u"validate"_s, u"--no-net"_s,
                                                u"share/metainfo/aplomb.metainfo.xml"_s};
    QTest::newRow("drawing") << u"xmllint"_s
                             << QStringList{u"--noout"_s, u"share/icons/hicolor/scalable/apps/aplomb.svg"_s};
    QTest::newRow("kind of file") << u"update-mime-database"_s << QStringList{u"share/mime"_s};
}

void TestInstalled::theDesktopFindsItsParts()
{
    QFETCH(QString, program);
    QFETCH(QStringList, arguments);
    const QString place = m_installed->path(arguments.takeLast());
    QVERIFY2(QFileInfo::exists(place), qPrintable(place));
    const Answer answer = m_installed->answer(program, arguments << place);
    QVERIFY2(answer.code == 0, qPrintable(answer.said));
}

void TestInstalled::theMenuEntryOpensRecords()
{
    QFile entry(m_installed->path(u"share/applications/aplomb.desktop"_s));
    QVERIFY(entry.open(QIODevice::ReadOnly));
    const QStringList lines = QString::fromUtf8(entry.readAll()).split(u'\n');
    QVERIFY(lines.contains(u"Exec=aplomb %f"_s));
    QVERIFY(lines.contains(u"MimeType=application/x-aplomb-records;"_s));
    QVERIFY(lines.contains(u"Icon=aplomb"_s));
}

void TestInstalled::theIconHasEverySize()
{
    for (const int size : {16, 22, 24, 32, 48, 64, 128, 256, 512}) {
        const QImage icon(m_installed->path(u"share/icons/hicolor/%1x%1/apps/aplomb.png"_s.arg(size)));
        QCOMPARE(icon.size(), QSize(size, size));
        QVERIFY(icon.pixelColor(0, 0).alpha() < 255); // round corners
        QCOMPARE(icon.pixelColor(size / 8, size / 2).name(), u"#17555c"_s);
    }
}

void TestInstalled::recordsAreKnownByNameAndContent_data()
{
    QTest::addColumn<QString>("name");
    QTest::addColumn<QByteArray>("content");
    QTest::addColumn<QString>("kind");
    const QString ours = u"application/x-aplomb-records"_s;
    QFile file(places::inSource(u"tests/data/schema-15.aplomb"_s));
    QVERIFY(file.open(QIODevice::ReadOnly));
    const QByteArray plain = file.readAll();
    QByteArray foreign = plain;
    foreign.replace(68, 4, QByteArray(4, '\0'));
    QTest::newRow("plain") << u"clinic.aplomb"_s << plain << ours;
    QTest::newRow("sealed") << u"clinic.aplomb"_s << QByteArray(4096, '\xA7') << ours;
    QTest::newRow("plain under another name") << u"clinic.backup"_s << plain << ours;
    QTest::newRow("another database") << u"clinic.backup"_s << foreign << u"application/vnd.sqlite3"_s;
}

/// As GLib, and with it most desktops, sees it.
void TestInstalled::recordsAreKnownByNameAndContent()
{
    QFETCH(QString, name);
    QFETCH(QByteArray, content);
    QFETCH(QString, kind);
    QCOMPARE(m_installed->answer(u"update-mime-database"_s, {m_installed->path(u"share/mime"_s)}).code, 0);
    QFile file(m_installed->path(name));
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write(content);
    file.close();
    const Answer info =
        m_installed->answer(u"gio"_s, {u"info"_s, u"-a"_s, u"standard::content-type"_s, file.fileName()});
    QVERIFY2(info.said.contains(u"standard::content-type: "_s + kind), qPrintable(info.said));
}

void TestInstalled::theManualIsWellFormed()
{
    const QString page = m_installed->path(u"share/man/man1/aplomb.1.gz"_s);
    QVERIFY(QFileInfo(page).size() > 500);
    const Answer set =
        m_installed->answer(u"sh"_s, {u"-c"_s, u"gzip -dc \"$1\" | groff -ww -man -z"_s, u"sh"_s, page});
    QVERIFY2(set.code == 0 && set.said.isEmpty(), qPrintable(set.said));
}

void TestInstalled::theShellCompletes_data()
{
    QTest::addColumn<QString>("line");
    QTest::addColumn<QString>("offered");
    QTest::newRow("a verb") << u"aplomb cat"_s << u"catalogue"_s;
    QTest::newRow("an option of a verb") << u"aplomb letter x --an"_s << u"--annex"_s;
    QTest::newRow("no option of another verb") << u"aplomb check x --an"_s << u""_s;
    QTest::newRow("a word of an option") << u"aplomb chart x --side le"_s << u"left"_s;
    QTest::newRow("a word of a place") << u"aplomb events x wr"_s << u"write"_s;
    QTest::newRow("a file") << u"aplomb check cli"_s << u"clinic.aplomb"_s;
    QTest::newRow("a file of an option") << u"aplomb demo x --password-file cli"_s << u"clinic.aplomb"_s;
    QTest::newRow("nothing for a name") << u"aplomb demo x --by cli"_s << u""_s;
    QTest::newRow("an option before any verb") << u"aplomb --lang"_s << u"--language"_s;
}

void TestInstalled::theShellCompletes()
{
    QFETCH(QString, line);
    QFETCH(QString, offered);
    const QTemporaryDir folder;
    QFile file(folder.filePath(u"clinic.aplomb"_s));
    QVERIFY(file.open(QIODevice::WriteOnly));
    const Answer completed = m_installed->answer(
        u"bash"_s,
        {u"-uc"_s,
         u"cd \"$1\"; source \"$2\"; COMP_WORDS=($3); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); "
         "_aplomb; echo \"${COMPREPLY[*]-}\""_s,
         u"bash"_s, folder.path(), m_installed->path(u"share/bash-completion/completions/aplomb"_s), line});
    QCOMPARE(completed.said, offered + u'\n');
}

HOUSE_TEST(TestInstalled)

} // namespace test_installed

#include "test_installed.moc"
