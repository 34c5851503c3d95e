#include "core/base/file.h"
#include "core/sealing/seal.h"
#include "core/storage/sealing.h"
#include "core/storage/store.h"
#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

#include <QDir>

using namespace Qt::StringLiterals;

namespace test_sealed
{

using findings_file::walk;
using program::Outcome;
using program::start;

const QByteArray password = "four words and blue\n";

/// Records that an import sealed, and the file with their password.
struct Sealed : program::Place {
    QString words = path(u"words"_s);
    Outcome made;

    Sealed()
    {
        write(words, password);
        made = start({u"import"_s, records,
                      file({walk(), walk({{u"date"_s, u"2024-05-01"_s}, {u"value"_s, u"18"_s}})}),
                      u"--password-file"_s, words});
    }
    static void write(const QString& path, const QByteArray& bytes)
    {
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size());
    }
};

class TestSealed : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void init()
    {
        if (!storage::canSeal())
            QSKIP("This build has the system's SQLite.");
    }

    void whatAnImportMakesWithAPasswordIsSealed()
    {
        const Sealed clinic;
        QVERIFY2(clinic.made.code == 0, qPrintable(clinic.made.err));
        QVERIFY(clinic.made.err.startsWith(u"The records are sealed. Print their code"_s));
        QCOMPARE(clinic.made.err.count(u'\n'), 1);
        QVERIFY(sealing::isSealed(clinic.records));
        QVERIFY(QFile::exists(clinic.records + u".keys"_s));
        QVERIFY(!base::read(clinic.records, 10'000'000)->contains("Aaltje"));
    }

    void withoutOneItIsPlainAndSaysSo()
    {
        const program::Place place;
        const Outcome made = place.import({walk()});
        QCOMPARE(made.code, 0);
        QCOMPARE(made.err, u"The new records are not sealed: whoever gets hold of the file can read it. "
                           "--password-file seals them, or the window does.\n"_s);
        const Outcome again = place.import({walk({{u"date"_s, u"2024-05-01"_s}})});
        QCOMPARE(again.code, 0);
        QCOMPARE(again.err, QString());
        Sealed::write(place.path(u"words"_s), password);
        const Outcome needless =
            start({u"check"_s, place.records, u"--password-file"_s, place.path(u"words"_s)});
        QCOMPARE(needless.code, 0);
        QCOMPARE(needless.err, u"These records are not sealed, so the password was not needed.\n"_s);
    }

    void everyVerbOpensThemWithTheFileOrTheStandardInput_data()
    {
        QTest::addColumn<QStringList>("verb");
        QTest::newRow("check") << QStringList{u"check"_s, u"RECORDS"_s};
        QTest::newRow("change") << QStringList{u"change"_s, u"RECORDS"_s, u"--all"_s, u"--json"_s};
        QTest::newRow("letter") << QStringList{u"letter"_s, u"RECORDS"_s, u"--patient"_s,
                                               u"T-1"_s,    u"--to"_s,    u"FOLDER/letter.pdf"_s};
        QTest::newRow("chart") << QStringList{u"chart"_s, u"RECORDS"_s,         u"--patient"_s,
                                              u"T-1"_s,   u"--measure"_s,       u"timed-up-and-go"_s,
                                              u"--to"_s,  u"FOLDER/chart.svg"_s};
        QTest::newRow("catalogue") << QStringList{u"catalogue"_s, u"write"_s, u"FOLDER/own.json"_s,
                                                  u"--records"_s, u"RECORDS"_s};
        QTest::newRow("backup") << QStringList{u"backup"_s, u"RECORDS"_s, u"FOLDER/backup.aplomb"_s};
    }

    void everyVerbOpensThemWithTheFileOrTheStandardInput()
    {
        QFETCH(QStringList, verb);
        const Sealed clinic;
        const auto in = [&](const QString& folder) {
            QStringList words = verb;
            for (QString& word : words)
                word.replace(u"FOLDER"_s, clinic.path(folder)).replace(u"RECORDS"_s, clinic.records);
            return QDir(clinic.folder.path()).mkdir(folder) ? words : QStringList();
        };
        const Outcome byFile = start(in(u"one"_s) + QStringList{u"--password-file"_s, clinic.words});
        QVERIFY2(byFile.code == 0, qPrintable(byFile.err));
        QCOMPARE(byFile.err, QString());
        if (verb.first() != u"change"_s)
            return; // the way to the password is the same for all
        const Outcome byInput = start(in(u"two"_s), password);
        QVERIFY2(byInput.code == 0, qPrintable(byInput.err));
        QCOMPARE(QString(byInput.out).replace(u"/two/"_s, u"/one/"_s), byFile.out);
        const Outcome byDash =
            start(in(u"three"_s) + QStringList{u"--password-file"_s, u"-"_s}, password + "more\n");
        QCOMPARE(byDash.code, 0);
        const Outcome without = start(in(u"four"_s));
        QCOMPARE(without.code, 1);
        QCOMPARE(without.err, u"These records are sealed; name the file that holds their password with "
                              "--password-file, or give it on the standard input.\n"_s);
        QCOMPARE(without.out, QString());
        const Outcome wrong = start(in(u"five"_s), "four words and red\n");
        QCOMPARE(wrong.code, 1);
        QCOMPARE(wrong.err, u"That is not the password of these records.\n"_s);
    }

    void theCodeOpensThemWithoutTheFileOfKeys()
    {
        const Sealed clinic;
        const auto seal = sealing::openedByPassword(clinic.records, QString::fromUtf8(password).trimmed());
        QVERIFY(seal);
        const QByteArray code = seal->key.code().join(u' ').toUtf8();
        QVERIFY(QFile::remove(clinic.records + u".keys"_s));
        const Outcome opened = start({u"check"_s, clinic.records}, code);
        QVERIFY2(opened.code == 0, qPrintable(opened.err));
        QCOMPARE(opened.out, u"sound\n"_s);
        const Outcome word = start({u"check"_s, clinic.records}, password);
        QCOMPARE(word.err,
                 u"No file of keys lies beside these records, so only their printed code opens them.\n"_s);
        const Outcome other =
            start({u"check"_s, clinic.records}, sealing::Key::made().code().join(u' ').toUtf8());
        QCOMPARE(other.code, 1);
        QVERIFY(other.err.startsWith(u"These records do not open with this key"_s));
    }

    void aBackupOpensAsTheRecordsDo()
    {
        const Sealed clinic;
        const QString backup = clinic.path(u"backup.aplomb"_s);
        QCOMPARE(start({u"backup"_s, clinic.records, backup}, password).code, 0);
        const Outcome shown = start({u"change"_s, backup, u"--all"_s, u"--json"_s}, password);
        QCOMPARE(shown.code, 0);
        QCOMPARE(shown.out, start({u"change"_s, clinic.records, u"--all"_s, u"--json"_s}, password).out);
    }

    void badPasswordsAreRefusedInOneSentence_data()
    {
        QTest::addColumn<QByteArray>("words");
        QTest::addColumn<QString>("sentence");
        QTest::newRow("short") << QByteArray("eleven char\n")
                               << u"A password has at least 12 characters.\n"_s;
        QTest::newRow("empty") << QByteArray()
                               << u"The file of --password-file cannot be read, or has no "
                                  "password in its first line.\n"_s;
        QTest::newRow("an empty line")
            << QByteArray("\nfour words and blue\n")
            << u"The file of --password-file cannot be read, or has no password in its "
               "first line.\n"_s;
    }

    void badPasswordsAreRefusedInOneSentence()
    {
        QFETCH(QByteArray, words);
        QFETCH(QString, sentence);
        const program::Place place;
        Sealed::write(place.path(u"words"_s), words);
        const Outcome refused = start(
            {u"import"_s, place.records, place.file({walk()}), u"--password-file"_s, place.path(u"words"_s)});
        QCOMPARE(refused.code, 1);
        QCOMPARE(refused.err, sentence);
        QVERIFY(!QFile::exists(place.records));
        QVERIFY(!QFile::exists(place.records + u".keys"_s));
    }

    void thePasswordIsNoArgumentAndTheDemoHasNone()
    {
        const program::Place place;
        QCOMPARE(start({u"demo"_s, place.records, u"--password-file"_s, u"x"_s}).code, 2);
        QCOMPARE(start({u"check"_s, place.records, u"--password"_s, u"four words and blue"_s}).code, 2);
    }
};

HOUSE_TEST(TestSealed)

} // namespace test_sealed

#include "test_sealed.moc"
