#include "app/writing/spelling.h"

#include "tests/support/test_support.h"

#include <QTextBlock>
#include <QTextEdit>
#include <QTextLayout>

using namespace Qt::StringLiterals;

namespace test_spelling
{

using writing::Dictionary;

/// The words that are underlined.
QStringList underlined(const QTextEdit& field)
{
    QStringList words;
    for (QTextBlock block = field.document()->begin(); block.isValid(); block = block.next()) {
        for (const auto& range : block.layout()->formats())
            words += block.text().mid(range.start, range.length);
    }
    return words;
}

class TestSpelling : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aDictionaryKnowsItsWords()
    {
        const auto english = Dictionary::of(u"en"_s);
        QVERIFY(english != nullptr);
        for (const QString& word : {u"walking"_s, u"don’t"_s, u"Balance"_s, u"10m"_s})
            QVERIFY2(english->isRight(word), qPrintable(word));
        QVERIFY(!english->isRight(u"wlaking"_s));
        QVERIFY(english->suggestions(u"wlaking"_s).contains(u"walking"_s));
        QVERIFY(english->suggestions(u"wlaking"_s).size() <= 6);
        QVERIFY(Dictionary::of(u"en-GB"_s) != nullptr);
        QVERIFY(Dictionary::of(u"tlh"_s) == nullptr);
    }

    void wordsThatAreNotKnownAreUnderlinedWhereOneWrites()
    {
        QTextEdit field;
        writing::Spelling spelling(field);
        field.setPlainText(u"Wlaking with a stick\nsince Mya 2026"_s);
        QCOMPARE(underlined(field), QStringList());
        spelling.setDictionary(Dictionary::of(u"en"_s));
        QCOMPARE(underlined(field), (QStringList{u"Wlaking"_s, u"Mya"_s}));
        field.setReadOnly(true);
        spelling.rehighlight();
        QCOMPARE(underlined(field), QStringList());
    }
};

HOUSE_TEST(TestSpelling)

} // namespace test_spelling

#include "test_spelling.moc"
