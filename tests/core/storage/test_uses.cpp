#include "core/storage/uses.h"

#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_uses
{

class TestUses : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theVersionThatCountsIsNamedNewestFirst()
    {
        RecordsFile file;
        const auto patient = *storage::Patients(file.store()).save(fullPatient());
        storage::Visits visits(file.store());
        const auto first = *visits.add(fullVisit(patient.id, QDate(2026, 1, 5)));
        QVERIFY(visits.sign(first.id, {u"Dr Serra"_s, {}, {}}));
        const auto amended = *visits.amend(first.id, u"wrong side"_s);
        const auto second = *visits.add(fullVisit(patient.id, QDate(2026, 2, 5)));

        const auto uses = *storage::uses(file.store(), u"tandem-steps"_s);
        QCOMPARE(uses.size(), 2u);
        QCOMPARE(uses.front().visit, second.id);
        QCOMPARE(uses.front().day, QDate(2026, 2, 5));
        QCOMPARE(uses.back().visit, amended.id);
        QCOMPARE(uses.back().patient, patient.id);
        QCOMPARE(uses.back().family, patient.family);
        QCOMPARE(uses.back().given, patient.given);
        QCOMPARE(uses.back().recordNumber, patient.recordNumber);
    }

    void whatWasNotAskedIsNoUse()
    {
        RecordsFile file;
        const auto patient = *storage::Patients(file.store()).save(fullPatient());
        QVERIFY(storage::Visits(file.store()).add(fullVisit(patient.id, QDate(2026, 1, 5))));
        QVERIFY(storage::uses(file.store(), u"berg-balance"_s)->empty());
        QVERIFY(storage::uses(file.store(), u"six-minute-walk"_s)->empty());
    }

    void everyFindingOfAMeasureIsFoundInEveryVersion()
    {
        RecordsFile file;
        const auto patient = *storage::Patients(file.store()).save(fullPatient());
        storage::Visits visits(file.store());
        const auto visit = *visits.add(fullVisit(patient.id, QDate(2026, 1, 5)));
        QVERIFY(visits.sign(visit.id, {u"Dr Serra"_s, {}, {}}));
        QVERIFY(visits.amend(visit.id, u"wrong side"_s));
        const auto findings = *storage::findingsOf(file.store(), u"toe-tapping"_s);
        QCOMPARE(findings.size(), 4u);
        QCOMPARE(findings.front(), *visit.finding(u"toe-tapping"_s, records::Side::Right));
    }
};

HOUSE_TEST(TestUses)

} // namespace test_uses

#include "test_uses.moc"
