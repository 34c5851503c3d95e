#include "core/base/file.h"
#include "tests/support/test_support.h"

#include <QFile>
#include <QTemporaryDir>

using namespace Qt::StringLiterals;

class FileTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aNewFileIsReadableByItsOwnerOnly();
    void aFileThatIsThereKeepsItsReaders();
    void aFailureLeavesNothing();
};

namespace
{

constexpr auto ofOthers = QFile::ReadGroup | QFile::WriteGroup | QFile::ReadOther | QFile::WriteOther;

}

void FileTest::aNewFileIsReadableByItsOwnerOnly()
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"letter.pdf"_s);
    QVERIFY(base::write("words", path));
    QVERIFY(!(QFile::permissions(path) & ofOthers));
    QFile file(path);
    QVERIFY(file.open(QIODevice::ReadOnly));
    QCOMPARE(file.readAll(), "words");
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

HOUSE_TEST(FileTest)
#include "test_file.moc"
