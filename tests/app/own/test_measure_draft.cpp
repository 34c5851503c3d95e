#include "app/own/measure_draft.h"

#include "app/own/own_edits.h"
#include "core/catalogue/own.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

Q_DECLARE_METATYPE(own::MeasureField)

namespace test_measure_draft
{

using clinic_desk::book;
using own::MeasureDraft;
using own::MeasureField;

MeasureDraft stairs()
{
    MeasureDraft draft = own::newMeasure(book());
    draft.typed[MeasureField::Title] = u" Ten steps up "_s;
    draft.typed[MeasureField::Lowest] = u"1"_s;
    draft.typed[MeasureField::Highest] = u"120"_s;
    draft.typed[MeasureField::Step] = u"0,1"_s;
    draft.typed[MeasureField::Better] = u"lower"_s;
    draft.typed[MeasureField::Rule] = u"best"_s;
    draft.typed[MeasureField::Trials] = u"3"_s;
    draft.typed[MeasureField::Cap] = u"60"_s;
    draft.typed[MeasureField::Purpose] = u"Shows strength and balance on stairs."_s;
    draft.typed[MeasureField::Position] = u"Standing at the foot of the stairs."_s;
    draft.typed[MeasureField::How] = u"Ten steps of 17 cm, as fast as is safe, one hand near the rail."_s;
    draft.typed[MeasureField::UnableMeans] = u"Fewer than ten steps."_s;
    draft.conditions[u"aid"_s] = u"hard"_s;
    draft.conditions[u"footwear"_s] = u"ifRecorded"_s;
    return draft;
}

MeasureDraft choice(const QString& words)
{
    MeasureDraft draft = stairs();
    draft.typed[MeasureField::Kind] = u"choice"_s;
    draft.typed[MeasureField::Words] = words;
    return draft;
}

class TestMeasureDraft : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsTypedBecomesTheMeasure();
    void theReaderOfCataloguesTakesIt();
    void everyFaultHasItsSentence_data();
    void everyFaultHasItsSentence();
    void anotherKindKeepsWhatWasTyped();
    void gradesHaveWordsForEveryStepOrNone();
    void aRewordedAnswerKeepsItsKey();
    void aMeasureOfItsOwnIsNotChangedByBeingOpened();
    void aTakenTitleIsSaid();
};

void TestMeasureDraft::whatIsTypedBecomesTheMeasure()
{
    const auto [measure, wrong] = own::checked(stairs(), book());
    QVERIFY(wrong.empty());
    QCOMPARE(measure.id, u"own-ten-steps-up"_s);
    QCOMPARE(measure.title, u"Ten steps up"_s);
    QCOMPARE(measure.unit, values::Unit::Second);
    QCOMPARE(measure.step, std::optional(0.1));
    QCOMPARE(measure.trials, 3);
    QCOMPARE(measure.rule, catalogue::TrialRule::Best);
    QCOMPARE(measure.cap, std::optional(60.0));
    QCOMPARE(measure.better, catalogue::Direction::LowerIsBetter);
    QVERIFY(measure.isOwn);
    const std::vector<catalogue::ConditionRule> rules = {
        {u"aid"_s, catalogue::Strictness::Hard, {}}, {u"footwear"_s, catalogue::Strictness::IfRecorded, {}}};
    QCOMPARE(measure.conditions, rules);
}

void TestMeasureDraft::theReaderOfCataloguesTakesIt()
{
    for (const MeasureDraft& draft : {stairs(), choice(u"steady\nunsteady"_s)}) {
        const auto [measure, wrong] = own::checked(draft, book());
        QVERIFY(wrong.empty());
        const auto read =
            catalogue::ownFrom(catalogue::written(own::with(catalogue::Own(), measure)), u"own"_s, book());
        QVERIFY2(read, read ? "" : qPrintable(read.error().what.english()));
        QCOMPARE(read->measures.front().title, measure.title);
        QCOMPARE(read->measures.front().options, measure.options);
        QCOMPARE(read->measures.front().conditions, measure.conditions);
    }
}

