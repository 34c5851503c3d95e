#include "core/records/check.h"
#include "core/records/wording.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <limits>

using namespace Qt::StringLiterals;

namespace test_check
{

using examples::finding;
using records::Side;
using records::wrongWith;
using values::Quantity;
using values::Unit;

const QDate today(2026, 11, 25);

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

QString said(const std::optional<base::Error>& wrong)
{
    return wrong ? wrong->what.english() : QString();
}

QString saidOf(const records::Finding& finding)
{
    return said(wrongWith(finding, book()));
}

values::Value seconds(double number)
{
    return Quantity{number, Unit::Second};
}

QString typed(const QString& text, const QString& measure)
{
    const auto read = records::numberTyped(text, *book().measure(measure));
    return read ? QString::number(*read) : read.error().what.english();
}

class TestCheck : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aFindingIsRefusedInWordsThatSayWhatIsAllowed_data();
    void aFindingIsRefusedInWordsThatSayWhatIsAllowed();
    void whatIsAllowedIsTaken_data();
    void whatIsAllowedIsTaken();
    void aNumberIsReadAsPeopleTypeIt_data();
    void aNumberIsReadAsPeopleTypeIt();
    void everyStepOfTheScaleCanBeTyped();
    void aTotalThatIsNotTheSumOfItsPartsIsRefused();
    void aTimeAtItsCapIsNoMeasurementUnlessTheCapWasReached();
    void zeroNeverStandsForUnable();
    void tapsAreCountedByTheValue();
    void trialsGiveTheValueByTheMeasuresRule();
    void ofASingleTrialTheLastCounts();
    void theValueMustFollowFromTheTrials();
    void aVisitLiesBetweenBirthAndToday();
    void aVisitIsLookedThroughWhole();
    void aTimeKeepsAllItsDigits();
    void aVisitRecordsASideOnce();
    void aVisitKeepsToTheVocabularyOfConditions();
    void aPatientKeepsToHumanRanges();
};

