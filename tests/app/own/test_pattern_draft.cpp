#include "app/own/pattern_draft.h"

#include "app/own/own_edit_words.h"
#include "app/own/own_edits.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_pattern_draft
{

using catalogue::Checked;
using catalogue::Pattern;
using clinic_desk::book;
using own::PatternDraft;
using own::PatternPart;
using own::PatternRow;

/// Of an invented clinic: reading it needs heel to shin; shaky heels with a bad tandem walk support it.
PatternDraft example()
{
    PatternDraft draft = own::newPattern();
    Pattern& pattern = draft.pattern;
    pattern.title = u"Shaky legs"_s;
    own::add(pattern, u"heel-shin"_s, {PatternPart::Needs});
    const PatternRow first = own::add(pattern, u"heel-shin"_s, {PatternPart::Supports});
    own::lookAt(pattern, first).from = 2;
    const PatternRow second = own::addTogether(pattern, u"tandem-steps"_s, first);
    own::lookAt(pattern, second).to = 9;
    return draft;
}

QStringList lines(const Pattern& pattern)
{
    QStringList all;
    for (const PatternRow& row : own::rows(pattern))
        all += own::words(pattern, row, book());
    return all;
}

class TestPatternDraft : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyPatternOfTheProgramIsEditedWithoutLoss();
    void theClinicsOwnStandsInItsPlace();
    void linesComeAndGo();
    void everyFaultIsOneSentence_data();
    void everyFaultIsOneSentence();
    void aFinishedPatternIsReadBackAsItWas();
    void aSourceThatAPatternNamesStays();
    void anEditIsNamed();
};

void TestPatternDraft::everyPatternOfTheProgramIsEditedWithoutLoss()
{
    QVERIFY(!book().patterns.empty());
    for (const Pattern& pattern : book().patterns) {
        const PatternDraft draft = own::draftOf(pattern);
        QVERIFY(!draft.isChanged());
        QCOMPARE(own::wrongWith(draft, book()), QString());
        Pattern made = own::finished(draft, book());
        QVERIFY(made.id.startsWith(u"own-"_s));
        const auto read =
            catalogue::ownFrom(catalogue::written(own::with(catalogue::Own(), made)), u"own"_s, book());
        QVERIFY2(read, qPrintable(read ? QString() : read.error().what.english()));
        QCOMPARE(read->patterns.front(), made);
        made.id = pattern.id;
        made.isOwn = false;
        made.replaces.clear();
        QCOMPARE(made, pattern);
        for (const QString& line : lines(pattern))
            QVERIFY2(!line.contains(u"what must be seen?"_s), qPrintable(line));
    }
}

void TestPatternDraft::theClinicsOwnStandsInItsPlace()
{
    const Pattern& released = book().patterns.front();
    PatternDraft draft = own::draftOf(released);
    draft.pattern.note = u"  Read with care.  "_s;
    QVERIFY(draft.isChanged());
    const auto mine = own::with(catalogue::Own(), own::finished(draft, book()));
    const auto merged = catalogue::withOwn(book(), mine);
    QCOMPARE(merged.patterns.size(), book().patterns.size());
    QCOMPARE(merged.patterns.front().note, u"Read with care."_s);
    QVERIFY(own::draftOf(merged.patterns.front()).pattern.replaces == released.id);
    const auto without = own::withoutPattern(mine, mine.patterns.front().id);
    QCOMPARE(catalogue::withOwn(book(), without).patterns.front(), released);
}

void TestPatternDraft::linesComeAndGo()
{
    Pattern pattern = example().pattern;
    QCOMPARE(lines(pattern),
             QStringList({u"Tests without which nothing is said"_s, u"Heel to shin"_s, u"Supports it"_s,
                          u"Heel to shin: at least clear (2)"_s,
                          u"and Tandem steps achieved of 10: at most 9 steps"_s, u"Contradicts it"_s}));
    QCOMPARE(own::add(pattern, u"heel-shin"_s, {PatternPart::Needs}), (PatternRow{PatternPart::Needs, 0}));
    QCOMPARE(pattern.needs.size(), 1); // stands once
    const PatternRow against = own::add(pattern, u"romberg-sign"_s, {PatternPart::Contradicts});
    QCOMPARE(against, (PatternRow{PatternPart::Contradicts, 0}));
    QCOMPARE(own::words(pattern, against, book()), u"Romberg sign: what must be seen?"_s);
    own::lookAt(pattern, against).options = {u"negative"_s, u"positive"_s};
    QCOMPARE(own::words(pattern, against, book()), u"Romberg sign: negative or positive"_s);
    own::remove(pattern, {PatternPart::Supports, 0, 0});
    QCOMPARE(lines(pattern).at(3), u"Tandem steps achieved of 10: at most 9 steps"_s);
    own::remove(pattern, {PatternPart::Supports, 0, 0});
    own::remove(pattern, {PatternPart::Needs, 0});
    QCOMPARE(lines(pattern), QStringList({u"Tests without which nothing is said"_s, u"Supports it"_s,
                                          u"Contradicts it"_s, u"Romberg sign: negative or positive"_s}));
}

