#include "core/storage/audit_trail.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/soundness.h"
#include "core/storage/uses.h"
#include "core/storage/visits.h"
#include "tests/support/examples.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_withdrawing
{

using base::ErrorKind;

const records::Author serra{u"Dr Serra"_s, u"neurologist"_s, u"R-12"_s};
const records::Author ferrer{u"M. Ferrer"_s, u"physiotherapist"_s, u"P-7"_s};
const QString wrongPerson = u"wrong person"_s;

/// A patient with an earlier and a later signed visit.
struct Clinic {
    RecordsFile file;
    records::Patient patient = *storage::Patients(file.store()).save(fullPatient());
    storage::Visits visits{file.store()};
    records::Visit earlier = signedVisit(QDate(2026, 1, 10));
    records::Visit later = signedVisit(QDate(2026, 2, 20));
    storage::Letters letters{file.store()};

    records::Visit signedVisit(QDate day)
    {
        return *visits.sign(visits.add(fullVisit(patient.id, day))->id, serra);
    }

    records::Letter letter() const
    {
        records::Letter letter;
        letter.patient = patient.id;
        letter.visit = later.id;
        letter.author = serra;
        letter.body = u"body"_s;
        letter.pdf = "pdf";
        return letter;
    }
};

/// A visit entered in error.
class TestWithdrawing : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itIsKeptWithReasonNameAndInstant()
    {
        Clinic clinic;
        const auto withdrawn = clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer);
        QVERIFY(withdrawn);
        QVERIFY(withdrawn->withdrawn);
        QCOMPARE(withdrawn->withdrawn->reason, wrongPerson);
        QCOMPARE(withdrawn->withdrawn->author, ferrer);
        records::Visit otherwise = *withdrawn;
        otherwise.withdrawn.reset();
        QCOMPARE(otherwise, clinic.later); // what was signed is as it was

        clinic.file.close();
        const auto reopened = clinic.file.openAgain();
        QCOMPARE(*storage::Visits(*reopened).withId(clinic.later.id), *withdrawn);
        QVERIFY(!storage::Visits(*reopened).withId(clinic.earlier.id)->withdrawn);
    }

    void everyVersionIsWithdrawnAndNoneIsAmended()
    {
        Clinic clinic;
        const auto amendment = *clinic.visits.amend(clinic.later.id, u"wrong side"_s);
        QVERIFY(clinic.visits.sign(amendment.id, serra));
        QVERIFY(clinic.visits.withdraw(amendment.id, wrongPerson, ferrer));
        QVERIFY(clinic.visits.withId(clinic.later.id)->withdrawn);
        const auto refused = clinic.visits.amend(amendment.id, u"again"_s);
        QVERIFY(!refused);
        QVERIFY(refused.error().what.english().contains(u"entered in error"_s));
    }

    void itIsRefused_data()
    {
        QTest::addColumn<QString>("reason");
        QTest::addColumn<QString>("name");
        QTest::newRow("without a reason") << u" \t"_s << u"M. Ferrer"_s;
        QTest::newRow("without a name") << wrongPerson << u" "_s;
    }

    void itIsRefused()
    {
        QFETCH(QString, reason);
        QFETCH(QString, name);
        Clinic clinic;
        const auto refused = clinic.visits.withdraw(clinic.later.id, reason, {name, {}, {}});
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Refused);
        QVERIFY(!clinic.visits.withId(clinic.later.id)->withdrawn);
    }

    void aDraftAndAnOpenAmendmentAndASecondTimeAreRefused()
    {
        Clinic clinic;
        const auto draft = *clinic.visits.add(fullVisit(clinic.patient.id, QDate(2026, 2, 25)));
        QVERIFY(!clinic.visits.withdraw(draft.id, wrongPerson, ferrer));
        const auto amendment = *clinic.visits.amend(clinic.later.id, u"wrong side"_s);
        QVERIFY(!clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer));
        QVERIFY(clinic.visits.discard(amendment.id));
        QVERIFY(clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer));
        QVERIFY(!clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer));
    }

    void theTrailSaysItAtTheSameInstant()
    {
        Clinic clinic;
        const auto withdrawn = *clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer);
        const auto entry = storage::AuditTrail(clinic.file.store()).ofRecord(clinic.later.id.text)->back();
        QCOMPARE(entry.action, u"withdrawn"_s);
        QCOMPARE(entry.kind, u"visit"_s);
        QCOMPARE(entry.at, withdrawn.withdrawn->at);
    }

    void theListOfPatientsAndTheUsesOfAMeasureLeaveItOut()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer));
        const auto summary = storage::Patients(clinic.file.store()).all()->front();
        QCOMPARE(summary.visits, 1);
        QCOMPARE(summary.lastVisit, std::optional(clinic.earlier.day));
        const auto uses = *storage::uses(clinic.file.store(), u"tandem-steps"_s);
        QCOMPARE(uses.size(), size_t(1));
        QCOMPARE(uses.front().visit, clinic.earlier.id);
    }

    void noLetterAboutItIsBegunOrSigned()
    {
        Clinic clinic;
        auto draft = *clinic.letters.save(clinic.letter());
        QVERIFY(clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer));
        QVERIFY(!clinic.letters.save(clinic.letter()));
        const auto refused = clinic.letters.signOff(draft);
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Refused);
        draft.history = u"what was typed is kept"_s;
        QVERIFY(clinic.letters.save(draft));
    }

    void aSignedLetterAboutItStaysAsItWas()
    {
        Clinic clinic;
        const auto sent = *clinic.letters.signOff(*clinic.letters.save(clinic.letter()));
        QVERIFY(clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer));
        QCOMPARE(*clinic.letters.withId(sent.id), sent);
    }

    void theDatabaseItselfRefuses_data()
    {
        QTest::addColumn<QString>("sql");
        QTest::newRow("changed") << u"UPDATE visit_withdrawals SET reason = 'x'"_s;
        QTest::newRow("taken back") << u"DELETE FROM visit_withdrawals"_s;
        QTest::newRow("replaced")
            << u"INSERT OR REPLACE INTO visit_withdrawals SELECT * FROM visit_withdrawals"_s;
        QTest::newRow("a draft") << u"INSERT INTO visit_withdrawals SELECT series, 'x', 'y', '', '', 'z' "
                                    "FROM visits WHERE state = 'draft'"_s;
        QTest::newRow("a new version of it")
            << u"INSERT INTO visits SELECT 99, 'new', 1, series, 2, patient, day, 'draft', form, NULL, NULL, "
               u"0, "
               "'', '', '', NULL, 'x' FROM visits WHERE series IN (SELECT series FROM visit_withdrawals)"_s;
        QTest::newRow("its letter signed")
            << u"UPDATE letters SET state = 'signed', signed_at = 'x' WHERE state = 'draft'"_s;
    }

    void theDatabaseItselfRefuses()
    {
        QFETCH(QString, sql);
        Clinic clinic;
        QVERIFY(clinic.letters.save(clinic.letter()));
        QVERIFY(clinic.visits.add(fullVisit(clinic.patient.id, QDate(2026, 2, 25))));
        const auto withdrawn = *clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer);
        const auto refused = storage::write(clinic.file.store(), sql, {});
        QVERIFY(!refused);
        QVERIFY2(refused.error().kind == ErrorKind::Refused, qPrintable(refused.error().detail));
        QCOMPARE(*clinic.visits.withId(clinic.later.id), withdrawn);
    }

    void aSoundFileWithOneIsSoundAndATrailWithoutItIsNot()
    {
        Clinic clinic;
        auto faults = [&] {
            return storage::faults(clinic.file.store(), examples::catalogue(), QDate(2026, 3, 1))
                ->filter(u"error"_s);
        };
        QVERIFY(clinic.visits.withdraw(clinic.later.id, wrongPerson, ferrer));
        QCOMPARE(faults(), QStringList());
        QVERIFY(storage::write(clinic.file.store(), u"DROP TRIGGER visit_withdrawals_delete"_s, {}));
        QVERIFY(storage::write(clinic.file.store(), u"DELETE FROM visit_withdrawals"_s, {}));
        QCOMPARE(faults().size(), 1);
        QVERIFY(faults().front().contains(u"The audit trail says"_s));
        QVERIFY(storage::write(clinic.file.store(),
                               u"INSERT INTO visit_withdrawals SELECT key, 'x', 'y', '', '', 'z' FROM visits "
                               "WHERE day = '2026-01-10'"_s,
                               {}));
        QCOMPARE(faults().size(), 2);
    }
};

HOUSE_TEST(TestWithdrawing)

} // namespace test_withdrawing

#include "test_withdrawing.moc"
