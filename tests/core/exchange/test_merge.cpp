#include "core/exchange/merge.h"
#include "tests/support/findings_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_merge
{

using namespace findings_file;
using records::Side;

/// What the records would hold after a first import of the rows.
struct Stored {
    records::Patient patient;
    std::vector<records::Visit> visits;
};

Stored stored(const std::vector<Cells>& rows, records::VisitState state = records::VisitState::Signed)
{
    const auto imported = read(rows);
    Stored kept{imported->front().patient, {}};
    kept.patient.id = records::PatientId::make();
    kept.patient.revision = 1;
    for (const exchange::ImportedVisit& visit : imported->front().visits) {
        kept.visits.push_back(visit.visit);
        kept.visits.back().id = kept.visits.back().series = records::VisitId::make();
        kept.visits.back().state = state;
        if (state != records::VisitState::Draft) {
            kept.visits.back().author = {u"A. Tester"_s, {}, {}};
            kept.visits.back().signedAt = QDateTime(today, QTime(9, 30), Qt::UTC);
        }
    }
    return kept;
}

/// What the rows add, or the one fault.
base::Result<exchange::Addition> added(const std::vector<Cells>& rows,
                                       const std::optional<records::Patient>& patient = {},
                                       const std::vector<records::Visit>& versions = {})
{
    exchange::Faults faults;
    auto addition = exchange::addition(read(rows)->front(), patient, versions, shipped(), today, faults);
    if (!faults.isNone())
        return faults.asOne();
    return addition;
}

auto added(const std::vector<Cells>& rows, const Stored& kept)
{
    return added(rows, kept.patient, kept.visits);
}

QString errorOf(const base::Result<exchange::Addition>& addition)
{
    return addition ? QString() : addition.error().what.english();
}

const Cells secondTrial = {{u"trial"_s, u"2"_s}, {u"value"_s, u"11.5"_s}};
const Cells berg = {{u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46"_s}};

class TestMerge : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anUnknownPatientIsNew();
    void theSameRowsAgainAddNothing();
    void whatWasEnteredInErrorIsNotBroughtBackByTheSameFile();
    void anotherDayIsANewVisit();
    void furtherFindingsOfASignedDayNeedAnAmendment();
    void furtherFindingsOfADraftDayGoIntoTheDraft();
    void furtherTrialsExtendTheFinding();
    void whatTheRecordsSayIsNotOverwritten_data();
    void whatTheRecordsSayIsNotOverwritten();
    void whatTheRecordsDoNotKnowIsTaken();
    void trialsFollowOnThoseInTheRecords();
    void aFurtherFindingKeepsItsOwnConditions();
    void valuesEnteredWithoutTrialsAreTheFirstTrial();
};

void TestMerge::anUnknownPatientIsNew()
{
    const auto addition = added({walk()});
    QVERIFY(addition);
    QVERIFY(addition->isPatientChanged);
    QCOMPARE(addition->newVisits.size(), size_t(1));
    QVERIFY(addition->further.empty());
}

void TestMerge::theSameRowsAgainAddNothing()
{
    const std::vector<Cells> rows = {walk(), walk(secondTrial), walk(berg),
                                     walk({{u"measure"_s, u"six-minute-walk"_s},
                                           {u"value"_s, u""_s},
                                           {u"state"_s, u"refused"_s},
                                           {u"reason"_s, u"Tired"_s}})};
    const auto addition = added(rows, stored(rows));
    QVERIFY2(addition, qPrintable(errorOf(addition)));
    QVERIFY(addition->isNothing());
}

void TestMerge::whatWasEnteredInErrorIsNotBroughtBackByTheSameFile()
{
    Stored kept = stored({walk(), walk(berg)});
    kept.visits.front().withdrawn = records::Withdrawal{u"wrong person"_s, {u"A. Tester"_s, {}, {}}, {}};
    const auto again = added({walk(), walk(berg)}, kept);
    QVERIFY(again);
    QVERIFY(again->newVisits.empty());
    QVERIFY(again->further.empty());
    // Other results of that day are a visit of their own.
    const auto other = added({walk({{u"value"_s, u"9.5"_s}})}, kept);
    QVERIFY(other);
    QCOMPARE(other->newVisits.size(), size_t(1));
    QVERIFY(other->further.empty());
}

void TestMerge::anotherDayIsANewVisit()
{
    const auto addition = added({walk(), walk({{u"date"_s, u"2024-04-01"_s}})}, stored({walk()}));
    QVERIFY2(addition, qPrintable(errorOf(addition)));
    QCOMPARE(addition->newVisits.size(), size_t(1));
    QCOMPARE(addition->newVisits.front().day, QDate(2024, 4, 1));
    QVERIFY(addition->further.empty());
    QVERIFY(!addition->isPatientChanged);
}

void TestMerge::furtherFindingsOfASignedDayNeedAnAmendment()
{
    const Stored kept = stored({walk()});
    const auto addition = added({walk(), walk(berg)}, kept);
    QVERIFY2(addition, qPrintable(errorOf(addition)));
    QVERIFY(addition->newVisits.empty());
    QCOMPARE(addition->further.size(), size_t(1));
    QCOMPARE(addition->further.front().visit, kept.visits.front().id);
    QVERIFY(!addition->further.front().isDraft);
    QCOMPARE(addition->further.front().findings.size(), size_t(1));
    QCOMPARE(addition->further.front().findings.front().measure, u"berg-balance"_s);
}

void TestMerge::furtherFindingsOfADraftDayGoIntoTheDraft()
{
    const auto addition = added({walk(berg)}, stored({walk()}, records::VisitState::Draft));
    QVERIFY2(addition, qPrintable(errorOf(addition)));
    QVERIFY(addition->further.front().isDraft);
}

void TestMerge::furtherTrialsExtendTheFinding()
{
    const std::vector<Cells> both = {
        walk({{u"measure"_s, u"timed-25-foot-walk"_s}}),
        walk({{u"measure"_s, u"timed-25-foot-walk"_s}, {u"trial"_s, u"2"_s}, {u"value"_s, u"11.5"_s}})};
    for (const std::vector<Cells>& rows : {both, std::vector{both.back()}}) {
        const auto addition = added(rows, stored({both.front()}));
        QVERIFY2(addition, qPrintable(errorOf(addition)));
        const records::Finding& finding = addition->further.front().findings.front();
        QCOMPARE(finding.trials, (std::vector{12.5, 11.5}));
        QCOMPARE(finding.value, values::Value(values::Quantity{12.0, values::Unit::Second}));
    }
}

void TestMerge::whatTheRecordsSayIsNotOverwritten_data()
{
    QTest::addColumn<Cells>("changed");
    QTest::addColumn<QString>("column");
    QTest::newRow("value") << Cells{{u"value"_s, u"12.6"_s}} << u"value"_s;
    QTest::newRow("state") << Cells{{u"value"_s, u""_s}, {u"state"_s, u"unable"_s}} << u"state"_s;
    QTest::newRow("aid") << Cells{{u"aid"_s, u"stick"_s}} << u"aid"_s;
    QTest::newRow("reason") << Cells{{u"reason"_s, u"In a hurry"_s}} << u"reason"_s;
    QTest::newRow("family") << Cells{{u"family"_s, u"Aalto"_s}} << u"family"_s;
    QTest::newRow("born") << Cells{{u"born"_s, u"1951-04-03"_s}} << u"born"_s;
    QTest::newRow("sex") << Cells{{u"sex"_s, u"male"_s}} << u"sex"_s;
    QTest::newRow("population") << Cells{{u"population"_s, u"stroke"_s}} << u"population"_s;
}

void TestMerge::whatTheRecordsSayIsNotOverwritten()
{
    QFETCH(Cells, changed);
    QFETCH(QString, column);
    const QString what = errorOf(added({walk(changed)}, stored({walk()})));
    QVERIFY2(what.startsWith(u"Line 2, column %1: Allowed is what the records hold"_s.arg(column)),
             qPrintable(what));
}

void TestMerge::whatTheRecordsDoNotKnowIsTaken()
{
    Stored kept = stored({walk()});
    kept.patient.born.reset();
    kept.patient.sex = records::Sex::Unknown;
    kept.patient.notes = u"Prefers the afternoon"_s;
    const auto addition = added({walk()}, kept);
    QVERIFY2(addition, qPrintable(errorOf(addition)));
    QVERIFY(addition->isPatientChanged);
    QCOMPARE(addition->patient.born, QDate(1951, 3, 4));
    QCOMPARE(addition->patient.sex, records::Sex::Female);
    QCOMPARE(addition->patient.notes, kept.patient.notes);
    QCOMPARE(addition->patient.id, kept.patient.id);
}

void TestMerge::trialsFollowOnThoseInTheRecords()
{
    const auto third = walk({{u"trial"_s, u"3"_s}});
    QVERIFY(errorOf(added({third}, stored({walk()})))
                .startsWith(u"Line 2, column trial: The next trial of this finding is 2"_s));
    QVERIFY(errorOf(added({third}, stored({walk(berg)}))).startsWith(u"Line 2, column trial: "_s));
    QVERIFY(!added({third}));
}

void TestMerge::aFurtherFindingKeepsItsOwnConditions()
{
    const Stored kept = stored({walk({{u"aid"_s, u"stick"_s}})});
    Cells row = berg;
    row[u"medication"_s] = u"on"_s;
    const auto addition = added({walk(row)}, kept);
    QVERIFY2(addition, qPrintable(errorOf(addition)));
    const auto own = records::withExceptions(kept.visits.front().conditions,
                                             addition->further.front().findings.front().exceptions);
    QCOMPARE(records::recorded(own, u"aid"_s), QString());
    QCOMPARE(records::recorded(own, u"medication"_s), u"on"_s);
}

void TestMerge::valuesEnteredWithoutTrialsAreTheFirstTrial()
{
    Stored kept = stored({walk()});
    kept.visits.front().findings.front().trials.clear();
    QVERIFY(added({walk()}, kept)->isNothing());
    QCOMPARE(added({walk(), walk(secondTrial)}, kept)->further.front().findings.front().trials,
             (std::vector{12.5, 11.5}));
}

HOUSE_TEST(TestMerge)

} // namespace test_merge

#include "test_merge.moc"
