#include "core/telling/row_words.h"
#include "core/telling/wording.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_wording
{

using judging::Comparison;
using records::Conditions;
using records::Side;

const QDate march(2026, 3, 12);
const QDate june(2026, 6, 12);
const QString speed = u"gait-speed-comfortable"_s;
const base::Phrasebook english;
const Conditions recorded = {{u"aid"_s, u"none"_s}, {u"footwear"_s, u"shoes"_s}, {u"medication"_s, u"on"_s}};

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

records::Occasion occasion(const QString& measure, QDate day, values::Value value,
                           const Conditions& conditions)
{
    return {{day.toString(Qt::ISODate)},
            day,
            records::VisitState::Signed,
            examples::finding(measure, std::move(value)),
            conditions,
            {}};
}

Comparison heldValues(const QString& population, const QString& measure, const values::Value& before,
                      const values::Value& now, const Conditions& conditionsBefore = recorded,
                      const Conditions& conditionsNow = recorded)
{
    return judging::comparison(book(), examples::patient(population),
                               occasion(measure, march, before, conditionsBefore),
                               occasion(measure, june, now, conditionsNow), {});
}

Comparison held(const QString& population, const QString& measure, double before, double now,
                const Conditions& conditionsBefore = recorded, const Conditions& conditionsNow = recorded)
{
    const values::Unit unit = book().measure(measure)->unit;
    return heldValues(population, measure, values::Quantity{before, unit}, values::Quantity{now, unit},
                      conditionsBefore, conditionsNow);
}

QString why(const Comparison& comparison)
{
    return telling::why(comparison, book(), english);
}

QStringList arithmetic(const Comparison& comparison)
{
    return telling::arithmetic(comparison, book(), english);
}

QStringList cautions(const Comparison& comparison)
{
    return telling::cautions(comparison, book(), english);
}

class TestWording : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whyShowsTheDifferenceTheLimitAndTheSource_data();
    void whyShowsTheDifferenceTheLimitAndTheSource();
    void whyNamesTheConditionThatDiffersOrIsNotRecorded();
    void whyTellsTheTurn();
    void whySaysWhatIsMissingForAThreshold();
    void withinErrorIsNeverCalledStable();
    void theArithmeticGoesStepByStep();
    void aComputedValueSaysFromWhat();
    void aRowIsWrittenInOneLine();
    void aCliniciansChoiceIsSaidWithWhoWhenAndWhy();
    void eachReasonAgainstARowHasItsWords();
    void cautionsNameWhatSpeaksAgainstTheResult();
    void anImportantChangeHiddenInTheErrorIsSaid();
};

void TestWording::whyShowsTheDifferenceTheLimitAndTheSource_data()
{
    QTest::addColumn<QString>("population");
    QTest::addColumn<QString>("measure");
    QTest::addColumn<double>("before");
    QTest::addColumn<double>("now");
    QTest::addColumn<QString>("sentence");
    const QString pd = u"parkinson"_s;
    QTest::newRow("less")
        << pd << speed << 0.80 << 0.95
        << u"+0.15 m/s against 12-Mar-2026: less than the 0.18 m/s that error alone can explain "
           "(Steffen & Seney 2008, Parkinson disease, n 37), so within error."_s;
    QTest::newRow("equal")
        << pd << speed << 0.80 << 0.62
        << u"−0.18 m/s against 12-Mar-2026: no more than the 0.18 m/s that error alone can explain "
           "(Steffen & Seney 2008, Parkinson disease, n 37), so within error."_s;
    QTest::newRow("more")
        << pd << speed << 0.80 << 1.00
        << u"+0.20 m/s against 12-Mar-2026: more than the 0.18 m/s that error alone can explain "
           "(Steffen & Seney 2008, Parkinson disease, n 37), so better beyond error."_s;
    QTest::newRow("hardly more")
        << pd << speed << 0.80 << 0.9804
        << u"+0.1804 m/s against 12-Mar-2026: more than the 0.1800 m/s that error alone can "
           "explain (Steffen & Seney 2008, Parkinson disease, n 37), so better beyond error."_s;
    QTest::newRow("none")
        << u"older-adults"_s << u"berg-balance"_s << 50.0 << 50.0
        << u"0 points against 12-Mar-2026: less than the 4 points that error alone can explain "
           "(Donoghue & Stokes 2009, Older adults, n 118), so within error."_s;
    QTest::newRow("converted")
        << u"stroke-subacute"_s << u"six-minute-walk"_s << 200.0 << 270.0
        << u"+70 m against 12-Mar-2026: more than the 64.5 m that error alone can explain (Fulk "
           "2008, Stroke, subacute, n 37), so better beyond error. MDC90 54.1 m × 1.96/1.645 "
           "= 64.5 m at 95 %."_s;
    QTest::newRow("memory")
        << pd << u"romberg-eyes-closed"_s << 40.0 << 30.0
        << u"−10.0 s against 12-Mar-2026: less than the 19.0 s that error alone can explain "
           "(Steffen & Seney 2008, Parkinson disease, n 37, from memory), so within error."_s;
    QTest::newRow("percent")
        << u"multiple-sclerosis"_s << u"timed-25-foot-walk"_s << 6.2 << 7.5
        << u"+1.3 s against 12-Mar-2026: more than the 1.24 s that error alone can explain "
           "(Schwid 2002, Multiple sclerosis, n 63), so worse beyond error."_s;
}

