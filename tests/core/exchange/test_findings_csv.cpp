#include "core/exchange/columns.h"
#include "tests/support/findings_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_findings_csv
{

using namespace findings_file;
using records::Side;

class TestFindingsCsv : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aRowBecomesAPatientAVisitAndAFinding();
    void rowsGatherIntoPatientsVisitsAndTrials();
    void columnsMayStandInAnyOrder();
    void furtherConditionsMayHaveColumns();
    void aConditionOfATestStaysWithTheTest();
    void theHeaderIsHeldTo_data();
    void theHeaderIsHeldTo();
    void aWrongCellNamesLineColumnAndWhatIsAllowed_data();
    void aWrongCellNamesLineColumnAndWhatIsAllowed();
    void errorsHoldNothingOfThePatient();
    void everyStateIsRead_data();
    void everyStateIsRead();
    void gradesAndWordsAreRead();
    void unitsMayBeCodeSymbolOrNothing();
    void emptyConditionsAreNotRecorded();
    void aFindingKeepsTheConditionsItsRowNames();
    void aHoldAtItsCapReachedIt();
    void aCourseIsTakenFromTheDistanceOfOlderFiles();
    void whetherTheCapWasReachedCanBeSaid();
    void aCapThatCannotBeIsRefused_data();
    void aCapThatCannotBeIsRefused();
    void aTimeMayBeFinerThanItsStep();
    void aSumThatContradictsItsPartsIsRefused();
    void upToTwentyErrorsAreListed();
    void noSentenceIsLong();
    void aReasonBesideAValueIsItsNote();
    void theSameRowTwiceIsOne();
    void rowsOfOnePatientMustAgree_data();
    void rowsOfOnePatientMustAgree();
    void trialsMustAgreeAndHaveNoGap();
    void oneWrongRowLeavesNothing();
    void quotedCellsHoldCommasAndLines();
    void aFileTooLargeIsRefused();
};

void TestFindingsCsv::aRowBecomesAPatientAVisitAndAFinding()
{
    const auto patients = read({walk({{u"aid"_s, u"Stick"_s}, {u"distance_m"_s, u"10.0"_s}})});
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    QCOMPARE(patients->size(), size_t(1));
    const records::Patient& patient = patients->front().patient;
    QCOMPARE(patient.recordNumber, u"T-1"_s);
    QCOMPARE(patient.family, u"Aaltje"_s);
    QCOMPARE(patient.born, QDate(1951, 3, 4));
    QCOMPARE(patient.sex, records::Sex::Female);
    QCOMPARE(patient.population, u"parkinson"_s);
    QCOMPARE(patients->front().visits.size(), size_t(1));
    const records::Visit& visit = patients->front().visits.front().visit;
    QCOMPARE(visit.day, QDate(2024, 3, 1));
    QCOMPARE(visit.state, records::VisitState::Draft);
    QCOMPARE(visit.conditions, (records::Conditions{{u"aid"_s, u"stick"_s}, {u"distance_m"_s, u"10"_s}}));
    const records::Finding* finding = visit.finding(u"timed-up-and-go"_s, Side::None);
    QVERIFY(finding);
    QCOMPARE(finding->trials, std::vector{12.5});
    QCOMPARE(finding->value, values::Value(values::Quantity{12.5, values::Unit::Second}));
    QVERIFY(finding->exceptions.empty());
}

void TestFindingsCsv::rowsGatherIntoPatientsVisitsAndTrials()
{
    const Cells walked = walk({{u"measure"_s, u"timed-25-foot-walk"_s}});
    Cells second = walked;
    second[u"trial"_s] = u"2"_s;
    second[u"value"_s] = u"11.5"_s;
    const auto patients = read({walk({{u"date"_s, u"2024-05-01"_s}}), second, walked,
                                walk({{u"patient"_s, u"T-2"_s}, {u"family"_s, u"Cmil"_s}})});
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    QCOMPARE(patients->size(), size_t(2));
    const auto& visits = patients->front().visits;
    QCOMPARE(visits.size(), size_t(2));
    QCOMPARE(visits[0].visit.day, QDate(2024, 3, 1));
    const records::Finding& finding = visits[0].visit.findings.front();
    QCOMPARE(finding.trials, (std::vector{12.5, 11.5}));
    QCOMPARE(finding.value,
             values::Value(values::Quantity{12.0, values::Unit::Second})); // the mean of two trials
    QCOMPARE(visits[0].origins.front().places, (std::vector{exchange::lineOf(4), exchange::lineOf(3)}));
}

