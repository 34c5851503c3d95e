#include "app/handbook/handbook.h"

#include "app/handbook/evidence_words.h"
#include "app/handbook/handbook_html.h"
#include "core/catalogue/reader.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QPalette>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace test_handbook
{

using catalogue::Strictness;
using handbook::Handbook;

catalogue::Catalogue book()
{
    return examples::catalogue();
}

catalogue::Measure walk()
{
    catalogue::Measure walk = *book().measure(u"gait-speed-comfortable"_s);
    walk.purpose = u"How fast someone walks."_s;
    walk.how = u"Ten metres, the middle six timed."_s;
    walk.unableMeans = u"no step without being held"_s;
    walk.caution = u"Walk beside and a little behind."_s;
    return walk;
}

Handbook page(const catalogue::Measure& measure)
{
    return handbook::handbook(measure, book(), {});
}

QStringList lines(const Handbook& page, const QString& heading)
{
    const auto part = std::ranges::find(page.parts, heading, &handbook::Part::heading);
    return part == page.parts.end() ? QStringList() : part->lines;
}

/// A row with no more than it must have; the number is invented.
catalogue::Threshold row()
{
    catalogue::Threshold row;
    row.measure = u"gait-speed-comfortable"_s;
    row.population = u"parkinson"_s;
    row.improvement = 0.18;
    row.decline = 0.18;
    row.source = u"somebody-2001"_s;
    return row;
}

/// What the handbook page says, apart from how it looks.
class TestHandbook : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatHasNothingToSayIsLeftOut();
    void strictnessIsSaidInWords();
    void aConditionOfOnePopulationNamesIt();
    void theResultSaysRangeStepAndDirection();
    void trialsSayWhichCounts();
    void aComputedMeasureNamesItsParts();
    void licensedWordingIsSaid();
    void theClinicsOwnIsMarked();
    void aLevelIsWrittenWithTheMeasureItIsOf();
    void whatIsFromMemoryIsSaidTwice();
    void betterAndWorseMayDiffer();
    void aConditionIsWrittenInItsWords();
    void markupInATextIsShownAsText();
    void everyMeasureOfTheCatalogueHasItsPage();
};

void TestHandbook::whatHasNothingToSayIsLeftOut()
{
    const Handbook said = page(walk());
    QCOMPARE(said.caution, u"Walk beside and a little behind."_s);
    QCOMPARE(lines(said, u"What for"_s), QStringList{u"How fast someone walks."_s});
    QCOMPARE(lines(said, u"Unable means"_s), QStringList{u"no step without being held."_s});
    for (const handbook::Part& part : said.parts) {
        QVERIFY(part.heading != u"Equipment"_s && part.heading != u"Wording"_s);
        QVERIFY2(!part.lines.isEmpty() && !part.lines.contains(QString()), qPrintable(part.heading));
    }
}

void TestHandbook::strictnessIsSaidInWords()
{
    const QStringList said = handbook::matchingWords(walk(), book());
    QVERIFY(said.contains(u"Must be recorded at both visits and be the same: walking aid."_s));
    QVERIFY(
        said.contains(u"Where both are recorded, must be the same; not recorded is a caution: footwear."_s));
    QVERIFY(said.contains(u"A difference is a caution: timed distance."_s));
    catalogue::Measure free = walk();
    free.conditions.clear();
    QCOMPARE(lines(page(free), u"To compare"_s), QStringList{u"No condition is asked for."_s});
}

void TestHandbook::aConditionOfOnePopulationNamesIt()
{
    const QString said = handbook::matchingWords(walk(), book()).join(u' ');
    const QString parkinson = book().population(u"parkinson"_s)->title;
    QVERIFY2(said.contains(u"In %1 only, must be recorded at both visits and be the same: "_s.arg(parkinson)),
             qPrintable(said));
}

void TestHandbook::theResultSaysRangeStepAndDirection()
{
    const QStringList speed = lines(page(walk()), u"Result"_s);
    QCOMPARE(speed.first(), u"From 0.00 to 3.50 m/s, in steps of 0.01."_s);
    QVERIFY(speed.contains(u"Higher is better."_s));
    QVERIFY(speed.contains(u"Recorded once, without a side."_s));
    const QStringList grade = lines(page(*book().measure(u"finger-nose"_s)), u"Result"_s);
    QCOMPARE(grade.first(), u"A grade from 0 to 4."_s);
    QVERIFY(grade.contains(u"0 is best, 4 is worst."_s));
    QVERIFY(grade.contains(u"Recorded right and left."_s));
    QVERIFY(
        lines(page(*book().measure(u"cadence"_s)), u"Result"_s).contains(u"Neither direction is better."_s));
}

void TestHandbook::trialsSayWhichCounts()
{
    const Handbook peg = page(*book().measure(u"nine-hole-peg"_s));
    QCOMPARE(lines(peg, u"Trials"_s), QStringList{u"2; their mean counts."_s});
    QCOMPARE(lines(peg, u"Cap"_s),
             QStringList{u"A trial is stopped at 300.0 s; that it was reached is recorded on its own."_s});
    catalogue::Measure computed = walk();
    computed.computed = {catalogue::Computing::Speed, {u"ten-metre-walk-time-comfortable"_s}};
    QVERIFY(lines(page(computed), u"Trials"_s).isEmpty());
}

