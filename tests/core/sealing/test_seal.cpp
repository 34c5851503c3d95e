#include "core/base/file.h"
#include "core/sealing/seal.h"
#include "tests/support/test_support.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

using namespace Qt::StringLiterals;
using base::ErrorKind;

namespace test_seal
{

const QString password = u"four words and blue"_s;

/// Something sealed with keys beside it, as far as can be seen from outside.
struct Sealed {
    QTemporaryDir folder;
    QString path = folder.filePath(u"clinic.aplomb"_s);

    void write(const QByteArray& keys) const
    {
        put(path, QByteArray(4096, 'x'));
        put(path + u".keys"_s, keys);
    }
    static void put(const QString& path, const QByteArray& bytes)
    {
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        QCOMPARE(file.write(bytes), bytes.size());
    }
};

/// The keys of a test, made once: each wrapping takes most of a second.
const sealing::Seal& seal()
{
    static const sealing::Seal made = *sealing::made(password);
    return made;
}

class TestSeal : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aPasswordOpensItsOwnRecordsAlone()
    {
        const Sealed sealed;
        sealed.write(seal().wrapped);
        const auto opened = sealing::openedByPassword(sealed.path, password);
        QVERIFY(opened);
        QVERIFY(opened->key == seal().key);
        QCOMPARE(opened->wrapped, seal().wrapped);
        for (const QString& wrong : {u"Four words and blue"_s, u"four words and blue "_s, QString()}) {
            const auto refused = sealing::openedByPassword(sealed.path, wrong);
            QVERIFY(!refused);
            QCOMPARE(refused.error().kind, ErrorKind::Refused);
        }
    }

    void whatIsTypedMayBeEither()
    {
        const Sealed sealed;
        sealed.write(seal().wrapped);
        QVERIFY(sealing::opened(sealed.path, password)->key == seal().key);
        QVERIFY(sealing::opened(sealed.path, seal().key.code().join(u' '))->key == seal().key);
    }

    void composedLettersAreTheSameHoweverTheyAreTyped()
    {
        const Sealed sealed;
        sealed.write(
            sealing::wrappedAnew(seal().key, QStringLiteral(u"Zo\u00eb und \u00c5ngstr\u00f6m"))->wrapped);
        QVERIFY(
            sealing::openedByPassword(sealed.path, QStringLiteral(u"Zoe\u0308 und A\u030angstro\u0308m")));
    }

    void twoWrappingsOfOneKeyHaveNothingInCommon()
    {
        const auto again = sealing::wrappedAnew(seal().key, password);
        QVERIFY(again->key == seal().key);
        const QJsonObject one = QJsonDocument::fromJson(seal().wrapped).object();
        const QJsonObject other = QJsonDocument::fromJson(again->wrapped).object();
        for (const QString& part : {u"salt"_s, u"nonce"_s, u"key"_s})
            QVERIFY(one[part].toString() != other[part].toString());
        QVERIFY(!seal().wrapped.contains(seal().key.code().first().toLatin1()));
    }

    void withoutKeysOnlyTheCodeOpens()
    {
        const Sealed sealed;
        sealed.write({});
        QVERIFY(QFile::remove(sealed.path + u".keys"_s));
        QCOMPARE(sealing::openedByPassword(sealed.path, password).error().kind, ErrorKind::NotFound);
        const auto opened = sealing::opened(sealed.path, seal().key.code().join(QString()));
        QVERIFY(opened);
        QVERIFY(opened->wrapped.isEmpty());
    }