void TestCheck::aFindingIsRefusedInWordsThatSayWhatIsAllowed_data()
{
    QTest::addColumn<records::Finding>("finding");
    QTest::addColumn<QString>("sentence");
    const auto row = [](const char* name, const records::Finding& finding, const QString& sentence) {
        QTest::newRow(name) << finding << sentence;
    };
    const QString berg = u"Berg balance scale: total: 0 to 56 points, whole numbers."_s;
    row("13 of 10 tandem steps", finding(u"tandem-steps"_s, Quantity{13, Unit::Steps}),
        u"Tandem steps achieved of 10: 0 to 10 steps, whole numbers."_s);
    row("56.5 on a whole-point scale", finding(u"berg-balance"_s, Quantity{56.5, Unit::Score}), berg);
    row("12.5 on a whole-point scale", finding(u"berg-balance"_s, Quantity{12.5, Unit::Score}), berg);
    row("a quarter point", finding(u"sara"_s, Quantity{12.25, Unit::Score}),
        u"Scale for the assessment and rating of ataxia: 0 to 40 points, in steps of 0.5."_s);
    row("a negative time", finding(u"timed-up-and-go"_s, seconds(-3)), u"Timed up and go: 2 to 300 s."_s);
    row("no time at all", finding(u"timed-up-and-go"_s, seconds(0)), u"Timed up and go: 2 to 300 s."_s);
    row("not a number", finding(u"timed-up-and-go"_s, seconds(std::numeric_limits<double>::quiet_NaN())),
        u"Timed up and go: 2 to 300 s."_s);
    row("infinite", finding(u"timed-up-and-go"_s, seconds(std::numeric_limits<double>::infinity())),
        u"Timed up and go: 2 to 300 s."_s);
    row("another unit", finding(u"timed-up-and-go"_s, Quantity{12, Unit::Metre}),
        u"Timed up and go is recorded in s."_s);
    row("an unknown measure", finding(u"hopscotch"_s, seconds(3)),
        u"“hopscotch” is not a measure of the catalogue."_s);
    row("no side", finding(u"finger-nose"_s, values::Grade{1}),
        u"Finger to nose is recorded right or left."_s);
    row("a side too many", finding(u"timed-up-and-go"_s, seconds(12), Side::Left),
        u"Timed up and go is recorded once, without a side."_s);
    row("a grade outside", finding(u"finger-nose"_s, values::Grade{5}, Side::Right),
        u"Finger to nose: 0 to 4, whole numbers."_s);
    row("a number for a grade", finding(u"finger-nose"_s, Quantity{1, Unit::One}, Side::Right),
        u"Finger to nose: 0 to 4, whole numbers."_s);
    row("a grade for a number", finding(u"timed-up-and-go"_s, values::Grade{3}),
        u"Timed up and go: 2 to 300 s."_s);
    row("a word that is no option", finding(u"pronator-drift"_s, values::Choice{u"upwards"_s}, Side::Left),
        u"Pronator drift: one of none, pronation and sinking."_s);
    row("not attempted, no reason",
        finding(u"timed-up-and-go"_s, values::Missing{values::Absence::NotAttempted, u"  "_s}),
        u"Timed up and go: not attempted needs a reason."_s);
    records::Finding capless = finding(u"timed-up-and-go"_s, seconds(12));
    capless.capReached = true;
    row("a cap where there is none", capless, u"Timed up and go has no cap to be reached."_s);
    records::Finding many = finding(u"timed-up-and-go"_s, seconds(12));
    many.trials.assign(21, 12.0);
    row("21 trials", many, u"Timed up and go: at most 20 trials."_s);
    records::Finding trial = finding(u"turn-180-steps"_s, Quantity{4, Unit::Steps});
    trial.trials = {4, 4.5};
    row("a trial between the steps", trial, u"Steps to turn 180 degrees: 1 to 30 steps, whole numbers."_s);
    records::Finding noted = finding(u"timed-up-and-go"_s, seconds(12));
    noted.note = QString(4001, u'x');
    row("a note without end", noted, u"Timed up and go, note: at most 4000 characters."_s);
    noted.note = u"line\nand\ttab, then \x1b"_s;
    row("a note with an escape", noted,
        u"Timed up and go, note: character 20 is an invisible control character (U+001B); type the text anew."_s);
    row("a reason that steers",
        finding(u"timed-up-and-go"_s, values::Missing{values::Absence::Refused, u"\u202etired"_s}),
        u"Timed up and go, reason: character 1 is an invisible control character (U+202E); type the text anew."_s);
    records::Finding signs = finding(u"timed-up-and-go"_s, seconds(12));
    signs.signs.fill(u"x"_s, 41);
    row("41 signs", signs, u"Timed up and go: at most 40 signs."_s);
    row("a name of a measure without end", finding(QString(2000, u'm'), seconds(3)),
        u"“%1…” is not a measure of the catalogue."_s.arg(QString(59, u'm')));
    records::Finding refused = finding(u"timed-up-and-go"_s, values::Missing{values::Absence::Refused, {}});
    refused.trials = {12};
    row("did not wish, yet timed", refused,
        u"Timed up and go: trials are kept only of a test that was done or tried."_s);
    records::Finding exception = finding(u"timed-up-and-go"_s, seconds(12));
    exception.exceptions = {{u"start"_s, u"flying"_s}};
    row("an exception outside the vocabulary", exception, u"Start: one of static, moving."_s);
}

void TestCheck::aFindingIsRefusedInWordsThatSayWhatIsAllowed()
{
    QFETCH(records::Finding, finding);
    QFETCH(QString, sentence);
    const auto wrong = wrongWith(finding, book());
    QVERIFY(wrong);
    QCOMPARE(wrong->what.english(), sentence);
    QCOMPARE(wrong->kind, base::ErrorKind::Invalid);
}