void TestWording::whyShowsTheDifferenceTheLimitAndTheSource()
{
    QFETCH(QString, population);
    QFETCH(QString, measure);
    QFETCH(double, before);
    QFETCH(double, now);
    QTEST(why(held(population, measure, before, now)), "sentence");
}

void TestWording::whyNamesTheConditionThatDiffersOrIsNotRecorded()
{
    const auto whyWith = [](const Conditions& before, const Conditions& now) {
        return why(held(u"stroke"_s, speed, 0.8, 0.9, before, now));
    };
    QCOMPARE(whyWith({{u"aid"_s, u"none"_s}}, {{u"aid"_s, u"stick"_s}}),
             u"Not comparable: walking aid was “none”, now “stick”."_s);
    QCOMPARE(whyWith({}, {{u"aid"_s, u"stick"_s}}),
             u"Not comparable: walking aid was not recorded on 12-Mar-2026."_s);
    QCOMPARE(whyWith({{u"aid"_s, u"stick"_s}}, {}),
             u"Not comparable: walking aid was not recorded on 12-Jun-2026."_s);
    QCOMPARE(whyWith({}, {}), u"Not comparable: walking aid was not recorded at either visit."_s);
    QCOMPARE(whyWith({{u"aid"_s, u"none"_s}, {u"footwear"_s, u"shoes"_s}},
                     {{u"aid"_s, u"%1 %2"_s}, {u"footwear"_s, u"barefoot"_s}}),
             u"Not comparable: walking aid was “none”, now “%1 %2”; footwear was “shoes”, now “barefoot”."_s);
    QCOMPARE(why(held(u"stroke"_s, u"ten-metre-walk-time-comfortable"_s, 10, 12,
                      {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}},
                      {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"6"_s}})),
             u"Not comparable: timed distance was “10 m”, now “6 m”."_s);
}

void TestWording::whyTellsTheTurn()
{
    const values::Value done = values::Quantity{0.5, values::Unit::MetrePerSecond};
    QCOMPARE(
        why(heldValues(u"stroke"_s, speed, done, examples::unable(u"fatigue"_s))),
        u"Done on 12-Mar-2026 (0.50 m/s); tried and unable on 12-Jun-2026, under matching conditions."_s);
    QCOMPARE(
        why(heldValues(u"stroke"_s, speed, examples::unable(), done)),
        u"Tried and unable on 12-Mar-2026; done on 12-Jun-2026 (0.50 m/s), under matching conditions."_s);
    QCOMPARE(why(heldValues(u"stroke"_s, speed, examples::unable(), examples::unable())),
             u"Tried and unable at both visits; there is no number to compare."_s);
}

