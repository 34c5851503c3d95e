#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QDirIterator>
#include <QRegularExpression>

#include <map>
#include <set>

namespace test_floors
{

/// A folder may include itself and any folder on a lower floor; never its neighbour, never up.
const std::map<QString, int> floors = {
    {u"app"_qs, 13},           {u"app/shell"_qs, 12},
    {u"app/patients"_qs, 11},  {u"app/visits"_qs, 11},
    {u"app/changes"_qs, 11},   {u"app/trends"_qs, 11},
    {u"app/writing"_qs, 11},   {u"app/own"_qs, 11},
    {u"app/handbook"_qs, 11},  {u"app/happenings"_qs, 11},
    {u"app/importing"_qs, 11}, {u"app/caseload"_qs, 11},
    {u"app/console"_qs, 11},   {u"app/keys"_qs, 11},
    {u"app/reading"_qs, 11},   {u"app/charts"_qs, 10},
    {u"app/widgets"_qs, 9},    {u"app/session"_qs, 8},
    {u"core/paper"_qs, 7},     {u"core/letters"_qs, 6},
    {u"core/fhir"_qs, 6},      {u"core/telling"_qs, 5},
    {u"core/storage"_qs, 5},   {u"core/exchange"_qs, 5},
    {u"core/judging"_qs, 4},   {u"core/reading"_qs, 4},
    {u"core/records"_qs, 3},   {u"core/catalogue"_qs, 2},
    {u"core/values"_qs, 1},    {u"core/sealing"_qs, 1},
    {u"core/base"_qs, 0},      {u"core/statistics"_qs, 0},
};

const std::set<QString> mayIncludeStorage = {u"core/storage"_qs, u"app/session"_qs, u"app/console"_qs};

struct SourceFile {
    QString path;   ///< from the root
    QString folder; ///< its room
    QString text;
};

std::vector<SourceFile> sourceFiles(const QStringList& tops)
{
    const QDir root(places::inSource({}));
    std::vector<SourceFile> files;
    for (const QString& top : tops) {
        QDirIterator walk(root.filePath(top), {u"*.h"_qs, u"*.cpp"_qs}, QDir::Files,
                          QDirIterator::Subdirectories);
        while (walk.hasNext()) {
            QFile file(walk.next());
            if (!file.open(QIODevice::ReadOnly))
                continue;
            const QString path = root.relativeFilePath(file.fileName());
            files.push_back({path, path.section(u'/', 0, -2), QString::fromUtf8(file.readAll())});
        }
    }
    return files;
}

/// The lines of a file that match, as "path:line: text", comments left out.
QStringList linesMatching(const SourceFile& file, const QRegularExpression& pattern)
{
    QStringList found;
    const QStringList lines = file.text.split(u'\n');
    for (qsizetype i = 0; i < lines.size(); ++i) {
        const QString code = lines[i].section(u"//"_qs, 0, 0);
        if (pattern.match(code).hasMatch())
            found += u"%1:%2: %3"_qs.arg(file.path).arg(i + 1).arg(lines[i].trimmed());
    }
    return found;
}

QStringList linesMatching(const QStringList& tops, const QString& pattern, const QStringList& except = {})
{
    QStringList found;
    for (const SourceFile& file : sourceFiles(tops)) {
        if (!except.contains(file.folder))
            found += linesMatching(file, QRegularExpression(pattern));
    }
    return found;
}

/// The architecture of HOUSE: what may include what, and what core must not know.
class FloorsTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFolderHasAFloor()
    {
        const std::vector<SourceFile> files = sourceFiles({u"core"_qs, u"app"_qs});
        QVERIFY(files.size() > 40);
        for (const SourceFile& file : files)
            QVERIFY2(floors.contains(file.folder), qPrintable(file.path));
    }

