#include "core/storage/audit_trail.h"
#include "core/storage/happenings.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/soundness.h"
#include "core/storage/targets.h"
#include "core/storage/visits.h"
#include "tests/support/examples.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace test_soundness
{

using records::Side;

const QDate today(2026, 3, 1);
const records::Author serra{u"Dr Serra"_s, {}, {}};

/// A sound signed visit with one finding.
struct Clinic {
    RecordsFile file;
    catalogue::Catalogue catalogue = examples::catalogue();
    records::Patient patient = *storage::Patients(file.store()).save(invented());
    storage::Visits visits{file.store()};
    records::Visit visit = *visits.sign(visits.add(draft())->id, serra);

    static records::Patient invented()
    {
        records::Patient patient = fullPatient();
        patient.population.clear();
        return patient;
    }

    records::Visit draft() const
    {
        records::Visit draft;
        draft.patient = patient.id;
        draft.day = QDate(2026, 2, 20);
        draft.findings = {
            {u"tandem-steps"_s, Side::None, values::Quantity{7, values::Unit::Steps}, {}, false, {}, {}, {}}};
        return draft;
    }

    QStringList faults() { return *storage::faults(file.store(), catalogue, today); }

    /// Writes past triggers, checks and foreign keys, as damage or a foreign tool would.
    void damage(QStringList statements)
    {
        statements.prepend(u"PRAGMA ignore_check_constraints = ON"_s);
        statements.prepend(u"PRAGMA foreign_keys = OFF"_s);
        statements.append(
            u"PRAGMA ignore_check_constraints = OFF"_s); // else it does not look for broken ones
        for (const QString& statement : statements) {
            const auto done = storage::write(file.store(), statement, {});
            QVERIFY2(done, done ? "" : qPrintable(done.error().detail));
        }
    }
};

class TestSoundness : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aSoundFileHasNoFaults()
    {
        Clinic clinic;
        QCOMPARE(clinic.faults(), QStringList());
        RecordsFile empty;
        QCOMPARE(*storage::faults(empty.store(), clinic.catalogue, today), QStringList());
    }

    void itTellsHowFarItIsAndCanBeStopped()
    {
        Clinic clinic;
        for (int number = 0; number < 100; ++number) {
            records::Patient another = Clinic::invented();
            another.recordNumber = QString::number(number);
            QVERIFY(storage::Patients(clinic.file.store()).save(another));
        }
        std::vector<int> told;
        const auto looked = [&](int last) {
            return storage::faults(clinic.file.store(), clinic.catalogue, today, [&, last](int percent) {
                told.push_back(percent);
                return int(told.size()) != last;
            });
        };
        QVERIFY(looked(-1));
        const int asked = int(told.size());
        QVERIFY(asked > 2 && std::ranges::is_sorted(told) && told.back() <= 100);
        for (int last = 1; last <= asked; last += 7) {
            told.clear();
            const auto stopped = looked(last);
            QVERIFY(!stopped);
            QCOMPARE(stopped.error().what.english(), base::stopped().what.english());
        }
        QCOMPARE(clinic.faults(), QStringList());
    }

    void damageIsFound_data()
    {
        QTest::addColumn<QStringList>("damage");
        QTest::addColumn<QString>("said");
        QTest::newRow("a finding without its visit")
            << QStringList{u"DROP TRIGGER findings_signed_update"_s, u"UPDATE findings SET visit = 99"_s}
            << u"findings"_s;
        QTest::newRow("a visit signed by nobody")
            << QStringList{u"DROP TRIGGER visits_signed_update"_s, u"UPDATE visits SET author_name = ''"_s}
            << u"visits"_s;
        QTest::newRow("a done finding without a value")
            << QStringList{u"DROP TRIGGER findings_signed_update"_s, u"UPDATE findings SET number = NULL"_s}
            << u"findings"_s;
        QTest::newRow("an audit entry taken out")
            << QStringList{u"DROP TRIGGER audit_trail_delete"_s,
                           u"DELETE FROM audit_trail WHERE number = 2"_s}
            << u"audit trail"_s;
        QTest::newRow("a visit of another patient")
            << QStringList{u"INSERT INTO patients SELECT 'x', 1, '', family, given, born, sex, "
                           u"dominant_hand, "
                           "height_cm, weight_kg, diagnosis, population, onset, referrer, "
                           "general_practitioner, "
                           "allergies, notes FROM patients"_s,
                           u"INSERT INTO visits SELECT 99, 'y', 1, series, 2, 'x', day, 'draft', form, NULL, "
                           "NULL, 0, '', '', '', NULL, 'reason' FROM visits"_s}
            << u"another patient"_s;
    }

    void damageIsFound()
    {
        QFETCH(QStringList, damage);
        QFETCH(QString, said);
        Clinic clinic;
        clinic.damage(damage);
        const QStringList faults = clinic.faults();
        QCOMPARE(faults.size(), 1);
        QVERIFY2(faults.first().contains(said), qPrintable(faults.first()));
        QVERIFY(!faults.first().contains(clinic.patient.family));
    }

    void aLetterOfAnotherPatientsVisitIsFound()
    {
        Clinic clinic;
        const auto other = *storage::Patients(clinic.file.store()).save([] {
            records::Patient patient;
            patient.family = u"Nowak"_s;
            return patient;
        }());
        records::Letter letter;
        letter.patient = other.id;
        letter.visit = clinic.visit.id;
        letter = *storage::Letters(clinic.file.store()).save(letter);
        QCOMPARE(clinic.faults(),
                 QStringList{u"Letter %1: Its visit is another patient's."_s.arg(letter.id.text)});
    }

    void aDeclarationAboutAnotherPatientsVisitIsFound()
    {
        Clinic clinic;
        records::Patient other;
        other.family = u"Nowak"_s;
        other = *storage::Patients(clinic.file.store()).save(other);
        const QString sql = uR"(INSERT INTO declared_equal VALUES (:patient, 1, 'sara', :earlier, 'gone', 0,
                                'x', 'tester', '2026-03-01'))"_s;
        QVERIFY(storage::write(clinic.file.store(), sql,
                               {{":patient", other.id.text}, {":earlier", clinic.visit.series.text}}));
        QCOMPARE(
            clinic.faults(),
            QStringList{u"Patient %1: Results are declared comparable with a visit of another patient."_s.arg(
                other.id.text)});
    }

    void anEventOrTargetThatIsNotAllowedIsFound()
    {
        Clinic clinic;
        storage::Happenings happenings(clinic.file.store());
        records::Happening fall;
        fall.patient = clinic.patient.id;
        fall.kind = records::HappeningKind::Fall;
        fall.from = today;
        fall = *happenings.save(fall);
        records::Target target{u"tandem-steps"_s, Side::None, 8, {}, {}, today, {}, {}, {}};
        storage::Targets targets(clinic.file.store());
        QVERIFY(targets.save(clinic.patient.id, target));
        QCOMPARE(clinic.faults(), QStringList());

        fall.until = today.addDays(1);
        fall = *happenings.save(fall);
        target.value = 11;
        QVERIFY(targets.save(clinic.patient.id, target));
        QCOMPARE(clinic.faults(),
                 (QStringList{
                     u"Event %1: Last day of the event: a day from 01-Jan-1880 to today."_s.arg(fall.id.text),
                     u"Patient %1: Tandem steps achieved of 10: 0 to 10 steps, whole numbers."_s.arg(
                         clinic.patient.id.text)}));

        QVERIFY(happenings.takeBack(fall.id, u"mistyped"_s));
        QVERIFY(targets.drop(clinic.patient.id, target.measure, target.side, u"mistyped"_s));
        QCOMPARE(clinic.faults(), QStringList());
    }

    void anEventThatWentOnAfterItWasTakenBackIsFound()
    {
        Clinic clinic;
        storage::Happenings happenings(clinic.file.store());
        records::Happening fall;
        fall.patient = clinic.patient.id;
        fall.kind = records::HappeningKind::Fall;
        fall.from = today;
        fall = *happenings.save(fall);
        QVERIFY(happenings.takeBack(fall.id, u"her sister's"_s));
        clinic.damage({u"DROP TRIGGER happenings_taken_back"_s,
                       u"INSERT INTO happenings SELECT id, 3, patient, kind, first_day, last_day, injury, "
                       "words, '', who, entered_at FROM happenings WHERE version = 1"_s});
        QCOMPARE(clinic.faults(),
                 QStringList{
                     u"Event %1: A version follows none, another patient's or one that was taken back."_s.arg(
                         fall.id.text)});
    }

    void whatTheCatalogueRefusesIsFound()
    {
        Clinic clinic;
        records::Visit draft = clinic.draft();
        draft.findings.front().value = values::Quantity{13, values::Unit::Steps};
        draft.findings.push_back(
            {u"no-such-measure"_s, Side::None, values::Missing{}, {}, false, {}, {}, {}});
        draft = *clinic.visits.add(draft);
        const QStringList faults = clinic.faults();
        QCOMPARE(faults.size(), 2);
        for (const QString& fault : faults) {
            QVERIFY(fault.startsWith(u"Visit "_s + draft.id.text));
            QVERIFY(!fault.contains(u"13"_s.append(u' ')));
        }
    }

    void aVisitInTheFutureIsFound()
    {
        Clinic clinic;
        records::Visit draft = clinic.draft();
        draft.day = today.addDays(1);
        QVERIFY(clinic.visits.add(draft));
        QCOMPARE(clinic.faults().size(), 1);
    }

    void aPatientWithoutAnyNameIsFound()
    {
        Clinic clinic;
        const auto nameless = *storage::Patients(clinic.file.store()).save(records::Patient{});
        QCOMPARE(clinic.faults().size(), 1);
        QVERIFY(clinic.faults().first().startsWith(u"Patient "_s + nameless.id.text));
    }

    void brokenPagesAreFound()
    {
        Clinic clinic;
        for (int i = 0; i < 200; ++i)
            QVERIFY(storage::note(clinic.file.store(), u"changed"_s, u"clinic"_s, u"clinic"_s));
        clinic.file.close();
        QFile file(clinic.file.path());
        QVERIFY(file.open(QIODevice::ReadWrite));
        const QByteArray bytes = file.readAll();
        const qsizetype within = bytes.lastIndexOf("tester");
        QVERIFY(within > 0 && file.seek(within / 4096 * 4096));
        file.write(QByteArray(64, '\xff'));
        file.close();

        const auto store = clinic.file.openAgain();
        const auto faults = storage::faults(*store, clinic.catalogue, today);
        QVERIFY(!faults || !faults->isEmpty());
    }
};

HOUSE_TEST(TestSoundness)

} // namespace test_soundness

#include "test_soundness.moc"
