#include "core/base/message.h"

#include "core/base/phrasebook.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_message
{

using base::Message;
using base::said;

/// A language made up: every text turned round between brackets, its places kept.
class Turned : public QTranslator
{
public:
    QString translate(const char*, const char* text, const char*, int) const override
    {
        if (QByteArray(text) == "%1: at most %2 signs.")
            return u"⟦sngis %2 tsom ta :%1⟧"_s;
        return u"⟦"_s + QString::fromUtf8(text) + u"⟧"_s;
    }
    bool isEmpty() const override { return false; }
};

class TestMessage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theSourceSaysItInEnglish()
    {
        QCOMPARE(said("%1: at most %2 signs.").arg(u"Tapping"_s, 10).english(),
                 u"Tapping: at most 10 signs."_s);
        QCOMPARE(said("Height: 30 to 250 cm.").english(), u"Height: 30 to 250 cm."_s);
        QCOMPARE(Message().english(), QString());
        QVERIFY(Message().isEmpty() && !said("x").isEmpty() && !base::verbatim(u"x"_s).isEmpty());
    }

    /// A name is no text of the program, whatever it holds.
    void whatGoesInIsNotReadAgain()
    {
        QCOMPARE(said("%1 and %2").arg(u"%2 %1"_s, u"b"_s).english(), u"%2 %1 and b"_s);
        QCOMPARE(said("100 % of %1").arg(u"a"_s).english(), u"100 % of a"_s);
        QCOMPARE(said("%1 and %3").arg(u"a"_s).english(), u"a and %3"_s);
    }

    /// Places move with the language; names and numbers stay, titles and messages are said in it too.
    void anotherLanguageOrdersItsPlaces()
    {
        const base::Phrasebook turned(std::make_shared<Turned>());
        QCOMPARE(said("%1: at most %2 signs.").arg(u"Tapping"_s, 10).in(turned),
                 u"⟦sngis 10 tsom ta :Tapping⟧"_s);
        QCOMPARE(said("%1: at most %2 signs.").arg(base::titled(u"Tapping"_s), said("a number")).in(turned),
                 u"⟦sngis ⟦a number⟧ tsom ta :⟦Tapping⟧⟧"_s);
        QCOMPARE(base::verbatim(u"Halden"_s).in(turned), u"Halden"_s);
    }

    /// One is one of a kind, also when it is taken away; a number with decimals and none are several.
    void aNumberAsksForItsForm()
    {
        const auto days = [](double number) {
            return base::counted("%1 day", "%1 days", number).arg(number).english();
        };
        QCOMPARE(days(1), u"1 day"_s);
        QCOMPARE(days(-1), u"-1 day"_s);
        QCOMPARE(days(0), u"0 days"_s);
        QCOMPARE(days(2.5), u"2.5 days"_s);
        QCOMPARE(days(1e12), u"1e+12 days"_s);
        const base::Phrasebook turned(std::make_shared<Turned>());
        QCOMPARE(base::counted("%1 day", "%1 days", 1).arg(1).in(turned),
                 u"⟦1 days⟧"_s); // its rule, not ours
    }

    void listsAndLinesAreMessagesToo()
    {
        const std::vector<Message> words = {said("a"), said("b"), said("c")};
        QCOMPARE(base::listed(words).english(), u"a, b, c"_s);
        QCOMPARE(base::listed(words, 2).english(), u"a, b and 1 more"_s);
        QCOMPARE(base::inLines(words).english(), u"a\nb\nc"_s);
        QVERIFY(base::listed(std::vector<Message>()).isEmpty());
        QCOMPARE(base::listed(base::verbatims({u"%1"_s, u"b"_s, u"c"_s}), 2).english(),
                 u"%1, b and 1 more"_s);
    }
};

HOUSE_TEST(TestMessage)

} // namespace test_message

#include "test_message.moc"