void TestWording::whySaysWhatIsMissingForAThreshold()
{
    QCOMPARE(
        why(held(u"cerebellar-ataxia"_s, u"sara"_s, 12, 14.5)),
        u"+2.5 points against 12-Mar-2026. No published threshold for this population (Cerebellar ataxia)."_s);
    QCOMPARE(why(held({}, u"sara"_s, 12, 14.5)), u"+2.5 points against 12-Mar-2026. No published threshold "
                                                 u"can be chosen: the population is not recorded for "
                                                 "this patient."_s);
    QCOMPARE(why(held(u"stroke"_s, u"ten-metre-walk-time-comfortable"_s, 10, 12,
                      {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}},
                      {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}})),
             u"+2.00 s against 12-Mar-2026. No published threshold fits: those for this population (Stroke) "
             u"ask for "
             "another level, hand or condition than is recorded."_s);
    QCOMPARE(
        why(held(u"stroke"_s, u"cadence"_s, 90, 100)),
        u"+10 steps/min against 12-Mar-2026. No published threshold: neither direction of this test is better."_s);
    QCOMPARE(
        why(heldValues(u"stroke"_s, u"finger-nose"_s, values::Grade{3}, values::Grade{2})),
        u"A grade is compared by its steps: marked (3) on 12-Mar-2026, clear (2) on 12-Jun-2026, so 1 step "
        u"better. One step may be the examiner's eye (common practice, no source)."_s);
    QCOMPARE(
        why(heldValues(u"stroke"_s, u"pronator-drift"_s, values::Choice{u"none"_s},
                       values::Choice{u"pronation"_s})),
        u"A word is compared as it is: “none” on 12-Mar-2026, “pronation and sinking” on 12-Jun-2026, so "
        u"changed."_s);
}

void TestWording::withinErrorIsNeverCalledStable()
{
    const Comparison within = held(u"parkinson"_s, speed, 0.8, 0.9);
    const QString all = why(within) + arithmetic(within).join(u' ') + cautions(within).join(u' ') +
                        telling::written(within.verdict, english);
    for (const QString& word : {u"stable"_s, u"normal"_s, u"unchanged"_s, u"no change"_s, u"same"_s})
        QVERIFY2(!all.contains(word, Qt::CaseInsensitive), qPrintable(all));
}

void TestWording::theArithmeticGoesStepByStep()
{
    QCOMPARE(
        arithmetic(held(u"stroke-subacute"_s, u"six-minute-walk"_s, 200, 260)),
        (QStringList{
            u"Difference: 260 − 200 = +60 m (12-Jun-2026 against 12-Mar-2026)"_s,
            u"Row: of the patient's population, test–retest, interval not known, read in the source, n 37"_s,
            u"Threshold: 54.1 m at 90 % confidence (stated)"_s,
            u"MDC90 54.1 m × 1.96/1.645 = 64.5 m at 95 %"_s, u"60 m < 64.5 m: within error"_s}));
    QCOMPARE(
        arithmetic(held(u"multiple-sclerosis"_s, u"timed-25-foot-walk"_s, 5, 6)),
        (QStringList{
            u"Difference: 6.0 − 5.0 = +1.0 s (12-Jun-2026 against 12-Mar-2026)"_s,
            u"Row: of the patient's population, test–retest, interval not known, read in the source, n 63"_s,
            u"Threshold: 20 %, as published"_s, u"Of the value 5.0 s at the reference visit: 1.0 s"_s,
            u"1.0 s = 1.0 s: within error"_s}));
    QCOMPARE(
        arithmetic(held(u"multiple-sclerosis"_s, u"timed-up-and-go"_s, 10, 13.1)),
        (QStringList{
            u"Difference: 13.1 − 10.0 = +3.1 s (12-Jun-2026 against 12-Mar-2026)"_s,
            u"Row: of the patient's population, test–retest, interval not known, read in the source, n 60"_s,
            u"Threshold: 30 % at 95 % confidence (stated)"_s,
            u"Of the value 10.0 s at the reference visit: 3.0 s"_s, u"3.1 s > 3.0 s: worse beyond error"_s}));
    QCOMPARE(arithmetic(held(u"cerebellar-ataxia"_s, u"sara"_s, 12, 14)),
             (QStringList{u"Difference: 14.0 − 12.0 = +2.0 points (12-Jun-2026 against 12-Mar-2026)"_s}));
}

void TestWording::aComputedValueSaysFromWhat()
{
    Comparison comparison = held(u"parkinson"_s, speed, 0.8, 0.9);
    comparison.reference.computedFrom = base::said("10 m in 12.50 s");
    QCOMPARE(arithmetic(comparison).first(), u"12-Mar-2026: 0.80 m/s from 10 m in 12.50 s"_s);
}