void TestCheck::whatIsAllowedIsTaken_data()
{
    QTest::addColumn<records::Finding>("finding");
    QTest::newRow("every step") << finding(u"tandem-steps"_s, Quantity{10, Unit::Steps});
    QTest::newRow("half a point") << finding(u"sara"_s, Quantity{12.5, Unit::Score});
    QTest::newRow("a tenth that binary cannot hold") << finding(u"timed-up-and-go"_s, seconds(0.1 + 12.2));
    QTest::newRow("lost at once") << finding(u"romberg-eyes-closed"_s, seconds(0));
    QTest::newRow("held to the cap") << finding(u"romberg-eyes-closed"_s, seconds(60));
    QTest::newRow("a grade") << finding(u"finger-nose"_s, values::Grade{4}, Side::Left);
    QTest::newRow("a word") << finding(u"pronator-drift"_s, values::Choice{u"pronation"_s}, Side::Right);
    QTest::newRow("unable without a reason") << finding(u"timed-up-and-go"_s, examples::unable());
    QTest::newRow("not asked") << finding(u"timed-up-and-go"_s, values::Missing{});
    records::Finding mean = finding(u"nine-hole-peg"_s, seconds(20.05), Side::Right);
    mean.trials = {20, 20.1};
    QTest::newRow("a mean between the steps") << mean;
    records::Finding tried = finding(u"timed-up-and-go"_s, examples::unable(u"knee gave way"_s));
    tried.trials = {31};
    QTest::newRow("unable at the second trial") << tried;
}

void TestCheck::whatIsAllowedIsTaken()
{
    QFETCH(records::Finding, finding);
    QCOMPARE(saidOf(finding), QString());
}

void TestCheck::aNumberIsReadAsPeopleTypeIt_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<QString>("measure");
    QTest::addColumn<QString>("answer");
    const QString walk = u"ten-metre-walk-time-comfortable"_s;
    const QString walkAllowed = u"10-metre walk time: comfortable pace: 1 to 300 s."_s;
    const QString berg = u"berg-balance"_s;
    const QString bergAllowed = u"Berg balance scale: total: 0 to 56 points, whole numbers."_s;
    const QString sara = u"sara"_s;
    const QString saraAllowed =
        u"Scale for the assessment and rating of ataxia: 0 to 40 points, in steps of 0.5."_s;
    QTest::newRow("point") << u"12.34"_s << walk << u"12.34"_s;
    QTest::newRow("comma") << u"12,34"_s << walk << u"12.34"_s;
    QTest::newRow("spaces around") << u"  9.5 "_s << walk << u"9.5"_s;
    QTest::newRow("bare fraction") << u".5"_s << sara << u"0.5"_s;
    QTest::newRow("still typing") << u"12."_s << walk << u"12"_s;
    QTest::newRow("nothing") << QString() << walk << walkAllowed;
    QTest::newRow("a word") << u"ten"_s << walk << walkAllowed;
    QTest::newRow("exponent") << u"1e2"_s << walk << walkAllowed;
    QTest::newRow("hexadecimal") << u"0x12"_s << walk << walkAllowed;
    QTest::newRow("inf") << u"inf"_s << walk << walkAllowed;
    QTest::newRow("nan") << u"nan"_s << walk << walkAllowed;
    QTest::newRow("spaced thousands")
        << u"1 200"_s << u"six-minute-walk"_s << u"6-minute walk distance: 0 to 1000 m, whole numbers."_s;
    QTest::newRow("thousands with a comma")
        << u"1,000"_s << u"six-minute-walk"_s << u"6-minute walk distance: 0 to 1000 m, whole numbers."_s;
    QTest::newRow("two points") << u"1.2.3"_s << walk << walkAllowed;
    QTest::newRow("with unit") << u"12 s"_s << walk << walkAllowed;
    QTest::newRow("finer than the step of a time") << u"12.345"_s << walk << u"12.345"_s;
    QTest::newRow("too fine") << u"320.5"_s << u"six-minute-walk"_s
                              << u"6-minute walk distance: 0 to 1000 m, whole numbers."_s;
    QTest::newRow("negative") << u"-3"_s << walk << walkAllowed;
    QTest::newRow("above the range") << u"300.01"_s << walk << walkAllowed;
    // 1,000 is a thousand to many: more decimals than the step are never dropped.
    QTest::newRow("a decimal of a whole number") << u"56.0"_s << berg << bergAllowed;
    QTest::newRow("two decimals of half points") << u"12.50"_s << sara << saraAllowed;
    QTest::newRow("a bare fraction with two decimals") << u".50"_s << sara << saraAllowed;
    QTest::newRow("three decimals of hundredths")
        << u"1,230"_s << u"gait-speed-comfortable"_s
        << u"Gait speed: comfortable pace: 0 to 3.5 m/s, at most two decimals."_s;
    QTest::newRow("half a point") << u"56.5"_s << berg << bergAllowed;
    QTest::newRow("above the scale") << u"57"_s << berg << bergAllowed;
    QTest::newRow("top of the scale") << u"56"_s << berg << u"56"_s;
    QTest::newRow("between the steps") << u"12.3"_s << sara << saraAllowed;
    QTest::newRow("four hundred digits") << QString(400, u'9') << walk << walkAllowed;
    QTest::newRow("beyond the cap")
        << u"777"_s << u"timed-25-foot-walk"_s
        << u"Timed 25-foot walk: a trial is stopped at 180 s; record unable, or the cap reached."_s;
}

