#include "core/base/text.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_text
{

class TextTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void namesFoldAlike_data();
    void namesFoldAlike();
    void differentNamesStayDifferent();
    void tidyTextHasNoOuterSpacesAndNoZero();
    void controlsAreFoundAndTakenOut_data();
    void controlsAreFoundAndTakenOut();
    void ordinaryTextIsNoControl();
    void aNameStandsAlone();
    void aLongTextIsCut();
    void whatOrdersATerminalAboutIsReplaced();
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

void TextTest::controlsAreFoundAndTakenOut_data()
{
    QTest::addColumn<QString>("control");
    const std::vector<std::pair<const char*, char16_t>> controls = {
        {"escape", 0x1b},           {"delete", 0x7f},        {"next line", 0x85},
        {"one-byte CSI", 0x9b},     {"Arabic mark", 0x61c},  {"left-to-right mark", 0x200e},
        {"line separator", 0x2028}, {"embedding", 0x202a},   {"override", 0x202e},
        {"isolate", 0x2066},        {"end of one", 0x2069},  {"noncharacter", 0xfffe},
        {"another", 0xffff},        {"frame mark", 0xfdd0},  {"half a pair", 0xd800},
        {"the other half", 0xdc00}, {"first strong", 0x2068}};
    for (const auto& [name, unit] : controls)
        QTest::newRow(name) << QString(QChar(unit));
    const char32_t beyond = 0x1fffe;
    QTest::newRow("a noncharacter of another plane") << QString::fromUcs4(&beyond, 1);
}

void TextTest::controlsAreFoundAndTakenOut()
{
    QFETCH(QString, control);
    const QString text = u"Ann"_s + control + u"a"_s;
    for (const auto breaks : {base::Breaks::Forbidden, base::Breaks::Allowed}) {
        QCOMPARE(base::controlAt(text, breaks), qsizetype(3));
        QCOMPARE(base::withoutControls(text, breaks), u"Anna"_s);
    }
    QCOMPARE(base::isolated(text), u"\u2068Anna\u2069"_s);
}

void TextTest::ordinaryTextIsNoControl()
{
    for (const QString& text :
         {u"Łódź, שרה · 𠮷野 👩‍⚕️ é"_s, u"می‌خواهم"_s, QString()}) {
        QCOMPARE(base::controlAt(text, base::Breaks::Forbidden), qsizetype(-1));
        QCOMPARE(base::withoutControls(text), text);
    }
    QCOMPARE(base::controlAt(u"two\nlines\tand a tab"_s, base::Breaks::Allowed), qsizetype(-1));
    QCOMPARE(base::controlAt(u"two\nlines"_s, base::Breaks::Forbidden), qsizetype(3));
    QCOMPARE(base::withoutControls(u"two\nlines"_s), u"two lines"_s);
}

void TextTest::aNameStandsAlone()
{
    QCOMPARE(base::isolated(u"Anna"_s), u"\u2068Anna\u2069"_s);
    QCOMPARE(base::isolated(QString()), QString());
}

void TextTest::aLongTextIsCut()
{
    QCOMPARE(base::shortened(u"abcdef"_s, 6), u"abcdef"_s);
    QCOMPARE(base::shortened(u"abcdefg"_s, 6), u"abcde…"_s);
    QCOMPARE(base::shortened(u"abcd𠮷fg"_s, 6), u"abcd…"_s);
    QCOMPARE(base::shortened(u"ab\x1b[2J"_s, 60), u"ab[2J"_s);
}

void TextTest::whatOrdersATerminalAboutIsReplaced()
{
    QCOMPARE(base::printable(u"a\u001b[2J\u009bm\u202eb\u2067c\u007f"_s),
             u"a\ufffd[2J\ufffdm\ufffdb\ufffdc\ufffd"_s);
    QCOMPARE(base::printable(u"two\nlines\t\u2068Zoë\u2069 🌻"_s), u"two\nlines\t\u2068Zoë\u2069 🌻"_s);
}

HOUSE_TEST(TextTest)

} // namespace test_text

#include "test_text.moc"
