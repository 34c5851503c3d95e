#include "core/sealing/key.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;
using sealing::Key;

namespace test_key
{

class TestKey : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyKeyIsAnother()
    {
        QVERIFY(!(Key::made() == Key::made()));
        const Key key = Key::made();
        const Key copy = key;
        QVERIFY(copy == key);
        QVERIFY(Key::of(key.bytes()) == key);
    }

    void aCodeIsReadAgain()
    {
        for (int i = 0; i < 200; ++i) {
            const Key key = Key::made();
            const QStringList code = key.code();
            QCOMPARE(code.size(), 8);
            for (const QString& group : code)
                QCOMPARE(group.size(), 8);
            const auto read = Key::fromCode(code.join(u'\n'));
            QVERIFY(read);
            QVERIFY(*read == key);
        }
    }

    void howItIsWrittenDoesNotMatter()
    {
        const Key key = Key::made();
        QString typed = key.code().join(u" - "_s).toLower();
        typed.replace(u'0', u'o').replace(u'1', u'l');
        const auto read = Key::fromCode(u"  "_s + typed + u"\n"_s);
        QVERIFY(read);
        QVERIFY(*read == key);
        QVERIFY(*Key::fromCode(key.code().join(QString()).replace(u'1', u'I')) == key);
    }

    /// The bytes 0 to 31: five bits a letter of Crockford's base 32 (https://www.crockford.com/base32.html),
    /// high bits first. The last letter and most of the one before it are the check.
    void theLettersAreThoseOfBase32()
    {
        std::array<unsigned char, Key::size> bytes = {};
        for (size_t i = 0; i < bytes.size(); ++i)
            bytes[i] = static_cast<unsigned char>(i);
        const QStringList code = Key::of(bytes).code();
        QCOMPARE(code.first().left(6), u"000G40"_s); // 00000000 00000001 00000010 00000011
        QCOMPARE(code.at(1).left(6), u"0G2GC1"_s);   // 00000100 00000101 00000110 00000111
        QCOMPARE(code.last().left(6), u"3GEHW7"_s);  // 00011100 00011101 00011110 00011111
    }

    void aMistypedLetterIsNoticedAndItsGroupNamed()
    {
        const QString letters = u"0123456789ABCDEFGHJKMNPQRSTVWXYZ"_s;
        const QString code = Key::made().code().join(QString());
        int unnoticed = 0;
        int tried = 0;
        for (qsizetype place = 0; place < code.size(); ++place) {
            for (const QChar letter : letters) {
                if (letter == code.at(place))
                    continue;
                QString mistyped = code;
                mistyped[place] = letter;
                const auto read = Key::fromCode(mistyped);
                ++tried;
                if (read)
                    ++unnoticed;
                else
                    QCOMPARE(read.error().what.english(),
                             u"Group %1 of the code is mistyped."_s.arg(place / 8 + 1));
            }
        }
        QCOMPARE(tried, 64 * 31);
        QVERIFY2(unnoticed < tried / 50, qPrintable(QString::number(unnoticed))); // one in 256 by chance
    }

    void exchangedGroupsAreNoticed()
    {
        int unnoticed = 0;
        for (int i = 0; i < 100; ++i) {
            QStringList code = Key::made().code();
            code.swapItemsAt(2, 5);
            unnoticed += Key::fromCode(code.join(u' ')) ? 1 : 0;
        }
        QVERIFY(unnoticed <= 2);
    }

    void whatIsNoCodeIsRefused_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::addColumn<QString>("sentence");
        const QString code = Key::made().code().join(QString());
        QTest::newRow("empty") << QString() << u"The code has 64 letters and digits; 0 were given."_s;
        QTest::newRow("short") << code.chopped(1) << u"The code has 64 letters and digits; 63 were given."_s;
        QTest::newRow("long") << code + u'A' << u"The code has 64 letters and digits; 65 were given."_s;
        QTest::newRow("a letter that no code has")
            << u'U' + code.sliced(1) << u"Group 1 of the code is mistyped."_s;
        QTest::newRow("another alphabet")
            << code.chopped(1) + QChar(0x0416) << u"Group 8 of the code is mistyped."_s;
    }

    void whatIsNoCodeIsRefused()
    {
        QFETCH(QString, typed);
        QFETCH(QString, sentence);
        const auto read = Key::fromCode(typed);
        QVERIFY(!read);
        QCOMPARE(read.error().kind, base::ErrorKind::Invalid);
        QCOMPARE(read.error().what.english(), sentence);
    }
};

HOUSE_TEST(TestKey)

} // namespace test_key

#include "test_key.moc"