void TestWording::aRowIsWrittenInOneLine()
{
    const auto line = [](const QString& id) {
        const auto row = std::ranges::find(book().thresholds, id, &catalogue::Threshold::id);
        return telling::written(*row, book(), english);
    };
    QCOMPARE(
        line(u"speed-pd"_s),
        u"0.18 m/s; Steffen & Seney 2008, Parkinson disease, n 37; test–retest; 95 % (stated); read in the source"_s);
    QCOMPARE(line(u"up-ms"_s),
             u"23 % for the better, 30 % for the worse; review, Multiple sclerosis, n 60; test–retest; "
             "95 % (stated); read in the source"_s);
    QCOMPARE(line(u"speed-important"_s),
             u"0.16 m/s; Tilson 2010, Stroke, subacute, n 283; important change; stated; "
             "read in the source"_s);
    catalogue::Threshold noted = book().thresholds.front();
    noted.note = u"An erratum exists."_s;
    QVERIFY(telling::written(noted, book(), english).endsWith(u"; read in the source. An erratum exists."_s));
    QVERIFY(line(u"romberg-pd"_s).contains(u", n 37, from memory; "_s));
}

void TestWording::aCliniciansChoiceIsSaidWithWhoWhenAndWhy()
{
    auto two = book();
    auto other = *std::ranges::find(two.thresholds, u"speed-pd"_s, &catalogue::Threshold::id);
    other.id = u"other"_s;
    other.improvement = other.decline = 0.09;
    other.checked = catalogue::Checked::Memory;
    two.thresholds.push_back(other);
    records::Patient patient = examples::patient(u"parkinson"_s);
    const auto chosen = [&](const QString& threshold) {
        patient.choices.push_back(
            {speed, threshold, u"same walkway"_s, u"A. Moor"_s, QDateTime(march, QTime(12, 0), Qt::UTC)});
        return judging::comparison(
            two, patient,
            occasion(speed, march, values::Quantity{0.8, values::Unit::MetrePerSecond}, recorded),
            occasion(speed, june, values::Quantity{0.9, values::Unit::MetrePerSecond}, recorded), {});
    };
    const Comparison held = chosen(u"other"_s);
    QVERIFY(held.isChosen);
    QCOMPARE(
        telling::why(held, two, english),
        u"+0.10 m/s against 12-Mar-2026: more than the 0.09 m/s that error alone can explain (Steffen & "
        u"Seney "
        "2008, Parkinson disease, n 37, from memory; chosen by A. Moor on 12-Mar-2026 (“same walkway”)), so "
        "better beyond error."_s);
    QCOMPARE(telling::whyThisRow(held, two, english),
             u"chosen by A. Moor on 12-Mar-2026 (“same walkway”), of the patient's population, test–retest, "
             "interval not known, from memory, n 37"_s);
    QCOMPARE(telling::whyNotUsed(held.notUsed.front(), two, english),
             u"the rule would come to it first, but another row was chosen"_s);

    const Comparison misfit = chosen(u"berg-pd"_s);
    QVERIFY(!misfit.isChosen);
    QCOMPARE(misfit.threshold->row.id, u"speed-pd"_s);
    QCOMPARE(
        telling::cautions(misfit, two, english).front(),
        u"The row that A. Moor chose for this patient does not fit this comparison; the rule decided."_s);

    const Comparison rule = chosen({});
    QVERIFY(!rule.choice);
    QCOMPARE(rule.threshold->row.id, u"speed-pd"_s);
    QCOMPARE(telling::whyNotUsed(rule.notUsed.front(), two, english), u"from memory"_s);
}

void TestWording::eachReasonAgainstARowHasItsWords()
{
    QStringList words;
    for (int reason = 0; reason <= int(judging::WhyNot::NoLimit); ++reason)
        words += telling::whyNotUsed({book().thresholds.front(), judging::WhyNot(reason)}, book(), english);
    QCOMPARE(words.removeDuplicates(), 0);
    QVERIFY(!words.contains(QString()));
}