    void includesGoDownOnly()
    {
        static const QRegularExpression include(u"^#include \"((?:core|app)/[^\"]+)\""_qs,
                                                QRegularExpression::MultilineOption);
        QStringList offences;
        for (const SourceFile& file : sourceFiles({u"core"_qs, u"app"_qs})) {
            for (auto found = include.globalMatch(file.text); found.hasNext();) {
                const QString target = found.next().captured(1).section(u'/', 0, -2);
                const bool isBelow = floors.contains(target) && floors.at(target) < floors.at(file.folder);
                const bool isStorageFromAbove = target == u"core/storage"_qs &&
                                                !mayIncludeStorage.contains(file.folder) &&
                                                file.folder.startsWith(u"app"_qs);
                if (target != file.folder && (!isBelow || isStorageFromAbove))
                    offences += u"%1 includes %2"_qs.arg(file.path, target);
            }
        }
        QCOMPARE(offences, QStringList());
    }

    void coreHasNoObjectsNoClockNoSettings()
    {
        QCOMPARE(linesMatching({u"core"_qs}, u"\\bQ_OBJECT\\b|\\btr\\(|QSettings|QApplication|currentDate|"
                                             "currentSecs|currentMSecs|system_clock|<QtWidgets|<QWidget"_qs),
                 QStringList());
    }

    void onlyPaperKnowsGuiInCore()
    {
        QCOMPARE(linesMatching({u"core"_qs},
                               u"#include <(QtGui|QImage|QPainter|QFont|QColor|QText(Doc|Cur|Obj)|QPdf)"_qs,
                               {u"core/paper"_qs}),
                 QStringList());
    }

    void statisticsKnowNoQt()
    {
        QCOMPARE(linesMatching({u"core/statistics"_qs}, u"#include <Q|\\bQ[A-Z][a-z]"_qs), QStringList());
    }

    void judgingKnowsNoWords()
    {
        QCOMPARE(linesMatching({u"core/judging"_qs}, u"Phrasebook|phrases\\("_qs), QStringList());
    }

    void sqlIsWrittenInStorageAlone()
    {
        QCOMPARE(linesMatching({u"core"_qs, u"app"_qs}, u"QSqlQuery|QSqlDatabase"_qs, {u"core/storage"_qs}),
                 QStringList());
    }

    void widgetsStandAboveTheSession()
    {
        QCOMPARE(linesMatching({u"app/session"_qs}, u"QWidget|QtWidgets|QtCharts|QChart"_qs), QStringList());
    }

    /// What a result means is worked out in core/judging; the others tell and draw it.
    void onlyJudgingJudges()
    {
        QCOMPARE(linesMatching({u"core"_qs, u"app"_qs},
                               u"judging::(comparison|applied|verdictOf|levelsAt|courseOf|trendOf|"
                               "comparability|evidence)\\("_qs,
                               {u"core/judging"_qs}),
                 QStringList());
    }

    void testsDoNotSleep()
    {
        QCOMPARE(linesMatching({u"tests"_qs}, u"\\bqSleep\\(|sleep_for|QThread::m?sleep|\\bqWait\\("_qs,
                               {u"tests/house"_qs, u"tests/window"_qs}), // where a person is played
                 QStringList());
    }

    void namespaceIsTheFolder()
    {
        QStringList offences;
        for (const SourceFile& file : sourceFiles({u"core"_qs, u"app"_qs})) {
            const QString name = file.folder.section(u'/', -1);
            if (file.folder != u"app"_qs && !file.text.contains(u"namespace %1\n"_qs.arg(name)))
                offences += file.path;
        }
        QCOMPARE(offences, QStringList());
    }

    void topLevelIsTheHouse()
    {
        QStringList entries =
            QDir(places::inSource({}))
                .entryList(QDir::AllEntries | QDir::NoDotAndDotDot, QDir::Name | QDir::IgnoreCase);
        entries.removeAll(u"build"_qs);
        QStringList house = {u"CMakeLists.txt"_qs, u"README.md"_qs, u"DEVELOPERS.md"_qs, u"app"_qs,
                             u"core"_qs,           u"resources"_qs, u"translations"_qs,  u"tests"_qs,
                             u"LICENSE"_qs};
        entries.sort();
        house.sort();
        QCOMPARE(entries, house);
    }
};

HOUSE_TEST(FloorsTest)

} // namespace test_floors

#include "test_floors.moc"