    /// Whoever can write the file can make nothing of it but a refusal, and no work without end.
    void keysThatWereAlteredAreRefused_data()
    {
        QTest::addColumn<QString>("part");
        QTest::addColumn<QJsonValue>("value");
        QTest::addColumn<int>("kind");
        const auto row = [](const char* name, const QString& part, const QJsonValue& value,
                            ErrorKind kind = ErrorKind::Unreadable) {
            QTest::newRow(name) << part << value << int(kind);
        };
        QString key = QJsonDocument::fromJson(seal().wrapped).object()[u"key"_s].toString();
        key[0] = key[0] == u'0' ? u'1' : u'0';
        row("another key", u"key"_s, key, ErrorKind::Refused);
        row("a short key", u"key"_s, u"00ff"_s);
        row("a key that is none", u"key"_s, 7);
        row("no salt", u"salt"_s, QJsonValue());
        row("a short nonce", u"nonce"_s, u"00"_s);
        row("passes without end", u"passes"_s, 4'000'000'000LL);
        row("no passes", u"passes"_s, 0);
        row("all memory", u"memory"_s, 1LL << 50);
        row("negative memory", u"memory"_s, -1);
        row("another wrapping", u"wrapping"_s, u"rot13"_s);
        row("no format", u"format"_s, QJsonValue());
        row("a newer format", u"format"_s, 2, ErrorKind::Newer);
    }

    void keysThatWereAlteredAreRefused()
    {
        QFETCH(QString, part);
        QFETCH(QJsonValue, value);
        QFETCH(int, kind);
        QJsonObject keys = QJsonDocument::fromJson(seal().wrapped).object();
        keys[part] = value;
        const Sealed sealed;
        sealed.write(QJsonDocument(keys).toJson());
        const auto refused = sealing::openedByPassword(sealed.path, password);
        QVERIFY(!refused);
        QCOMPARE(int(refused.error().kind), kind);
    }

    void whatIsNoFileOfKeysIsRefused()
    {
        const Sealed sealed;
        for (const QByteArray& bytes :
             {QByteArray(), QByteArray("keys"), QByteArray("[1]"), QByteArray(20'000, '{')}) {
            sealed.write(bytes);
            QCOMPARE(sealing::openedByPassword(sealed.path, password).error().kind, ErrorKind::Unreadable);
        }
    }

    void sealedFilesAreKnownFromOutside()
    {
        const Sealed sealed;
        QVERIFY(!sealing::isSealed(sealed.path)); // there is none
        sealed.write("keys");
        QVERIFY(sealing::isSealed(sealed.path));
        Sealed::put(sealed.path, "SQLite format 3" + QByteArray(4081, '\0'));
        QVERIFY(!sealing::isSealed(sealed.path)); // plain, whatever lies beside it
        QVERIFY(QFile::remove(sealed.path + u".keys"_s));
        Sealed::put(sealed.path, QByteArray(8192, 'a'));
        QVERIFY(!sealing::isSealed(sealed.path));
        Sealed::put(sealed.path, "a shopping list");
        QVERIFY(!sealing::isSealed(sealed.path));
        QVERIFY(!sealing::isSealed(sealed.folder.path()));
        QByteArray noise;
        while (noise.size() < 4096) {
            const sealing::Key key = sealing::Key::made();
            noise.append(reinterpret_cast<const char*>(key.bytes().data()), sealing::Key::size);
        }
        Sealed::put(sealed.path, noise);
        QVERIFY(sealing::isSealed(sealed.path));
    }

    void theFileOfKeysIsItsOwnersAloneAndTakesNoOthersPlace()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"x.keys"_s);
        QVERIFY(sealing::writeKeys(seal(), path));
        QCOMPARE(*base::read(path, 10'000), seal().wrapped);
        const auto others = QFile::ReadGroup | QFile::ReadOther | QFile::WriteGroup | QFile::WriteOther;
        QVERIFY(!(QFile::permissions(path) & others));
        QCOMPARE(sealing::writeKeys(seal(), path).error().kind, ErrorKind::Unwritable);
        QCOMPARE(sealing::writeKeys(seal(), folder.filePath(u"none/x.keys"_s)).error().kind,
                 ErrorKind::Unwritable);
    }

    void keysLieBesideTheFileThatALinkLeadsTo()
    {
        const Sealed sealed;
        sealed.write(seal().wrapped);
        const QString link = sealed.folder.filePath(u"link.aplomb"_s);
        QVERIFY(QFile::link(sealed.path, link));
        QCOMPARE(sealing::keysOf(link), QFileInfo(sealed.path).canonicalFilePath() + u".keys"_s);
    }

    void aPasswordHasTwelveCharacters()
    {
        QVERIFY(!sealing::isPassword(u"elevenchars"_s));
        QVERIFY(sealing::isPassword(u"twelve chars"_s));
    }

    void nothingIsWrittenOverKeysOrSealedRecords()
    {
        const Sealed sealed;
        sealed.write(seal().wrapped);
        const QString plain = sealed.folder.filePath(u"elsewhere"_s);
        Sealed::put(plain, QByteArray(4096, 'x'));
        Sealed::put(plain + u".keys"_s, "keys");
        for (const QString& path : {plain, QString(plain + u".keys"_s), QString(sealed.path + u".keys"_s)})
            QCOMPARE(base::write("letter", path).error().kind, ErrorKind::Refused);
    }
};

HOUSE_TEST(TestSeal)

} // namespace test_seal

#include "test_seal.moc"