void TestPatternDraft::everyFaultIsOneSentence_data()
{
    QTest::addColumn<PatternDraft>("draft");
    QTest::addColumn<QString>("sentence");
    const auto row = [](const char* name, const QString& sentence, auto spoil) {
        PatternDraft draft = example();
        spoil(draft.pattern);
        QTest::newRow(name) << draft << sentence;
    };
    const PatternRow first{PatternPart::Supports, 0, 0};
    row("sound", QString(), [](Pattern&) {});
    row("no title", u"Give the pattern a title."_s, [](Pattern& pattern) { pattern.title = u"  "_s; });
    row("a title twice",
        u"Another pattern is called “%1”; choose another title."_s.arg(book().patterns.front().title),
        [](Pattern& pattern) { pattern.title = book().patterns.front().title; });
    row("needs nothing", u"Add at least one test without which nothing is said."_s,
        [](Pattern& pattern) { pattern.needs.clear(); });
    row("nothing supports it", u"Add at least one finding that supports the pattern."_s,
        [](Pattern& pattern) { pattern.supports.clear(); });
    row("a test alone", u"Say what “Heel to shin” must be."_s,
        [&](Pattern& pattern) { own::lookAt(pattern, first).from.reset(); });
    row("backwards", u"“Heel to shin” cannot be at least 2 and at most 1."_s,
        [&](Pattern& pattern) { own::lookAt(pattern, first).to = 1; });
    row("read nowhere", u"Choose the source in which “Heel to shin: at least clear (2)” was read."_s,
        [&](Pattern& pattern) { own::ruleAt(pattern, first).checked = Checked::Read; });
    row("an empty finding against it", u"Say what “Romberg sign” must be."_s,
        [](Pattern& pattern) { own::add(pattern, u"romberg-sign"_s, {PatternPart::Contradicts}); });
}

void TestPatternDraft::everyFaultIsOneSentence()
{
    QFETCH(const PatternDraft, draft);
    QFETCH(const QString, sentence);
    QCOMPARE(own::wrongWith(draft, book()), sentence);
}

void TestPatternDraft::aFinishedPatternIsReadBackAsItWas()
{
    const Pattern made = own::finished(example(), book());
    QCOMPARE(made.id, u"own-shaky-legs"_s);
    const auto read =
        catalogue::ownFrom(catalogue::written(own::with(catalogue::Own(), made)), u"own"_s, book());
    QVERIFY(read);
    QCOMPARE(read->patterns.front(), made);
}

void TestPatternDraft::aSourceThatAPatternNamesStays()
{
    Pattern pattern = own::finished(example(), book());
    pattern.supports.front().source = u"own-audit"_s;
    catalogue::Own mine = own_example::own();
    mine.patterns = {pattern};
    const auto without = own::withoutThreshold(mine, mine.thresholds.front().id);
    QCOMPARE(without.sources.size(), size_t(1));
    QVERIFY(own::withoutPattern(without, pattern.id).sources.empty());
}

void TestPatternDraft::anEditIsNamed()
{
    const auto mine = own::with(catalogue::Own(), own::finished(example(), book()));
    QCOMPARE(own::ownEditWords({}, mine), u"pattern “Shaky legs”"_s);
    QCOMPARE(own::ownEditWords(mine, {}), u"pattern “Shaky legs”"_s);
}

HOUSE_TEST(TestPatternDraft)

} // namespace test_pattern_draft

Q_DECLARE_METATYPE(own::PatternDraft)

#include "test_pattern_draft.moc"
