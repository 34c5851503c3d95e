#include "core/storage/audit_trail.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_audit_trail
{

using base::ErrorKind;
using storage::AuditTrail;

const records::Author serra{u"Dr Serra"_s, {}, {}};

/// The entries as "action kind", oldest first.
QStringList acts(const base::Result<std::vector<storage::AuditEntry>>& entries)
{
    QStringList acts;
    for (const storage::AuditEntry& entry : *entries)
        acts += entry.action + u' ' + entry.kind;
    return acts;
}

class TestAuditTrail : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyWriteOfAVisitIsThere()
    {
        RecordsFile file;
        const auto patient = *storage::Patients(file.store()).save(fullPatient());
        storage::Visits visits(file.store());
        const auto visit = *visits.add(fullVisit(patient.id, QDate(2026, 2, 20)));
        QVERIFY(visits.saveFinding(visit.id, visit.findings.front()));
        QVERIFY(visits.removeFinding(visit.id, visit.findings.front().measure, visit.findings.front().side));
        QVERIFY(visits.saveConditions(visit.id, {}, true));
        QVERIFY(visits.saveDay(visit.id, visit.day));
        QVERIFY(visits.sign(visit.id, serra));
        const auto amendment = *visits.amend(visit.id, u"reason"_s);
        QVERIFY(visits.discard(amendment.id));

        const AuditTrail trail(file.store());
        QCOMPARE(acts(trail.ofRecord(visit.id.text)),
                 (QStringList{u"created visit"_s, u"changed finding"_s, u"removed finding"_s,
                              u"changed conditions"_s, u"changed visit"_s, u"signed visit"_s}));
        QCOMPARE(acts(trail.ofRecord(amendment.id.text)),
                 (QStringList{u"amended visit"_s, u"removed visit"_s}));
    }

    void everyWriteOfAPatientALetterAndTheClinicIsThere()
    {
        RecordsFile file;
        storage::Patients patients(file.store());
        const auto patient = *patients.save(*patients.save(fullPatient()));
        storage::Visits visits(file.store());
        const auto visit = *visits.add(fullVisit(patient.id, QDate(2026, 2, 20)));
        QVERIFY(visits.sign(visit.id, serra));
        storage::Letters letters(file.store());
        records::Letter letter;
        letter.patient = patient.id;
        letter.visit = visit.id;
        letter.author = serra;
        letter.body = u"body"_s;
        letter.pdf = "pdf";
        letter = *letters.signOff(*letters.save(*letters.save(letter)));
        QVERIFY(file.store().save(records::Clinic{u"Clinic"_s, {}, {}, false}));

        const AuditTrail trail(file.store());
        QCOMPARE(acts(trail.ofRecord(patient.id.text)),
                 (QStringList{u"created patient"_s, u"changed patient"_s}));
        QCOMPARE(acts(trail.ofRecord(letter.id.text)),
                 (QStringList{u"created letter"_s, u"changed letter"_s, u"signed letter"_s}));
        QCOMPARE(acts(trail.ofRecord(u"clinic"_s)), QStringList{u"changed clinic"_s});
    }

    void anEntrySaysWhoAndWhen()
    {
        RecordsFile file;
        const auto patient = *storage::Patients(file.store()).save(fullPatient());
        const auto entry = AuditTrail(file.store()).ofRecord(patient.id.text)->front();
        QCOMPARE(entry.who, u"tester"_s);
        QCOMPARE(entry.record, patient.id.text);
        QCOMPARE(entry.at, QDateTime(QDate(2026, 3, 1), QTime(9, 0, 1), Qt::UTC));
        QCOMPARE(entry.at.timeSpec(), Qt::UTC);
    }

    void theNewestComeFirst()
    {
        RecordsFile file;
        storage::Patients patients(file.store());
        for (int i = 0; i < 3; ++i)
            QVERIFY(patients.save(records::Patient{}));
        const auto last = *patients.save(records::Patient{});
        const auto newest = AuditTrail(file.store()).newest(2);
        QCOMPARE(newest->size(), size_t(2));
        QCOMPARE(newest->front().record, last.id.text);
    }

    void aWriteThatIsTakenBackLeavesNoEntry()
    {
        RecordsFile file;
        storage::Patients patients(file.store());
        QVERIFY(patients.save(fullPatient()));
        QVERIFY(!patients.save(fullPatient()));
        QCOMPARE(AuditTrail(file.store()).newest(10)->size(), size_t(1));
    }

    void itHoldsNothingOfThePatient()
    {
        RecordsFile file;
        const auto patient = *storage::Patients(file.store()).save(fullPatient());
        QVERIFY(storage::Visits(file.store()).add(fullVisit(patient.id, QDate(2026, 2, 20))));
        const auto entries = AuditTrail(file.store()).newest(100);
        for (const auto& entry : *entries) {
            for (const QString& field : {entry.who, entry.action, entry.kind, entry.record}) {
                for (const QString& secret :
                     {patient.family, patient.given, patient.recordNumber, u"tapping"_s})
                    QVERIFY(!field.contains(secret));
            }
        }
    }

    void anImportSaysThatItWasOne()
    {
        RecordsFile file;
        QVERIFY(storage::note(file.store(), u"imported"_s, u"clinic"_s, u"clinic"_s));
        QCOMPARE(acts(AuditTrail(file.store()).newest(1)), QStringList{u"imported clinic"_s});
        QCOMPARE(storage::note(file.store(), u"admired"_s, u"clinic"_s, u"clinic"_s).error().kind,
                 ErrorKind::Invalid);
    }

    void theDatabaseItselfRefusesToChangeIt_data()
    {
        QTest::addColumn<QString>("sql");
        QTest::newRow("update") << u"UPDATE audit_trail SET who = 2"_s;
        QTest::newRow("delete") << u"DELETE FROM audit_trail"_s;
        QTest::newRow("replace")
            << u"INSERT OR REPLACE INTO audit_trail (number, made_at, who, action, kind, record) "
               "VALUES (1, '', 1, 'created', 'patient', 1)"_s;
        QTest::newRow("name changed") << u"UPDATE audit_people SET who = 'nobody'"_s;
        QTest::newRow("name replaced") << u"INSERT OR REPLACE INTO audit_people VALUES (1, 'nobody')"_s;
        QTest::newRow("name taken over") << u"INSERT OR REPLACE INTO audit_people VALUES (9, 'tester')"_s;
        QTest::newRow("name removed") << u"DELETE FROM audit_people"_s;
        QTest::newRow("record changed") << u"UPDATE audit_records SET record = 'x'"_s;
        QTest::newRow("record replaced") << u"INSERT OR REPLACE INTO audit_records VALUES (1, 'x')"_s;
        QTest::newRow("record removed") << u"DELETE FROM audit_records"_s;
        QTest::newRow("gap") << u"INSERT INTO audit_trail (number, made_at, who, action, kind, record) "
                                "VALUES (9, '', 1, 'created', 'patient', 1)"_s;
    }

    void theDatabaseItselfRefusesToChangeIt()
    {
        QFETCH(QString, sql);
        RecordsFile file;
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
        const auto refused = storage::write(file.store(), sql, {});
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Refused);
        QCOMPARE(refused.error().what.english(), u"The audit trail only grows."_s);
        const auto entries = AuditTrail(file.store()).newest(10);
        QCOMPARE(entries->size(), size_t(1));
        QCOMPARE(entries->front().who, u"tester"_s);
    }
};

HOUSE_TEST(TestAuditTrail)

} // namespace test_audit_trail

#include "test_audit_trail.moc"
