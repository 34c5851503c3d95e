#include "core/catalogue/audit.h"
#include "core/catalogue/own.h"
#include "core/catalogue/reader.h"
#include "core/catalogue/reading_entries.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_reading_entries
{

using catalogue::Catalogue;
using catalogue::Pattern;

const Catalogue& shipped()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

Pattern ownPattern()
{
    Pattern made;
    made.id = u"own-limbs"_s;
    made.title = u"Clumsy hands"_s;
    made.needs = {u"finger-nose"_s};
    made.supports = {{{{u"finger-nose"_s, {}, 1, {}, {u"intention tremor"_s}},
                       {u"nystagmus"_s, {u"gaze-evoked"_s}, {}, {}, {}}},
                      u"bodranghien-2016"_s,
                      catalogue::Checked::Read}};
    made.contradicts = {{{{u"finger-nose"_s, {}, {}, 0, {}}}, {}, catalogue::Checked::Memory}};
    made.note = u"Ours."_s;
    made.replaces = u"cerebellar-limbs"_s;
    made.isOwn = true;
    return made;
}

base::Result<catalogue::Own> readBack(const Pattern& pattern)
{
    return catalogue::ownFrom(catalogue::written(catalogue::Own{{}, {}, {}, {}, {pattern}}), u"clinic.json"_s,
                              shipped());
}

/// Red flags and patterns as data.
class TestReadingEntries : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsReleasedIsSound();
    void everyUrgencyDefersAndSaysWhereItComesFrom();
    void aFaultIsNamed_data();
    void aFaultIsNamed();
    void aClinicsPatternComesBackAndTakesItsPlace();
    void aClinicsFaultIsRefused();
};

void TestReadingEntries::whatIsReleasedIsSound()
{
    QCOMPARE(base::english(catalogue::readingFaults(shipped())), QStringList());
    QCOMPARE(shipped().redFlags.size(), size_t(24));
    QCOMPARE(shipped().patterns.size(), size_t(10));
}

/// The triggers and their urgency as NICE NG127 and the spine pathway have them; what is from memory says so.
void TestReadingEntries::everyUrgencyDefersAndSaysWhereItComesFrom()
{
    for (const catalogue::RedFlag& flag : shipped().redFlags) {
        QVERIFY2(flag.urgency.contains(u"local"_s), qPrintable(flag.id));
        QVERIFY2(flag.urgency.startsWith(u"Usually"_s), qPrintable(flag.id)); // nothing is ordered
        QCOMPARE(flag.checked == catalogue::Checked::Read && flag.source.isEmpty(), false);
    }
    // NICE NG127, 1.3 and 1.9: sudden onset at once; progression over days to weeks urgent.
    QVERIFY(shipped().redFlag(u"sudden-unsteadiness"_s)->urgency.contains(u"at once"_s));
    QVERIFY(shipped().redFlag(u"unsteadiness-over-weeks"_s)->urgency.contains(u"two weeks"_s));
}

void TestReadingEntries::aFaultIsNamed_data()
{
    QTest::addColumn<Pattern>("pattern");
    QTest::addColumn<QString>("says");
    const auto broken = [](const std::function<void(Pattern&)>& change) {
        Pattern made = ownPattern();
        change(made);
        return made;
    };
    QTest::newRow("unknown measure") << broken([](Pattern& p) { p.supports[0].looks[0].measure = u"x"_s; })
                                     << u"unknown measure “x”"_s;
    QTest::newRow("needs nothing") << broken([](Pattern& p) { p.needs.clear(); })
                                   << u"which tests it needs"_s;
    QTest::newRow("nothing supports it")
        << broken([](Pattern& p) { p.supports.clear(); }) << u"nothing supports"_s;
    QTest::newRow("another's word") << broken([](Pattern& p) {
        p.supports[0].looks[1].options = {u"positive"_s};
    }) << u"a word that is none"_s;
    QTest::newRow("another's sign") << broken([](Pattern& p) {
        p.supports[0].looks[0].signs = {u"rocking"_s};
    }) << u"a sign that is none"_s;
    QTest::newRow("beyond the grades")
        << broken([](Pattern& p) { p.supports[0].looks[0].from = 5; }) << u"a number that is none"_s;
    QTest::newRow("backwards") << broken([](Pattern& p) {
        p.supports[0].looks[0].from = 3;
        p.supports[0].looks[0].to = 1;
    }) << u"a number that is none"_s;
    QTest::newRow("says nothing") << broken([](Pattern& p) {
        p.supports[0].looks[1] = {u"nystagmus"_s, {}, {}, {}, {}};
    }) << u"what “nystagmus” must be"_s;
}

void TestReadingEntries::aFaultIsNamed()
{
    QFETCH(Pattern, pattern);
    QFETCH(QString, says);
    Catalogue catalogue = shipped();
    catalogue.patterns.push_back(pattern);
    const QStringList faults = base::english(catalogue::readingFaults(catalogue));
    QCOMPARE(faults.size(), 1);
    QVERIFY2(faults.front().contains(says) && faults.front().startsWith(u"own-limbs: "_s),
             qPrintable(faults.front()));
}

void TestReadingEntries::aClinicsPatternComesBackAndTakesItsPlace()
{
    const auto own = readBack(ownPattern());
    QVERIFY2(own, own ? "" : qPrintable(own.error().what.english()));
    QCOMPARE(own->patterns, std::vector{ownPattern()});
    const Catalogue whole = catalogue::withOwn(shipped(), *own);
    QCOMPARE(whole.patterns.size(), shipped().patterns.size());
    QCOMPARE(whole.patterns.front(), ownPattern());
    Pattern further = ownPattern();
    further.replaces.clear();
    QCOMPARE(catalogue::withOwn(shipped(), *readBack(further)).patterns.back(), further);
}

void TestReadingEntries::aClinicsFaultIsRefused()
{
    Pattern wrong = ownPattern();
    wrong.replaces = u"x"_s;
    const auto refused = readBack(wrong);
    QVERIFY(!refused);
    QVERIFY(refused.error().what.english().contains(u"“replaces”: unknown pattern “x”"_s));
    wrong = ownPattern();
    wrong.supports.front().source = u"x"_s;
    QVERIFY(!readBack(wrong));
    wrong = ownPattern();
    wrong.contradicts.front().checked = catalogue::Checked::Read;
    QVERIFY(readBack(wrong).error().what.english().contains(u"no source is named"_s));
}

HOUSE_TEST(TestReadingEntries)

} // namespace test_reading_entries

#include "test_reading_entries.moc"
