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

    void listsAndLinesAreMessagesToo()
    {
        const std::vector<Message> words = {said("a"), said("b"), said("c")};
        QCOMPARE(base::listed(words).english(), u"a, b, c"_s);
        QCOMPARE(base::listed(words, 2).english(), u"a, b and 1 more"_s);
        QCOMPARE(base::inLines(words).english(), u"a\nb\nc"_s);
        QVERIFY(base::listed(std::vector<Message>()).isEmpty());
    }
};

HOUSE_TEST(TestMessage)

} // namespace test_message

#include "test_message.moc"