void TestHandbook::aComputedMeasureNamesItsParts()
{
    catalogue::Measure speed = walk();
    speed.computed = {catalogue::Computing::Speed, {u"ten-metre-walk-time-comfortable"_s}};
    const Handbook said = page(speed);
    QCOMPARE(lines(said, u"Worked out"_s).first(),
             u"The timed distance over the time of “10-metre walk time: comfortable pace”."_s);
    QCOMPARE(said.related, QStringList{u"ten-metre-walk-time-comfortable"_s});

    catalogue::Catalogue with = book();
    for (catalogue::Measure& measure : with.measures) {
        if (measure.id == speed.id)
            measure.computed = speed.computed;
    }
    const Handbook part = handbook::handbook(*with.measure(u"ten-metre-walk-time-comfortable"_s), with, {});
    QCOMPARE(part.related, QStringList{speed.id});
}

void TestHandbook::licensedWordingIsSaid()
{
    catalogue::Measure berg = *book().measure(u"berg-balance"_s);
    berg.hasLicensedWording = true;
    QVERIFY(lines(page(berg), u"Wording"_s).first().contains(u"belongs to its owners"_s));
}

void TestHandbook::theClinicsOwnIsMarked()
{
    catalogue::Measure own = walk();
    own.isOwn = true;
    QVERIFY(page(own).place.endsWith(u"the clinic's own"_s));
    catalogue::Threshold threshold = row();
    threshold.isOwn = true;
    QCOMPARE(handbook::originWords(threshold, book()), u"somebody-2001 (the clinic's own)"_s);
}

void TestHandbook::aLevelIsWrittenWithTheMeasureItIsOf()
{
    catalogue::Threshold banded = row();
    banded.bandOf = u"gait-speed-comfortable"_s;
    banded.bandLow = 0.4;
    banded.bandHigh = 0.8;
    const QString people = book().population(u"parkinson"_s)->title;
    QCOMPARE(handbook::peopleWords(banded, book(), {}), people + u", 0.40 to under 0.80 m/s"_s);
    banded.bandHighIncluded = true;
    QCOMPARE(handbook::peopleWords(banded, book(), {}), people + u", 0.40 to 0.80 m/s"_s);
    banded.bandOf = u"berg-balance"_s;
    QVERIFY(
        handbook::detailWords(banded, book(), {}).first().contains(u"level of: Berg balance scale: total"_s));
}

void TestHandbook::whatIsFromMemoryIsSaidTwice()
{
    catalogue::Threshold remembered = row();
    QVERIFY(!handbook::originWords(remembered, book()).contains(u"memory"_s));
    remembered.checked = catalogue::Checked::Memory;
    QCOMPARE(handbook::originWords(remembered, book()), u"somebody-2001, from memory"_s);
    QVERIFY(handbook::detailWords(remembered, book(), {})
                .contains(u"From memory: not read in the source. Check it before you rely on it."_s));
}

void TestHandbook::betterAndWorseMayDiffer()
{
    catalogue::Threshold uneven = row();
    QCOMPARE(handbook::valueWords(uneven, walk(), {}), u"0.18 m/s"_s);
    uneven.decline = 0.2;
    QCOMPARE(handbook::valueWords(uneven, walk(), {}), u"0.18 m/s better, 0.20 m/s worse"_s);
}

void TestHandbook::aConditionIsWrittenInItsWords()
{
    const auto real = catalogue::readCatalogue(u":/catalogue"_s);
    QVERIFY(real);
    catalogue::Threshold helped = row();
    helped.condition = {u"assistance"_s, {u"none"_s, u"supervision"_s}};
    QVERIFY2(handbook::detailWords(helped, *real, {}).first().contains(u"none or supervision"_s),
             qPrintable(handbook::detailWords(helped, *real, {}).first()));
}

void TestHandbook::markupInATextIsShownAsText()
{
    catalogue::Measure own = walk();
    own.title = u"Stance <b>&%1"_s;
    own.how = u"<img src=x>%5"_s;
    const QString shown = handbook::html(page(own), book(), QPalette());
    QVERIFY(shown.contains(u"Stance &lt;b&gt;&amp;%1"_s));
    QVERIFY(shown.contains(u"&lt;img src=x&gt;%5"_s));
}

void TestHandbook::everyMeasureOfTheCatalogueHasItsPage()
{
    const auto real = catalogue::readCatalogue(u":/catalogue"_s);
    QVERIFY(real);
    for (const catalogue::Measure& measure : real->measures) {
        const Handbook said = handbook::handbook(measure, *real, {});
        for (const QString& heading : {u"How"_s, u"Result"_s, u"Unable means"_s, u"To compare"_s})
            QVERIFY2(!lines(said, heading).isEmpty(), qPrintable(measure.id + u": "_s + heading));
        for (const handbook::Part& part : said.parts)
            QVERIFY2(!part.lines.join(u' ').contains(u".."_s), qPrintable(measure.id));
        for (const QString& id : said.related)
            QVERIFY2(real->measure(id) != nullptr, qPrintable(id));
    }
}

HOUSE_TEST(TestHandbook)

} // namespace test_handbook

#include "test_handbook.moc"
