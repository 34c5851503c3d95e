#include "core/base/text.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

class TextTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void namesFoldAlike_data();
    void namesFoldAlike();
    void differentNamesStayDifferent();
    void tidyTextHasNoOuterSpacesAndNoZero();
};

void TextTest::namesFoldAlike_data()
{
    QTest::addColumn<QString>("name");
    QTest::addColumn<QString>("key");
    QTest::newRow("case and accents") << u"Müller"_s << u"muller"_s;
    QTest::newRow("accent as its own character") << u"Mu\u0308ller"_s << u"muller"_s;
    QTest::newRow("letters without decomposition") << u"Łódź-Ügur"_s << u"lodz ugur"_s;
    QTest::newRow("sharp s, both cases") << u"Strauß STRAUẞ"_s << u"strauss strauss"_s;
    QTest::newRow("Nordic") << u"Søren Ærø Þórð"_s << u"soren aero thord"_s;
    QTest::newRow("dotless and dotted i") << u"Işıl İnci"_s << u"isil inci"_s;
    QTest::newRow("apostrophes of both kinds") << u"O’Neil O'Neil"_s << u"o neil o neil"_s;
    QTest::newRow("spaces") << u"  van   der\tBerg "_s << u"van der berg"_s;
    QTest::newRow("wide letters and ligatures") << u"Ａｎｎａ ﬁn"_s << u"anna fin"_s;
    QTest::newRow("Greek") << u"ΆΝΝΑ"_s << u"αννα"_s;
    QTest::newRow("digits stay") << u"P-0042"_s << u"p 0042"_s;
    QTest::newRow("beyond the basic plane") << u"𠮷野"_s << u"𠮷野"_s;
    QTest::newRow("nothing") << QString() << QString();
    QTest::newRow("punctuation only") << u"—…!"_s << QString();
}

void TextTest::namesFoldAlike()
{
    QFETCH(QString, name);
    QFETCH(QString, key);
    QCOMPARE(base::folded(name), key);
    QCOMPARE(base::folded(key), key);
}

void TextTest::differentNamesStayDifferent()
{
    QVERIFY(base::folded(u"Jensen"_s) != base::folded(u"Jansen"_s));
    QVERIFY(base::folded(u"𠮷"_s) != base::folded(u"𠮶"_s));
}

void TextTest::tidyTextHasNoOuterSpacesAndNoZero()
{
    QCOMPARE(base::tidied(u" \t Two  words\n"_s), u"Two  words"_s);
    QCOMPARE(base::tidied(u"a"_s + QChar(u'\0') + u"b"_s), u"ab"_s);
    QCOMPARE(base::tidied(QChar(u'\0') + u" a"_s), u"a"_s);
    QVERIFY(base::tidied(u"  "_s).isEmpty());
}

HOUSE_TEST(TextTest)
#include "test_text.moc"