void TestCheck::aNumberIsReadAsPeopleTypeIt()
{
    QFETCH(QString, text);
    QFETCH(QString, measure);
    QTEST(typed(text, measure), "answer");
}

void TestCheck::everyStepOfTheScaleCanBeTyped()
{
    for (const QString& id : {u"timed-up-and-go"_s, u"gait-speed-comfortable"_s, u"sara"_s}) {
        const catalogue::Measure& measure = *book().measure(id);
        const int decimals = *measure.step < 0.1 ? 2 : 1;
        const int first = qRound(std::max(*measure.lowest, *measure.step) / *measure.step);
        for (int step = first; step <= qRound(*measure.highest / *measure.step); ++step) {
            const QString text = QString::number(step * *measure.step, 'f', decimals);
            const auto read = records::numberTyped(text, measure);
            QVERIFY2(read, qPrintable(id + u' ' + text));
            QCOMPARE(*read, text.toDouble());
            QCOMPARE(saidOf(finding(id, Quantity{*read, measure.unit})), QString());
        }
    }
}

void TestCheck::aTimeAtItsCapIsNoMeasurementUnlessTheCapWasReached()
{
    const QString sentence =
        u"Timed 25-foot walk: a trial is stopped at 180 s; record unable, or the cap reached."_s;
    for (const double number : {180.0, 300.0, 777.0, 999.0})
        QCOMPARE(saidOf(finding(u"timed-25-foot-walk"_s, seconds(number))), sentence);
    records::Finding stopped = finding(u"timed-25-foot-walk"_s, seconds(180));
    stopped.capReached = true;
    QCOMPARE(saidOf(stopped), QString());
    stopped.value = seconds(180.1);
    QCOMPARE(saidOf(stopped), sentence);
    QCOMPARE(saidOf(finding(u"timed-25-foot-walk"_s, seconds(179.9))), QString());
}

void TestCheck::zeroNeverStandsForUnable()
{
    QCOMPARE(
        saidOf(finding(u"gait-speed-comfortable"_s, Quantity{0, Unit::MetrePerSecond})),
        u"Gait speed: comfortable pace: 0 m/s is no measurement; record tried and unable, or why it was not "
        "attempted."_s);
    QCOMPARE(
        typed(u"0"_s, u"six-minute-walk"_s),
        u"6-minute walk distance: 0 m is no measurement; record tried and unable, or why it was not attempted."_s);
    QCOMPARE(typed(u"0"_s, u"tandem-steps"_s), u"0"_s);
}

