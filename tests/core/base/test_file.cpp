#include "core/base/file.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>

using namespace Qt::StringLiterals;

namespace test_file
{

class FileTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aNewFileIsReadableByItsOwnerOnly();
    void aFileThatIsThereKeepsItsReaders();
    void aFailureLeavesNothing();
    void onAFullDiskTheOldFileStays();
    void nothingIsWrittenOverRecords_data();
    void nothingIsWrittenOverRecords();
    void nothingIsWrittenToWhatIsNoFile();
    void whatIsNoFileIsNotRead_data();
    void whatIsNoFileIsNotRead();
    void noMoreIsReadThanAskedFor();
    void aNameThatBeginsWithAColonIsAName();
    void aNewNameTakesNoOthersPlace();
};

constexpr auto ofOthers = QFile::ReadGroup | QFile::WriteGroup | QFile::ReadOther | QFile::WriteOther;

void put(const QByteArray& bytes, const QString& path)
{
    QFile file(path);
    QVERIFY(file.open(QIODevice::WriteOnly));
    QCOMPARE(file.write(bytes), bytes.size());
}

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void FileTest::aNewFileIsReadableByItsOwnerOnly()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"letter.pdf"_s);
    QVERIFY(base::write("words", path));
    QVERIFY(!(QFile::permissions(path) & ofOthers));
    QCOMPARE(bytesOf(path), "words");
}

void FileTest::aFileThatIsThereKeepsItsReaders()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"letter.pdf"_s);
    QVERIFY(base::write("words", path));
    QVERIFY(QFile::setPermissions(path, QFile::permissions(path) | QFile::ReadGroup));
    QVERIFY(base::write("other words", path));
    QVERIFY(QFile::permissions(path) & QFile::ReadGroup);
}

void FileTest::aFailureLeavesNothing()
{
    const QTemporaryDir folder;
    const auto written = base::write("words", folder.filePath(u"no such folder/letter.pdf"_s));
    QVERIFY(!written);
    QCOMPARE(written.error().kind, base::ErrorKind::Unwritable);
    QVERIFY(!QFile::exists(folder.filePath(u"no such folder"_s)));
}

/// What fits into the buffer of a file is refused by the disk only when it is handed on.
void FileTest::onAFullDiskTheOldFileStays()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"letter.odt"_s);
    QVERIFY(base::write("the old letter", path));
    std::signal(SIGXFSZ, SIG_IGN);
    rlimit before = {};
    QCOMPARE(getrlimit(RLIMIT_FSIZE, &before), 0);
    const rlimit full{10, before.rlim_max};
    QCOMPARE(setrlimit(RLIMIT_FSIZE, &full), 0);
    const auto written = base::write("a new and longer letter", path);
    QCOMPARE(setrlimit(RLIMIT_FSIZE, &before), 0);
    QVERIFY(!written);
    QCOMPARE(written.error().kind, base::ErrorKind::Unwritable);
    QCOMPARE(bytesOf(path), "the old letter");
    QCOMPARE(QDir(folder.path()).entryList(QDir::Files | QDir::Hidden), QStringList{u"letter.odt"_s});
}

void FileTest::nothingIsWrittenOverRecords_data()
{
    QTest::addColumn<QString>("name");
    for (const char* name : {"clinic", "clinic-wal", "clinic-shm", ".clinic.lock", "link", "damaged.aplomb"})
        QTest::newRow(name) << QString::fromLatin1(name);
}

void FileTest::nothingIsWrittenOverRecords()
{
    QFETCH(QString, name);
    const QTemporaryDir folder;
    put(QByteArray("SQLite format 3\0 and pages", 26), folder.filePath(u"clinic"_s));
    QVERIFY(QFile::link(folder.filePath(u"clinic"_s), folder.filePath(u"link"_s)));
    put("pages that were records", folder.filePath(u"damaged.aplomb"_s));
    put("frames", folder.filePath(u"clinic-wal"_s));
    const QByteArray before = bytesOf(folder.filePath(name));
    const auto written = base::write("a catalogue", folder.filePath(name));
    QVERIFY(!written);
    QCOMPARE(written.error().kind, base::ErrorKind::Refused);
    QCOMPARE(bytesOf(folder.filePath(name)), before);
}

void FileTest::nothingIsWrittenToWhatIsNoFile()
{
    const QTemporaryDir folder;
    const auto written = base::write("words", folder.path());
    QVERIFY(!written);
    QCOMPARE(written.error().kind, base::ErrorKind::Unwritable);
    QVERIFY(!base::write("words", u"/dev/null"_s));
}

void FileTest::whatIsNoFileIsNotRead_data()
{
    QTest::addColumn<QString>("path");
    QTest::newRow("a device without end") << u"/dev/zero"_s;
    QTest::newRow("a folder") << u"/"_s;
    QTest::newRow("a pipe nobody writes to") << u"pipe"_s;
    QTest::newRow("nothing") << u"nothing"_s;
}

void FileTest::whatIsNoFileIsNotRead()
{
    QFETCH(QString, path);
    const QTemporaryDir folder;
    QCOMPARE(mkfifo(folder.filePath(u"pipe"_s).toLocal8Bit().constData(), 0600), 0);
    const auto bytes = base::read(QDir(folder.path()).absoluteFilePath(path), 100);
    QVERIFY(!bytes);
    QCOMPARE(bytes.error().kind, base::ErrorKind::Unreadable);
}

void FileTest::noMoreIsReadThanAskedFor()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"findings.csv"_s);
    put("seven b", path);
    QCOMPARE(*base::read(path, 7), "seven b");
    QCOMPARE(*base::read(path, 4), "seven");
}

void FileTest::aNameThatBeginsWithAColonIsAName()
{
    const QTemporaryDir folder;
    const QString before = QDir::currentPath();
    QVERIFY(QDir::setCurrent(folder.path()));
    const auto written = base::write("words", u":memory:"_s);
    const auto read = base::read(u":memory:"_s, 100);
    QVERIFY(QDir::setCurrent(before));
    QVERIFY(written && read);
    QCOMPARE(*read, "words");
    QCOMPARE(bytesOf(folder.path() + u"/:memory:"_s), "words");
}

void FileTest::aNewNameTakesNoOthersPlace()
{
    const QTemporaryDir folder;
    put("new", folder.filePath(u"new"_s));
    put("old", folder.filePath(u"old"_s));
    const auto moved = base::moveNew(folder.filePath(u"new"_s), folder.filePath(u"old"_s));
    QVERIFY(!moved);
    QCOMPARE(moved.error().kind, base::ErrorKind::Refused);
    QCOMPARE(bytesOf(folder.filePath(u"old"_s)), "old");
    QVERIFY(base::moveNew(folder.filePath(u"new"_s), folder.filePath(u"free"_s)));
    QCOMPARE(bytesOf(folder.filePath(u"free"_s)), "new");
    QVERIFY(!QFile::exists(folder.filePath(u"new"_s)));
}

HOUSE_TEST(FileTest)

} // namespace test_file

#include "test_file.moc"