void TestFindingsCsv::columnsMayStandInAnyOrder()
{
    QStringList turned = columns();
    std::ranges::reverse(turned);
    QByteArray bytes = turned.join(u',').toUtf8() + "\n";
    QStringList row;
    for (const QString& column : turned)
        row += walk()[column];
    bytes += row.join(u',').toUtf8();
    const auto patients = exchange::patientsFromCsv(bytes, shipped(), today);
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    QCOMPARE(patients->front().visits.front().visit.findings,
             read({walk()})->front().visits.front().visit.findings);
}

/// The rows with further columns after the usual ones.
static QByteArray widened(const QByteArray& names, const std::vector<std::pair<Cells, QByteArray>>& rows)
{
    QByteArray bytes = columns().join(u',').toUtf8() + ',' + names + '\n';
    for (const auto& [cells, further] : rows)
        bytes += line(cells).trimmed() + ',' + further + '\n';
    return bytes;
}

void TestFindingsCsv::furtherConditionsMayHaveColumns()
{
    const auto patients = exchange::patientsFromCsv(
        widened("surface,chair_height_cm", {{walk(), "Carpet,45.0"}}), shipped(), today);
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    const exchange::ImportedVisit& imported = patients->front().visits.front();
    QCOMPARE(imported.visit.conditions,
             (records::Conditions{{u"surface"_s, u"carpet"_s}, {u"chair_height_cm"_s, u"45"_s}}));
    QVERIFY(imported.conditions.contains(u"surface"_s));
    QVERIFY(!imported.conditions.contains(u"pain"_s));

    const auto wrong =
        exchange::patientsFromCsv(widened("chair_height_cm", {{walk(), "high"}}), shipped(), today);
    QVERIFY(!wrong);
    QVERIFY2(wrong.error().what.english().startsWith(u"Line 2, column chair_height_cm: "_s),
             qPrintable(wrong.error().what.english()));
}

void TestFindingsCsv::aConditionOfATestStaysWithTheTest()
{
    const Cells pull = walk({{u"measure"_s, u"pull-test"_s}, {u"value"_s, u"2"_s}});
    const auto patients = exchange::patientsFromCsv(
        widened("pull_variant", {{pull, "repeated-pulls"}, {walk(), ""}}), shipped(), today);
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    const records::Visit& visit = patients->front().visits.front().visit;
    QVERIFY(visit.conditions.empty());
    QCOMPARE(visit.finding(u"pull-test"_s, Side::None)->exceptions,
             (records::Conditions{{u"pull_variant"_s, u"repeated-pulls"_s}}));
    QVERIFY(visit.finding(u"timed-up-and-go"_s, Side::None)->exceptions.empty());
}

void TestFindingsCsv::theHeaderIsHeldTo_data()
{
    QTest::addColumn<QByteArray>("bytes");
    QTest::addColumn<QString>("begins");
    const QByteArray header = columns().join(u',').toUtf8();
    QTest::newRow("no header") << line(walk())
                               << u"Line 1, column 1: Allowed as the header's names are patient, "_s;
    QTest::newRow("nothing") << QByteArray() << u"Line 1, column patient: "_s;
    QTest::newRow("an unknown column") << header + ",mood\n"
                                       << u"Line 1, column 22: Allowed as the header's names are patient, "_s;
    QTest::newRow("a column twice") << header + ",unit\n" << u"Line 1, column unit: "_s;
    QTest::newRow("a column missing")
        << QByteArray(header).replace(",unit", "") << u"Line 1, column unit: "_s;
    QTest::newRow("a column without name") << header + ",\n" << u"Line 1, column 22: "_s;
    QTest::newRow("too few cells") << header + "\nT-1,A\n" << u"Line 2, column given: "_s;
    QTest::newRow("too many cells") << header + "\n" + line(walk()).trimmed() + ",x\n"
                                    << u"Line 2, column medication: "_s;
}

void TestFindingsCsv::theHeaderIsHeldTo()
{
    QFETCH(QByteArray, bytes);
    QFETCH(QString, begins);
    const auto patients = exchange::patientsFromCsv(bytes, shipped(), today);
    QVERIFY(!patients);
    QVERIFY2(patients.error().what.english().startsWith(begins), qPrintable(patients.error().what.english()));
}