void TestCheck::tapsAreCountedByTheValue()
{
    catalogue::Catalogue tapped = examples::catalogue();
    for (catalogue::Measure& measure : tapped.measures)
        measure.isTapped = measure.id == u"tandem-steps"_s;
    const auto said = [&](const QString& id, double count, std::vector<double> taps) {
        records::Finding counted = finding(id, Quantity{count, book().measure(id)->unit});
        counted.taps = std::move(taps);
        const auto wrong = records::wrongWith(counted, tapped);
        return wrong ? wrong->what.english() : QString();
    };
    QCOMPARE(said(u"tandem-steps"_s, 3, {0, 0.2, 0.5}), QString());
    QCOMPARE(said(u"tandem-steps"_s, 3, {}), QString());
    const QString number = u"Tandem steps achieved of 10: the value must be the number of taps."_s;
    QCOMPARE(said(u"tandem-steps"_s, 4, {0, 0.2, 0.5}), number);
    const QString rise = u"Tandem steps achieved of 10: the times of the taps must rise from 0 s."_s;
    const std::vector<std::vector<double>> notRising = {
        {0, 0.5, 0.5}, {0, 0.5, 0.4}, {-0.1, 0.2, 0.5}, {0, 0.2, qInf()}, {0, qQNaN(), 0.5}};
    for (const std::vector<double>& taps : notRising)
        QCOMPARE(said(u"tandem-steps"_s, 3, taps), rise);
    QCOMPARE(said(u"timed-up-and-go"_s, 3, {0, 0.2, 0.5}), u"Timed up and go is not counted by taps."_s);
}

void TestCheck::trialsGiveTheValueByTheMeasuresRule()
{
    const auto value = [](const std::vector<double>& trials, const QString& id) {
        return records::valueOfTrials(trials, *book().measure(id));
    };
    QCOMPARE(value({}, u"nine-hole-peg"_s), values::Value(values::Missing{}));
    QCOMPARE(value({20, 21}, u"nine-hole-peg"_s), seconds(20.5));
    QCOMPARE(value({12, 30, 21}, u"romberg-eyes-closed"_s), seconds(30));
    QCOMPARE(value({5, 3, 4}, u"turn-180-steps"_s), values::Value(Quantity{3, Unit::Steps}));
    QCOMPARE(value({14, 12.5}, u"timed-up-and-go"_s), seconds(12.5));
    QCOMPARE(value({3}, u"finger-nose"_s), values::Value(values::Grade{3}));
}

void TestCheck::ofASingleTrialTheLastCounts()
{
    QCOMPARE(records::valueOfTrials({8, 5}, *book().measure(u"tandem-steps"_s)),
             values::Value(Quantity{5, Unit::Steps}));
}

void TestCheck::theValueMustFollowFromTheTrials()
{
    records::Finding peg = finding(u"nine-hole-peg"_s, seconds(20), Side::Right);
    peg.trials = {20, 21};
    QCOMPARE(saidOf(peg), u"Nine-hole peg test: the value must follow from the trials."_s);
    peg.value = seconds(20.5);
    QCOMPARE(saidOf(peg), QString());
}

void TestCheck::aVisitLiesBetweenBirthAndToday()
{
    records::Patient patient = examples::patient(u"stroke"_s);
    patient.born = QDate(1951, 3, 4);
    const auto saidOn = [&](QDate day) {
        return said(wrongWith(examples::visit(u"v"_s, day, {}), patient, book(), today));
    };
    QCOMPARE(saidOn(QDate(1951, 3, 3)),
             u"The visit's day lies before the birth date; the birth date is the earliest allowed."_s);
    QCOMPARE(saidOn(today.addDays(1)), u"The visit's day lies in the future; today is the latest allowed."_s);
    QCOMPARE(saidOn(QDate()), u"The visit's day: a calendar day from 01-Jan-1880 to today."_s);
    QCOMPARE(saidOn(QDate(1951, 3, 4)), QString());
    QCOMPARE(saidOn(today), QString());
    patient.born.reset();
    QCOMPARE(saidOn(QDate(26, 3, 4)), u"The visit's day: a calendar day from 01-Jan-1880 to today."_s);
}

