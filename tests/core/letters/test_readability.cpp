#include "core/letters/readability.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_readability
{

using letters::readingAge;

class TestReadability : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// Grade = 0.39 · words / sentences + 11.8 · syllables / words − 15.59 (Kincaid, Fishburne, Rogers &
    /// Chissom 1975); the counts of words and syllables are those that encyclopaedias print beside these
    /// sentences, from memory.
    void aTextIsAsHardAsItsSentencesAndSyllables_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("words");
        QTest::addColumn<double>("syllables");
        QTest::newRow("mat") << u"The cat sat on the mat."_s << 6.0 << 6.0;
        QTest::newRow("point")
            << u"This sentence, taken as a reading passage unto itself, is being used to prove a point."_s
            << 16.0 << 23.0;
        QTest::newRow("platypus")
            << u"The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."_s << 13.0
            << 24.0;
    }

    void aTextIsAsHardAsItsSentencesAndSyllables()
    {
        QFETCH(QString, text);
        QFETCH(double, words);
        QFETCH(double, syllables);
        const double age = 0.39 * words + 11.8 * syllables / words - 15.59 + 5;
        const auto counted = readingAge(text, u"en"_s);
        QVERIFY(counted);
        QVERIFY2(std::abs(*counted - age) <= 11.8 / words + 0.01, // one syllable of all
                 qPrintable(QString::number(*counted)));
    }

    /// 16 words of 16 syllables in two sentences, counted by hand: "once" and "walked" end silently.
    void theFormulaIsExact()
    {
        const QString text = u"Once she walked to the far end and back. … He sat down and had some tea."_s;
        constexpr double words = 16, syllables = 16, sentences = 2;
        QCOMPARE(*readingAge(text, u"en"_s), 0.39 * words / sentences + 11.8 * syllables / words - 15.59 + 5);
    }

    void severalSentencesAreSeveral()
    {
        const double once = *readingAge(u"The cat sat on the mat."_s, u"en"_s);
        const double thrice = *readingAge(
            u"The cat sat on the mat. The cat sat on the mat.\nThe cat sat on the mat"_s, u"en-GB"_s);
        QVERIFY(std::abs(once - thrice) < 1e-9);
    }

    void aNumberIsAWordAndADecimalPointEndsNoSentence()
    {
        QCOMPARE(readingAge(u"You took 12.3 seconds for it."_s, u"en"_s),
                 readingAge(u"You took ten seconds for it."_s, u"en"_s));
    }

    void nothingIsSaidOfAnotherLanguageOrOfNoWord()
    {
        QVERIFY(!readingAge(u"Der Gang ist sicher."_s, u"de"_s));
        QVERIFY(!readingAge(u" … "_s, u"en"_s));
    }
};

HOUSE_TEST(TestReadability)

} // namespace test_readability

#include "test_readability.moc"