void TestFindingsCsv::aWrongCellNamesLineColumnAndWhatIsAllowed_data()
{
    QTest::addColumn<Cells>("changed");
    QTest::addColumn<QString>("column");
    QTest::addColumn<QString>("allowed");
    const auto row = [](const char* name, const Cells& changed, const QString& column,
                        const QString& allowed) { QTest::newRow(name) << changed << column << allowed; };
    const Cells tandem = {{u"measure"_s, u"tandem-steps"_s}};
    const auto with = [](Cells cells, const QString& column, const QString& value) {
        cells[column] = value;
        return cells;
    };
    row("no number", {{u"patient"_s, u""_s}}, u"patient"_s, u"record number"_s);
    row("a German birth date", {{u"born"_s, u"04.03.1951"_s}}, u"born"_s, u"1951-03-04"_s);
    row("a birth in the future", {{u"born"_s, u"2024-07-01"_s}}, u"born"_s, u"today"_s);
    row("a day that never was", {{u"date"_s, u"2024-02-30"_s}}, u"date"_s, u"2024-03-01"_s);
    row("a date with slashes", {{u"date"_s, u"2024/02/28"_s}}, u"date"_s, u"2024-03-01"_s);
    row("a time with the date", {{u"date"_s, u"2024-02-28T10:00"_s}}, u"date"_s, u"2024-03-01"_s);
    row("a visit in the future", {{u"date"_s, u"2024-06-02"_s}}, u"date"_s, u"today"_s);
    row("a visit before birth", {{u"date"_s, u"1951-03-03"_s}}, u"date"_s, u"birth date"_s);
    row("sex as one letter", {{u"sex"_s, u"f"_s}}, u"sex"_s, u"female, male, other, unknown"_s);
    row("an unknown population", {{u"population"_s, u"stork"_s}}, u"population"_s, u"stroke-subacute"_s);
    row("an unknown measure", {{u"measure"_s, u"hopping-backwards"_s}}, u"measure"_s,
        u" more; the handbook names them all"_s);
    row("a side where there is none", {{u"side"_s, u"right"_s}}, u"side"_s, u"none"_s);
    row("no side where one is needed", {{u"measure"_s, u"nine-hole-peg"_s}}, u"side"_s, u"right and left"_s);
    row("trial 0", {{u"trial"_s, u"0"_s}}, u"trial"_s, u"from 1"_s);
    row("half a trial", {{u"trial"_s, u"1.5"_s}}, u"trial"_s, u"whole number"_s);
    row("a second trial of a grade",
        {{u"measure"_s, u"sit-to-stand-observed"_s}, {u"value"_s, u"1"_s}, {u"trial"_s, u"2"_s}}, u"trial"_s,
        u"1"_s);
    row("a decimal comma", {{u"value"_s, u"\"12,5\""_s}}, u"value"_s, u"point"_s);
    row("words for a number", {{u"value"_s, u"fast"_s}}, u"value"_s, u"number"_s);
    row("not a number", {{u"value"_s, u"nan"_s}}, u"value"_s, u"number"_s);
    row("an exponent", {{u"value"_s, u"1e1"_s}}, u"value"_s, u"number"_s);
    row("a negative time", {{u"value"_s, u"-3"_s}}, u"value"_s, u"2 to 300 s"_s);
    row("999 for unable", {{u"value"_s, u"999"_s}}, u"value"_s, u"300 s"_s);
    row("13 of 10 tandem steps", with(tandem, u"value"_s, u"13"_s), u"value"_s, u"0 to 10"_s);
    row("half a point of Berg", {{u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46.5"_s}}, u"value"_s,
        u"0 to 56"_s);
    row("a word that is none", {{u"measure"_s, u"romberg-sign"_s}, {u"value"_s, u"maybe"_s}}, u"value"_s,
        u"negative"_s);
    row("metres for seconds", {{u"unit"_s, u"m"_s}}, u"unit"_s, u"s, or nothing"_s);
    row("an unknown state", {{u"state"_s, u"well"_s}}, u"state"_s, u"not-attempted"_s);
    row("done without value", {{u"state"_s, u"done"_s}, {u"value"_s, u""_s}}, u"value"_s, u"needed"_s);
    row("unable with value", {{u"state"_s, u"unable"_s}}, u"value"_s, u"nothing"_s);
    row("neither value nor state", {{u"value"_s, u""_s}}, u"state"_s, u"unable"_s);
    row("not attempted without reason", {{u"state"_s, u"not-attempted"_s}, {u"value"_s, u""_s}}, u"reason"_s,
        u"reason"_s);
    row("an unknown start", {{u"start"_s, u"flying"_s}}, u"start"_s, u"static, moving, or nothing"_s);
    row("a distance in words", {{u"distance_m"_s, u"ten"_s}}, u"distance_m"_s, u"m"_s);
    row("a name without end", {{u"family"_s, QString(5000, u'x')}}, u"family"_s, u"at most 100 characters"_s);
    row("a name that turns the line", {{u"given"_s, u"Anna\u202egnaL"_s}}, u"given"_s, u"U+202E"_s);
    row("a number that clears the screen", {{u"patient"_s, u"T-1\x1b[2J"_s}}, u"patient"_s, u"U+001B"_s);
    row("a note without end", {{u"reason"_s, QString(4001, u'x')}}, u"reason"_s, u"at most 4000"_s);
    row("an aid that steers", {{u"aid"_s, u"st\u2066ick"_s}}, u"aid"_s, u"U+2066"_s);
    row("no distance at all", {{u"distance_m"_s, u"0"_s}}, u"distance_m"_s, u"m"_s);
}

void TestFindingsCsv::aWrongCellNamesLineColumnAndWhatIsAllowed()
{
    QFETCH(Cells, changed);
    QFETCH(QString, column);
    QFETCH(QString, allowed);
    const auto patients = read({walk({{u"patient"_s, u"T-9"_s}}), walk(changed)});
    QVERIFY(!patients);
    const QString what = patients.error().what.english();
    QVERIFY2(what.startsWith(u"Line 3, column %1: "_s.arg(column)), qPrintable(what));
    QVERIFY2(what.contains(allowed), qPrintable(what));
    QVERIFY2(what.endsWith(u'.') && !what.contains(u'\n'), qPrintable(what));
}

void TestFindingsCsv::errorsHoldNothingOfThePatient()
{
    const auto patients = read({walk({{u"value"_s, u"31415"_s}})});
    QVERIFY(!patients);
    for (const QString& secret : {u"31415"_s, u"Aaltje"_s, u"Borre"_s, u"T-1"_s, u"1951"_s})
        QVERIFY2(!patients.error().what.english().contains(secret),
                 qPrintable(patients.error().what.english()));
}

void TestFindingsCsv::everyStateIsRead_data()
{
    QTest::addColumn<QString>("state");
    QTest::addColumn<values::Absence>("absence");
    QTest::newRow("unable") << u"unable"_s << values::Absence::Unable;
    QTest::newRow("not attempted") << u"not-attempted"_s << values::Absence::NotAttempted;
    QTest::newRow("refused, in the word of older files") << u"declined"_s << values::Absence::Refused;
    QTest::newRow("refused") << u"refused"_s << values::Absence::Refused;
    QTest::newRow("not applicable") << u"not-applicable"_s << values::Absence::NotApplicable;
    QTest::newRow("not asked") << u"not-asked"_s << values::Absence::NotAsked;
}

void TestFindingsCsv::everyStateIsRead()
{
    QFETCH(QString, state);
    QFETCH(values::Absence, absence);
    const auto patients =
        read({walk({{u"value"_s, u""_s}, {u"state"_s, state}, {u"reason"_s, u"Pain in the hip"_s}})});
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    const records::Finding& finding = patients->front().visits.front().visit.findings.front();
    QCOMPARE(finding.value, values::Value(values::Missing{absence, u"Pain in the hip"_s}));
    QVERIFY(finding.trials.empty());
}

void TestFindingsCsv::gradesAndWordsAreRead()
{
    const auto patients = read(
        {walk({{u"measure"_s, u"toe-tapping"_s}, {u"side"_s, u"left"_s}, {u"value"_s, u"2"_s}}),
         walk({{u"measure"_s, u"toe-tapping"_s}, {u"side"_s, u"right"_s}, {u"value"_s, u"0.0"_s}}),
         walk({{u"measure"_s, u"romberg-sign"_s}, {u"value"_s, u"Positive"_s}, {u"side"_s, u"none"_s}})});
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    const records::Visit& visit = patients->front().visits.front().visit;
    QCOMPARE(visit.finding(u"toe-tapping"_s, Side::Left)->value, values::Value(values::Grade{2}));
    QCOMPARE(visit.finding(u"toe-tapping"_s, Side::Right)->value, values::Value(values::Grade{0}));
    QCOMPARE(visit.finding(u"romberg-sign"_s, Side::None)->value,
             values::Value(values::Choice{u"positive"_s}));
}

void TestFindingsCsv::unitsMayBeCodeSymbolOrNothing()
{
    for (const QString& unit : {u"{score}"_s, u"points"_s, u""_s})
        QVERIFY(read({walk({{u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46"_s}, {u"unit"_s, unit}})}));
}

void TestFindingsCsv::emptyConditionsAreNotRecorded()
{
    const auto patients = read({walk()});
    QVERIFY(patients->front().visits.front().visit.conditions.empty());
}

void TestFindingsCsv::aFindingKeepsTheConditionsItsRowNames()
{
    const std::vector<Cells> rows = {walk({{u"medication"_s, u"on"_s}}),
                                     walk({{u"measure"_s, u"six-minute-walk"_s},
                                           {u"value"_s, u"320"_s},
                                           {u"aid"_s, u"stick"_s},
                                           {u"medication"_s, u"off"_s}}),
                                     walk({{u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46"_s}})};
    const auto patients = read(rows);
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    const records::Visit& visit = patients->front().visits.front().visit;
    const auto own = [&visit](const QString& measure) {
        const auto all =
            records::withExceptions(visit.conditions, visit.finding(measure, Side::None)->exceptions);
        return std::pair(records::recorded(all, u"aid"_s), records::recorded(all, u"medication"_s));
    };
    QCOMPARE(own(u"timed-up-and-go"_s), std::pair(u""_s, u"on"_s));
    QCOMPARE(own(u"six-minute-walk"_s), std::pair(u"stick"_s, u"off"_s));
    QCOMPARE(own(u"berg-balance"_s), std::pair(u""_s, u""_s));
}

void TestFindingsCsv::aHoldAtItsCapReachedIt()
{
    const Cells hold = {{u"measure"_s, u"romberg-eyes-open"_s}};
    Cells capped = hold;
    capped[u"value"_s] = u"60"_s;
    Cells lost = hold;
    lost[u"value"_s] = u"59.9"_s;
    QVERIFY(read({walk(capped)})->front().visits.front().visit.findings.front().capReached);
    QVERIFY(!read({walk(lost)})->front().visits.front().visit.findings.front().capReached);
}

void TestFindingsCsv::aCourseIsTakenFromTheDistanceOfOlderFiles()
{
    const auto patients =
        read({walk({{u"distance_m"_s, u"10"_s}}), walk({{u"measure"_s, u"six-minute-walk"_s},
                                                        {u"value"_s, u"240"_s},
                                                        {u"unit"_s, u"m"_s},
                                                        {u"distance_m"_s, u"30"_s}})});
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    const records::Visit& visit = patients->front().visits.front().visit;
    QCOMPARE(records::recorded(visit.conditions, u"course_m"_s), QString());
    const records::Finding* minutes = visit.finding(u"six-minute-walk"_s, Side::None);
    QVERIFY(minutes);
    QCOMPARE(records::recorded(minutes->exceptions, u"course_m"_s), u"30"_s);
    const records::Finding* upAndGo = visit.finding(u"timed-up-and-go"_s, Side::None);
    QVERIFY(upAndGo);
    QCOMPARE(records::recorded(upAndGo->exceptions, u"course_m"_s), QString());
}

void TestFindingsCsv::whetherTheCapWasReachedCanBeSaid()
{
    const auto of = [](const Cells& cells, const QByteArray& capped) {
        const auto patients =
            exchange::patientsFromCsv(widened("capped", {{walk(cells), capped}}), shipped(), today);
        return patients ? patients->front().visits.front().visit.findings.front() : records::Finding();
    };
    const Cells feet = {{u"measure"_s, u"timed-25-foot-walk"_s}, {u"value"_s, u"180"_s}};
    QVERIFY(of(feet, "yes").capReached);
    QCOMPARE(values::number(of(feet, "yes").value), std::optional(180.0));
    QCOMPARE(of(feet, "no").measure, QString()); // a trial is stopped at 180 s
    const auto unable =
        of({{u"measure"_s, u"timed-25-foot-walk"_s}, {u"value"_s, u""_s}, {u"state"_s, u"unable"_s}}, "yes");
    QVERIFY(unable.capReached);
    QVERIFY(values::isUnable(unable.value));
    const Cells hold = {{u"measure"_s, u"romberg-eyes-open"_s}, {u"value"_s, u"60"_s}};
    QVERIFY(of(hold, "").capReached);
    QVERIFY(!of(hold, "no").capReached);
}

void TestFindingsCsv::aCapThatCannotBeIsRefused_data()
{
    QTest::addColumn<Cells>("cells");
    QTest::addColumn<QByteArray>("capped");
    QTest::addColumn<QString>("allowed");
    QTest::newRow("another word") << Cells{} << QByteArray("true") << u"Allowed are yes, no, or nothing."_s;
    QTest::newRow("no cap") << Cells{} << QByteArray("yes")
                            << u"This measure has no cap; allowed is no, or nothing."_s;
    QTest::newRow("before the cap") << Cells{{u"measure"_s, u"timed-25-foot-walk"_s}} << QByteArray("yes")
                                    << u"“yes” is allowed beside the value 180, or the state unable."_s;
}

void TestFindingsCsv::aCapThatCannotBeIsRefused()
{
    QFETCH(Cells, cells);
    QFETCH(QByteArray, capped);
    QFETCH(QString, allowed);
    const auto patients =
        exchange::patientsFromCsv(widened("capped", {{walk(cells), capped}}), shipped(), today);
    QVERIFY(!patients);
    QCOMPARE(patients.error().what.english(), u"Line 2, column capped: "_s + allowed);
}

void TestFindingsCsv::aTimeMayBeFinerThanItsStep()
{
    const auto patients =
        read({walk({{u"value"_s, u"12.34"_s}}), walk({{u"trial"_s, u"2"_s}, {u"value"_s, u"12.375"_s}})});
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    QCOMPARE(patients->front().visits.front().visit.findings.front().trials, (std::vector{12.34, 12.375}));
    QVERIFY(!read({walk({{u"measure"_s, u"six-minute-walk"_s}, {u"value"_s, u"320.5"_s}})}));
}

void TestFindingsCsv::aSumThatContradictsItsPartsIsRefused()
{
    const catalogue::Measure& sum = *shipped().measure(u"sara"_s);
    std::vector<Cells> rows = {walk({{u"measure"_s, sum.id}, {u"value"_s, u"7"_s}})};
    for (const QString& part : sum.computed->parts) {
        if (shipped().measure(part)->hasSides) {
            for (const QString& side : {u"right"_s, u"left"_s})
                rows.push_back(walk({{u"measure"_s, part}, {u"side"_s, side}, {u"value"_s, u"1"_s}}));
        } else {
            rows.push_back(walk({{u"measure"_s, part}, {u"value"_s, u"1"_s}}));
        }
    }
    const auto patients = read(rows);
    QVERIFY(!patients);
    QVERIFY2(patients.error().what.english().startsWith(u"Line 2, column value: "_s) &&
                 patients.error().what.english().contains(u"the parts recorded make 8.0, not 7.0"_s),
             qPrintable(patients.error().what.english()));
    rows.front()[u"value"_s] = u"8"_s;
    QVERIFY(read(rows));
    rows.pop_back(); // a part is missing, so nothing contradicts
    rows.front()[u"value"_s] = u"7"_s;
    QVERIFY(read(rows));
}

void TestFindingsCsv::upToTwentyErrorsAreListed()
{
    std::vector<Cells> rows;
    for (int i = 0; i < 23; ++i)
        rows.push_back(
            walk({{u"patient"_s, u"T-%1"_s.arg(i)}, {u"value"_s, i % 2 == 0 ? u"fast"_s : u"13"_s}}));
    rows.push_back(
        walk({{u"patient"_s, u"T-23"_s}, {u"trial"_s, u"2"_s}})); // wrong as a patient, not as a row
    rows.push_back(
        walk({{u"patient"_s, u"T-0"_s}, {u"trial"_s, u"5"_s}})); // its trial 1 has an error of its own
    const auto few = read(rows);
    QVERIFY(!few);
    const QStringList lines = few.error().what.english().split(u'\n');
    QCOMPARE(lines.size(), 12);
    QVERIFY(lines.first().startsWith(u"Line 2, column value: "_s));
    QVERIFY(lines[11].startsWith(u"Line 24, column value: "_s));
    for (int i = 0; i < 23; ++i)
        rows.push_back(walk({{u"patient"_s, u"U-%1"_s.arg(i)}, {u"value"_s, u"slow"_s}}));
    const QStringList many = read(rows).error().what.english().split(u'\n');
    QCOMPARE(many.size(), 21);
    QCOMPARE(many.last(), u"And 15 more."_s);
}

void TestFindingsCsv::noSentenceIsLong()
{
    const QString endless(5000, u'x');
    for (const QString& column : columns()) {
        const auto patients = read({walk({{column, endless}})});
        QVERIFY2(!patients, qPrintable(column));
        QVERIFY2(patients.error().what.english().size() < 600, qPrintable(patients.error().what.english()));
    }
}

void TestFindingsCsv::aReasonBesideAValueIsItsNote()
{
    const auto patients = read({walk({{u"reason"_s, u"Stumbled once"_s}})});
    QCOMPARE(patients->front().visits.front().visit.findings.front().note, u"Stumbled once"_s);
}

void TestFindingsCsv::theSameRowTwiceIsOne()
{
    const auto patients = read({walk(), walk()});
    QVERIFY2(patients, patients ? "" : qPrintable(patients.error().what.english()));
    QCOMPARE(patients->front().visits.front().visit.findings.front().trials, std::vector{12.5});
    const auto other = read({walk(), walk({{u"value"_s, u"12.6"_s}})});
    QVERIFY(!other);
    QVERIFY2(other.error().what.english().startsWith(u"Line 3, column value: It must be as in line 2"_s),
             qPrintable(other.error().what.english()));
}

void TestFindingsCsv::rowsOfOnePatientMustAgree_data()
{
    QTest::addColumn<QString>("column");
    QTest::addColumn<QString>("value");
    QTest::newRow("family") << u"family"_s << u"Aalto"_s;
    QTest::newRow("given") << u"given"_s << u"Bo"_s;
    QTest::newRow("born") << u"born"_s << u"1951-04-03"_s;
    QTest::newRow("sex") << u"sex"_s << u"male"_s;
    QTest::newRow("population") << u"population"_s << u"stroke"_s;
}

void TestFindingsCsv::rowsOfOnePatientMustAgree()
{
    QFETCH(QString, column);
    QFETCH(QString, value);
    const auto other = read({walk(), walk({{column, value}, {u"date"_s, u"2024-04-01"_s}})});
    QVERIFY(!other);
    QVERIFY2(other.error().what.english().startsWith(u"Line 3, column %1: "_s.arg(column)),
             qPrintable(other.error().what.english()));
    QVERIFY(read({walk(), walk({{column, u""_s}, {u"date"_s, u"2024-04-01"_s}})}));
}

void TestFindingsCsv::trialsMustAgreeAndHaveNoGap()
{
    const auto wrong = [](const Cells& second) {
        return read({walk(), walk(second)}).error().what.english();
    };
    QVERIFY(wrong({{u"trial"_s, u"3"_s}}).startsWith(u"Line 3, column trial: "_s));
    QVERIFY(wrong({{u"trial"_s, u"2"_s}, {u"aid"_s, u"stick"_s}}).startsWith(u"Line 3, column aid: "_s));
    QVERIFY(wrong({{u"trial"_s, u"2"_s}, {u"value"_s, u""_s}, {u"state"_s, u"unable"_s}})
                .startsWith(u"Line 3, column state: "_s));
}

void TestFindingsCsv::oneWrongRowLeavesNothing()
{
    QVERIFY(!read({walk(), walk({{u"patient"_s, u"T-2"_s}}), walk({{u"date"_s, u"yesterday"_s}})}));
}

void TestFindingsCsv::quotedCellsHoldCommasAndLines()
{
    const auto patients = read({walk({{u"reason"_s, u"\"Slow, then\nsteady\""_s}}),
                                walk({{u"date"_s, u"2024-05-01"_s}, {u"value"_s, u"x"_s}})});
    QVERIFY(!patients);
    QVERIFY2(patients.error().what.english().startsWith(u"Line 4, column value"_s),
             qPrintable(patients.error().what.english()));
}

void TestFindingsCsv::aFileTooLargeIsRefused()
{
    const auto patients =
        exchange::patientsFromCsv(QByteArray(exchange::largestFindingsFile + 1, '\n'), shipped(), today);
    QVERIFY(!patients);
    QVERIFY(patients.error().what.english().contains(u"100 MB"_s));
}

HOUSE_TEST(TestFindingsCsv)

} // namespace test_findings_csv

#include "test_findings_csv.moc"