void TestCheck::aVisitIsLookedThroughWhole()
{
    records::Visit visit;
    visit.day = QDate(2026, 3, 1);
    visit.conditions = {{u"start"_s, u"flying"_s}};
    visit.findings = {finding(u"berg-balance"_s, Quantity{5600, Unit::Score}),
                      finding(u"timed-up-and-go"_s, seconds(12))};
    visit.findings.back().exceptions = {{u"mood"_s, u"good"_s}};
    QStringList all;
    for (const base::Error& wrong : records::everythingWrongWith(visit, {}, book(), today))
        all += wrong.what.english();
    QCOMPARE(all, (QStringList{u"Start: one of static, moving."_s,
                               u"Berg balance scale: total: 0 to 56 points, whole numbers."_s,
                               u"“mood” is not a condition of the catalogue."_s}));
    QCOMPARE(said(wrongWith(visit, {}, book(), today)), all.first());
    visit.conditions.clear();
    QCOMPARE(said(wrongWith(visit, {}, book(), today)), all[1]);
}

void TestCheck::aTimeKeepsAllItsDigits()
{
    const catalogue::Measure& up = *book().measure(u"timed-up-and-go"_s);
    QCOMPARE(records::writtenTrial(12.34, up), u"12.34"_s);
    QCOMPARE(records::writtenTrial(12.3, up), u"12.3"_s);
    QCOMPARE(records::writtenTrial(0.1 + 12.2, up), u"12.3"_s);
    QCOMPARE(records::writtenTrial(12, up), u"12.0"_s);
    QCOMPARE(records::writtenTrial(12.375, up), u"12.375"_s);
    QCOMPARE(records::writtenTrial(7, *book().measure(u"tandem-steps"_s)), u"7"_s);
    QCOMPARE(typed(records::writtenTrial(12.375, up), up.id), u"12.375"_s);
}

void TestCheck::aVisitRecordsASideOnce()
{
    const records::Patient patient = examples::patient(u"stroke"_s);
    const auto right = finding(u"finger-nose"_s, values::Grade{1}, Side::Right);
    const auto left = finding(u"finger-nose"_s, values::Grade{2}, Side::Left);
    QVERIFY(!wrongWith(examples::visit(u"v"_s, today, {right, left}), patient, book(), today));
    QCOMPARE(said(wrongWith(examples::visit(u"v"_s, today, {right, left, right}), patient, book(), today)),
             u"Finger to nose is recorded twice; once a side is allowed."_s);
    QCOMPARE(said(wrongWith(
                 examples::visit(u"v"_s, today, {finding(u"tandem-steps"_s, Quantity{13, Unit::Steps})}),
                 patient, book(), today)),
             u"Tandem steps achieved of 10: 0 to 10 steps, whole numbers."_s);
}