void TestWording::cautionsNameWhatSpeaksAgainstTheResult()
{
    QCOMPARE(cautions(held(u"parkinson"_s, speed, 0.8, 0.9)), QStringList());
    QCOMPARE(cautions(held(u"parkinson"_s, u"berg-balance"_s, 50, 56)),
             QStringList{u"At the top of the scale: further improvement cannot show."_s});
    QCOMPARE(cautions(held(u"cerebellar-ataxia"_s, u"sara"_s, 2, 0)),
             QStringList{u"At the bottom of the scale: further improvement cannot show."_s});
    QCOMPARE(cautions(held(u"stroke"_s, u"tandem-steps"_s, 2, 0)),
             QStringList{u"At the bottom of the scale: further decline cannot show."_s});
    QCOMPARE(
        cautions(held(u"parkinson"_s, u"romberg-eyes-closed"_s, 20, 60)),
        (QStringList{u"On 12-Jun-2026 the trial was stopped at 60.0 s: anything beyond cannot show."_s,
                     u"The threshold is from memory; look it up in its source before you rely on it."_s}));
    QCOMPARE(
        cautions(held(u"stroke-chronic"_s, u"timed-up-and-go"_s, 20, 30)),
        QStringList{u"The threshold is of a wider group (Stroke) than is recorded for this patient (Stroke, "
                    "chronic)."_s});
    const auto walkedAfter = [](const QString& population, int days) {
        records::Patient patient = examples::patient(population);
        patient.onset = june.addDays(-days);
        const auto seconds = [](double number) { return values::Quantity{number, values::Unit::Second}; };
        return cautions(judging::comparison(book(), patient,
                                            occasion(u"timed-up-and-go"_s, march, seconds(20), recorded),
                                            occasion(u"timed-up-and-go"_s, june, seconds(30), recorded), {}));
    };
    const QString wider =
        u"The threshold is of a wider group (Stroke) than is recorded for this patient (Stroke, "
        "subacute)."_s;
    QCOMPARE(walkedAfter(u"stroke-subacute"_s, 183), QStringList{wider});
    QCOMPARE(walkedAfter(u"stroke-subacute"_s, 8), QStringList{wider});
    QVERIFY(walkedAfter(u"stroke-subacute"_s, 7).front().contains(u"stroke-acute"_s));
    QVERIFY(walkedAfter(u"stroke-subacute"_s, 184).front().contains(u"which is Stroke, chronic"_s));
    QCOMPARE(walkedAfter(u"stroke-subacute"_s, 203).front(),
             u"Stroke, subacute is recorded for this patient, but this visit is 203 days after the onset, "
             u"which is "
             "Stroke, chronic: the threshold is that of the recorded stage."_s);
    Conditions barefoot = recorded;
    barefoot[u"footwear"_s] = QString();
    barefoot[u"distance_m"_s] = u"6"_s;
    QCOMPARE(cautions(held(u"parkinson"_s, speed, 0.8, 0.9, recorded, barefoot)),
             (QStringList{u"Footwear was not recorded on 12-Jun-2026."_s,
                          u"Timed distance was not recorded on 12-Mar-2026."_s}));
    Comparison unknown = held(u"parkinson"_s, speed, 0.8, 0.9);
    unknown.measure = u"no-such-test"_s;
    QCOMPARE(cautions(unknown), QStringList());
    Comparison draft = held(u"parkinson"_s, speed, 0.8, 0.9);
    draft.reference.state = records::VisitState::Draft;
    QCOMPARE(cautions(draft), QStringList{u"The visit of 12-Mar-2026 is an unsigned draft."_s});
}

void TestWording::anImportantChangeHiddenInTheErrorIsSaid()
{
    // Tilson 2010: 0.16 m/s; Hosoi 2023: 0.21 m/s of error from 0.8 m/s on, 0.11 m/s from 0.4 to 0.8.
    const auto said = [](double before, double now) {
        return cautions(held(u"stroke-subacute"_s, speed, before, now)).value(0);
    };
    QCOMPARE(said(0.9, 1.0), u"A change of 0.16 m/s has been called important (Tilson 2010, Stroke, "
                             u"subacute, n 283); it can lie within the "
                             "error."_s);
    QCOMPARE(said(0.9, 1.08), u"This difference reaches the 0.16 m/s that has been called important (Tilson "
                              u"2010, Stroke, subacute, n 283) "
                              "and still lies within the error."_s);
    QCOMPARE(said(0.6, 0.7),
             u"A change of 0.16 m/s has been called important (Tilson 2010, Stroke, subacute, n 283)."_s);
}

HOUSE_TEST(TestWording)

} // namespace test_wording

#include "test_wording.moc"