void TestMeasureDraft::everyFaultHasItsSentence_data()
{
    QTest::addColumn<MeasureField>("field");
    QTest::addColumn<QString>("typed");
    QTest::newRow("no title") << MeasureField::Title << u" "_s;
    QTest::newRow("words for a number") << MeasureField::Lowest << u"zero"_s;
    QTest::newRow("not finite") << MeasureField::Highest << u"inf"_s;
    QTest::newRow("range upside down") << MeasureField::Highest << u"1"_s;
    QTest::newRow("step of nothing") << MeasureField::Step << u"0"_s;
    QTest::newRow("step wider than the range") << MeasureField::Step << u"500"_s;
    QTest::newRow("no direction") << MeasureField::Better << QString();
    QTest::newRow("half a trial") << MeasureField::Trials << u"2.5"_s;
    QTest::newRow("too many trials") << MeasureField::Trials << u"99"_s;
    QTest::newRow("cap beyond the range") << MeasureField::Cap << u"121"_s;
    QTest::newRow("cap of nothing") << MeasureField::Cap << u"0"_s;
    QTest::newRow("unit of another kind") << MeasureField::Unit << u"m"_s;
    QTest::newRow("unknown section") << MeasureField::Section << u"nowhere"_s;
    QTest::newRow("not what for") << MeasureField::Purpose << QString();
    QTest::newRow("no position") << MeasureField::Position << u" "_s;
    QTest::newRow("not how") << MeasureField::How << QString();
    QTest::newRow("not what unable means") << MeasureField::UnableMeans << QString();
}

void TestMeasureDraft::everyFaultHasItsSentence()
{
    QFETCH(MeasureField, field);
    QFETCH(QString, typed);
    MeasureDraft draft = stairs();
    draft.typed[field] = typed;
    const auto wrong = own::checked(draft, book()).wrong;
    QCOMPARE(wrong.size(), size_t(1));
    QVERIFY(wrong.contains(field));
    QVERIFY(wrong.at(field).endsWith(u'.'));
    QCOMPARE(draft.typed[field], typed);
}

void TestMeasureDraft::anotherKindKeepsWhatWasTyped()
{
    MeasureDraft draft = choice(u"steady\nunsteady"_s);
    const auto [measure, wrong] = own::checked(draft, book());
    QVERIFY(wrong.empty());
    QVERIFY(!measure.lowest && !measure.step && !measure.cap);
    QCOMPARE(measure.trials, 1);
    QCOMPARE(measure.options.size(), size_t(2));
    draft.typed[MeasureField::Kind] = u"duration"_s;
    QCOMPARE(own::checked(draft, book()).measure.highest, std::optional(120.0));
}

void TestMeasureDraft::gradesHaveWordsForEveryStepOrNone()
{
    MeasureDraft draft = stairs();
    draft.typed[MeasureField::Kind] = u"grade"_s;
    draft.typed[MeasureField::Lowest] = u"0"_s;
    draft.typed[MeasureField::Highest] = u"2"_s;
    draft.typed[MeasureField::Step] = u"nonsense that has no use here"_s;
    QVERIFY(own::checked(draft, book()).wrong.empty());
    draft.typed[MeasureField::Words] = u"none\nslight"_s;
    QVERIFY(own::checked(draft, book()).wrong.contains(MeasureField::Words));
    draft.typed[MeasureField::Words] = u"none\nslight\n\nmarked\n"_s;
    const auto [measure, wrong] = own::checked(draft, book());
    QVERIFY(wrong.empty());
    QCOMPARE(measure.options[2], (catalogue::Option{u"2"_s, u"marked"_s}));
    draft.typed[MeasureField::Highest] = u"40"_s;
    QVERIFY(own::checked(draft, book()).wrong.contains(MeasureField::Highest));
}

void TestMeasureDraft::aRewordedAnswerKeepsItsKey()
{
    MeasureDraft draft = own::draftOf(own::checked(choice(u"steady\nunsteady\nfalls"_s), book()).measure);
    draft.typed[MeasureField::Words] = u"steady\nsways\nfalls"_s;
    const auto options = own::checked(draft, book()).measure.options;
    QCOMPARE(options[1], (catalogue::Option{u"unsteady"_s, u"sways"_s}));
    draft.typed[MeasureField::Words] = u"falls\nsteady\nunsteady"_s;
    QCOMPARE(own::checked(draft, book()).measure.options[0].key, u"falls"_s);
    draft.typed[MeasureField::Words] = u"steady\nSteady!"_s;
    QVERIFY(own::checked(draft, book()).wrong.contains(MeasureField::Words));
}

void TestMeasureDraft::aMeasureOfItsOwnIsNotChangedByBeingOpened()
{
    const auto measure = own::checked(stairs(), book()).measure;
    const MeasureDraft again = own::draftOf(measure);
    QVERIFY(!again.isChanged());
    catalogue::Catalogue more = book();
    more.measures.push_back(measure);
    const auto [same, wrong] = own::checked(again, more);
    QVERIFY(wrong.empty());
    QCOMPARE(same.id, measure.id);
    QCOMPARE(same.conditions, measure.conditions);
}

void TestMeasureDraft::aTakenTitleIsSaid()
{
    MeasureDraft draft = stairs();
    draft.typed[MeasureField::Title] = book().measure(u"timed-up-and-go"_s)->title.toLower();
    QVERIFY(own::checked(draft, book()).wrong.contains(MeasureField::Title));
}

HOUSE_TEST(TestMeasureDraft)

} // namespace test_measure_draft

#include "test_measure_draft.moc"