void TestCheck::aVisitKeepsToTheVocabularyOfConditions()
{
    const auto saidOf = [](const QString& id, const QString& value) {
        return said(records::wrongWithCondition(id, value, book()));
    };
    QCOMPARE(saidOf(u"distance_m"_s, u"0.5"_s), u"Timed distance: 1 to 1000 m."_s);
    QCOMPARE(saidOf(u"distance_m"_s, u"ten"_s), u"Timed distance: 1 to 1000 m."_s);
    QCOMPARE(saidOf(u"distance_m"_s, u"nan"_s), u"Timed distance: 1 to 1000 m."_s);
    QCOMPARE(saidOf(u"distance_m"_s, u"6"_s), QString());
    QCOMPARE(saidOf(u"distance_m"_s, QString()), QString());
    QCOMPARE(saidOf(u"start"_s, u"flying"_s), u"Start: one of static, moving."_s);
    QCOMPARE(saidOf(u"start"_s, u"moving"_s), QString());
    QCOMPARE(saidOf(u"aid"_s, QString(80, u'a')), QString());
    QCOMPARE(saidOf(u"aid"_s, QString(81, u'a')), u"Walking aid: at most 80 characters."_s);
    QCOMPARE(saidOf(u"weather"_s, u"rain"_s), u"“weather” is not a condition of the catalogue."_s);
    const auto visit = examples::visit(u"v"_s, today, {}, {{u"start"_s, u"flying"_s}});
    QCOMPARE(said(wrongWith(visit, examples::patient({}), book(), today)),
             u"Start: one of static, moving."_s);
}

void TestCheck::aPatientKeepsToHumanRanges()
{
    const auto saidWhere = [](auto change) {
        records::Patient patient = examples::patient(u"stroke"_s);
        patient.born = QDate(1951, 3, 4);
        change(patient);
        return said(wrongWith(patient, book(), today));
    };
    QCOMPARE(saidWhere([](records::Patient&) {}), QString());
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.heightCm = 29.9; }),
             u"Height: 30 to 250 cm."_s);
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.heightCm = 250; }), QString());
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.weightKg = 401; }), u"Weight: 1 to 400 kg."_s);
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.born = today.addDays(1); }),
             u"Birth date: a day from 01-Jan-1880 to today."_s);
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.born = QDate(1879, 12, 31); }),
             u"Birth date: a day from 01-Jan-1880 to today."_s);
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.onset = QDate(1951, 3, 3); }),
             u"Onset: not before the birth date."_s);
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.onset = today.addDays(1); }),
             u"Onset: a day from 01-Jan-1880 to today."_s);
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.population = u"martians"_s; }),
             u"Population: one of the catalogue's, or none."_s);
    QCOMPARE(saidWhere([](records::Patient& patient) { patient.family = u" "_s; }),
             u"A patient needs a family name, a given name or a record number."_s);
}

void TestCheck::aTotalThatIsNotTheSumOfItsPartsIsRefused()
{
    catalogue::Catalogue items = book();
    for (const QString& id : {u"first"_s, u"second"_s}) {
        items.measures.push_back(*book().measure(u"sara"_s));
        items.measures.back().id = items.measures.back().title = id;
    }
    auto& total = *std::ranges::find(items.measures, u"sara"_s, &catalogue::Measure::id);
    total.computed = {catalogue::Computing::SumOfItems, {u"first"_s, u"second"_s}};
    const auto scored = [](const QString& measure, double number) {
        return finding(measure, Quantity{number, Unit::Score});
    };
    records::Visit visit = examples::visit(u"a"_s, today, {scored(u"first"_s, 2), scored(u"second"_s, 3)});
    const records::Patient patient = examples::patient(u"cerebellar-ataxia"_s);
    QVERIFY(!wrongWith(visit, scored(u"sara"_s, 5), items));
    QVERIFY2(said(wrongWith(visit, scored(u"sara"_s, 6), items)).contains(u"the parts recorded make 5"_s),
             qPrintable(said(wrongWith(visit, scored(u"sara"_s, 6), items))));
    visit.findings.push_back(scored(u"sara"_s, 5));
    QVERIFY2(!wrongWith(visit, patient, items, today),
             qPrintable(said(wrongWith(visit, patient, items, today))));
    QVERIFY(wrongWith(visit, scored(u"second"_s, 4), items)); // a part is changed under its total
    visit.findings.back() = scored(u"sara"_s, 6);
    QVERIFY(said(wrongWith(visit, patient, items, today)).contains(u"it is not what its parts make"_s));
}

HOUSE_TEST(TestCheck)

} // namespace test_check

#include "test_check.moc"
