#include "core/letters/plain_page.h"

#include "core/catalogue/reader.h"
#include "core/letters/readability.h"
#include "tests/core/letters/letter_material.h"
#include "tests/support/test_support.h"

namespace test_plain_page
{

using namespace letter_material;

catalogue::Catalogue plainBook()
{
    catalogue::Catalogue made = book();
    for (catalogue::Measure& measure : made.measures)
        measure.plainly = u"how well you do "_s + measure.id;
    return made;
}

QString toldOf(const Draft& letter)
{
    return plainSentences(letter.made(), plainBook(), {}).join(u'\n');
}

class TestPlainPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aChangeBeyondErrorIsToldWithBothNumbersAndDays()
    {
        const QString told = toldOf(material());
        QVERIFY2(told.contains(
                     u"How well you do gait-speed-comfortable: 0.91 metres per second now, 0.62 metres per "
                     "second on 12 March 2026. This has become better, by more than chance can explain."_s),
                 qPrintable(told));
    }

    void aDifferenceWithinErrorCouldBeChance()
    {
        Draft letter = material();
        letter.visits.back().findings[4].value = Quantity{0.65, Unit::MetrePerSecond};
        const QString told = toldOf(letter);
        QVERIFY2(told.contains(
                     u"0.65 metres per second now, 0.62 metres per second on 12 March 2026. The difference "
                     "is small enough to be chance."_s),
                 qPrintable(told));
    }

    void whatCouldNotBeDoneIsSaidWithoutANumber()
    {
        Draft letter = material();
        letter.visits.back().findings[5].value = Missing{values::Absence::Unable, u"felt unsafe"_s};
        const QString told = toldOf(letter);
        QVERIFY2(
            told.contains(u"How well you do romberg-eyes-closed: you could not do this at this visit. On 12 "
                          "March 2026 it was 20"_s),
            qPrintable(told));
    }

    void anotherWalkingAidIsSaidToPreventTheComparison()
    {
        Draft letter = material();
        letter.visits.front().conditions[u"aid"_s] = u"none"_s;
        QVERIFY(toldOf(letter).contains(
            u"cannot be compared with earlier results, because the test was not done in "
            "the same way."_s));
    }

    void theFirstVisitComparesNothing()
    {
        Draft letter = material();
        letter.visits.erase(letter.visits.begin());
        const QString told = toldOf(letter);
        QVERIFY2(told.contains(u"0.91 metres per second. This is your first result."_s), qPrintable(told));
        QVERIFY(!told.contains(u"better"_s));
    }

    void whatWasSeenIsToldInOneSentenceEachWay()
    {
        Draft letter = material();
        letter.visits.front().findings[1].value = Grade{0};
        const QString told = toldOf(letter);
        QVERIFY2(told.contains(u"These have become less good: how well you do finger-nose, on the left."_s),
                 qPrintable(told));
        QVERIFY(told.contains(
            u"These are affected, much as before: how well you do finger-nose, on the right."_s));
        QVERIFY(told.contains(u"1 other test was as it should be."_s));
    }

    void whatAllOfItComesToIsCounted()
    {
        const auto told = [](const std::vector<std::pair<int, int>>& grades) {
            catalogue::Catalogue catalogue = plainBook();
            Draft letter = material();
            letter.visits.front().findings.clear();
            letter.visits.back().findings.clear();
            for (size_t i = 0; i < grades.size(); ++i) {
                catalogue::Measure measure = *catalogue.measure(u"finger-nose"_s);
                measure.id = measure.plainly = u"thing %1"_s.arg(i);
                measure.hasSides = false;
                catalogue.measures.push_back(measure);
                letter.visits.front().findings.push_back(finding(measure.id, Grade{grades[i].first}));
                letter.visits.back().findings.push_back(finding(measure.id, Grade{grades[i].second}));
            }
            return plainSentences(letter.made(), catalogue, {});
        };
        QCOMPARE(told({{1, 1}}).front(), u"No result is clearly better or less good than before."_s);
        QCOMPARE(told({{1, 3}}).front(), u"1 result is less good than before."_s);
        QCOMPARE(told({{3, 1}}).front(), u"1 result is better than before."_s);
        QCOMPARE(told({{1, 3}, {1, 3}, {3, 1}, {3, 1}}).front(),
                 u"2 results are less good than before. 2 results are better than before."_s);
        std::vector<std::pair<int, int>> six(6, {1, 3});
        QVERIFY2(told(six)[1].endsWith(u"thing 4; thing 5."_s), qPrintable(told(six)[1]));
        six.emplace_back(1, 3);
        QVERIFY2(told(six)[1].endsWith(u"thing 5; 1 more."_s), qPrintable(told(six)[1]));
    }

    void theSameNumberIsSaidToBeTheSame()
    {
        Draft letter = material();
        letter.visits.back().findings[4] = letter.visits.front().findings[4];
        QVERIFY2(
            toldOf(letter).contains(u"0.62 metres per second now, 0.62 metres per second on 12 March 2026. "
                                    "That is the same."_s),
            qPrintable(toldOf(letter)));
    }

    void whatHasNoPlainWordsOrIsLeftOutIsNotTold()
    {
        Draft letter = material();
        QCOMPARE(plainSentences(letter.made(), book(), {}), QStringList());
        letter.letter.leftOut = {u"gait-speed-comfortable"_s};
        QVERIFY(!toldOf(letter).contains(u"metres per second"_s));
    }

    /// The words of the catalogue itself, in the sentences they stand in. A reading age of about 12 is what
    /// clinics aim at (common practice, no source).
    void everyMeasureIsNamedInWordsThatATwelveYearOldReads()
    {
        const auto released = catalogue::readCatalogue(u":/catalogue"_s);
        QVERIFY(released);
        QString all;
        for (const catalogue::Measure& measure : released->measures) {
            if (!measure.partOf.isEmpty())
                continue;
            QVERIFY2(!measure.plainly.isEmpty(), qPrintable(measure.id));
            QVERIFY2(measure.shortForm.isEmpty() || !measure.plainly.contains(measure.shortForm),
                     qPrintable(measure.id));
            all += u"This is about %1. "_s.arg(measure.plainly);
        }
        const double age = *readingAge(all, u"en"_s);
        QVERIFY2(age < 12.5, qPrintable(QString::number(age)));
    }
};

HOUSE_TEST(TestPlainPage)

} // namespace test_plain_page

#include "test_plain_page.moc"
