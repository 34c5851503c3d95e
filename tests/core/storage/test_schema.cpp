#include "core/storage/clinic_catalogues.h"
#include "core/storage/happenings.h"
#include "core/storage/imports.h"
#include "core/storage/letters.h"
#include "core/storage/migrations.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/targets.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QProcess>
#include <QStandardPaths>

using namespace Qt::StringLiterals;

namespace test_schema
{

using base::ErrorKind;

const records::Author serra{u"Dr Serra"_s, {}, {}};
const QString somebodyElse = u"11111111-0000-4000-8000-000000000009"_s;

/// One signed visit with one signed letter, and one draft.
struct Clinic {
    RecordsFile file;
    records::Patient patient = *storage::Patients(file.store()).save(fullPatient());
    storage::Visits visits{file.store()};
    records::Visit frozen = signedVisit();
    records::Visit draft = *visits.add(fullVisit(patient.id, QDate(2026, 2, 25)));
    records::Letter letter = sentLetter();

    records::Visit signedVisit()
    {
        return *visits.sign(visits.add(fullVisit(patient.id, QDate(2026, 2, 20)))->id, serra);
    }

    records::Letter sentLetter()
    {
        records::Letter written;
        written.patient = patient.id;
        written.visit = frozen.id;
        written.author = serra;
        written.body = u"body"_s;
        written.pdf = "pdf";
        storage::Letters letters(file.store());
        return *letters.signOff(*letters.save(written));
    }
};

/// What the database refuses by itself, whichever program writes.
class TestSchema : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsFrozenIsRefused_data()
    {
        QTest::addColumn<QString>("sql");
        const auto ofSigned = u" (SELECT id FROM visits WHERE state = 'signed')"_s;
        const auto keyOfSigned = u" (SELECT key FROM visits WHERE state = 'signed')"_s;
        QTest::newRow("visit changed") << u"UPDATE visits SET day = '2026-01-01' WHERE id ="_s + ofSigned;
        QTest::newRow("form as made changed")
            << u"UPDATE visits SET form_made = NULL WHERE id ="_s + ofSigned;
        QTest::newRow("visit unsigned")
            << u"UPDATE visits SET state = 'draft', signed_at = NULL, author_name = '' "
               "WHERE id ="_s +
                   ofSigned;
        QTest::newRow("visit removed") << u"DELETE FROM visits WHERE id ="_s + ofSigned;
        QTest::newRow("visit replaced")
            << u"INSERT OR REPLACE INTO visits SELECT * FROM visits WHERE state = 'signed'"_s;
        QTest::newRow("finding changed") << u"UPDATE findings SET note = 'x' WHERE visit ="_s + keyOfSigned;
        QTest::newRow("finding moved away")
            << u"UPDATE findings SET visit = 99 WHERE visit ="_s + keyOfSigned;
        QTest::newRow("finding moved in")
            << u"UPDATE findings SET measure = measure || 'x', visit ="_s + keyOfSigned +
                   u" WHERE visit = (SELECT key FROM visits WHERE state = 'draft')"_s;
        QTest::newRow("finding removed") << u"DELETE FROM findings WHERE visit ="_s + keyOfSigned;
        QTest::newRow("finding added") << u"INSERT INTO findings (visit, position, measure, side, state, "
                                          "reason, cap_reached, signs, note) VALUES ("_s +
                                              keyOfSigned +
                                              u", 99, 'sara', 'none', 'not-asked', '', 0, '', '')"_s;
        QTest::newRow("trials changed")
            << u"UPDATE findings SET trials = '[1]' WHERE visit ="_s + keyOfSigned;
        QTest::newRow("taps changed") << u"UPDATE findings SET taps = '[1]' WHERE visit ="_s + keyOfSigned;
        QTest::newRow("exceptions removed")
            << u"UPDATE findings SET exceptions = NULL WHERE visit ="_s + keyOfSigned;
        QTest::newRow("conditions removed") << u"UPDATE visits SET conditions = NULL WHERE id ="_s + ofSigned;
        QTest::newRow("conditions changed") << u"UPDATE condition_sets SET conditions = '{\"aid\":\"x\"}'"_s;
        QTest::newRow("conditions replaced") << u"INSERT OR REPLACE INTO condition_sets SELECT key, digest, "
                                                "'{\"aid\":\"x\"}' FROM condition_sets"_s;
        QTest::newRow("conditions dropped") << u"DELETE FROM condition_sets"_s;
        QTest::newRow("form as made changed itself") << u"UPDATE forms_made SET document = '{\"id\":1}'"_s;
        QTest::newRow("form as made replaced")
            << u"INSERT OR REPLACE INTO forms_made SELECT key, digest, '{\"id\":1}' FROM forms_made"_s;
        QTest::newRow("form as made dropped") << u"DELETE FROM forms_made"_s;
        QTest::newRow("red flag changed")
            << u"UPDATE red_flags SET action = 'x' WHERE answer = 'yes' AND visit ="_s + keyOfSigned;
        QTest::newRow("red flag moved in")
            << u"UPDATE red_flags SET flag = flag || 'x', visit ="_s + keyOfSigned +
                   u" WHERE visit = (SELECT key FROM visits WHERE state = 'draft')"_s;
        QTest::newRow("red flag removed") << u"DELETE FROM red_flags WHERE visit ="_s + keyOfSigned;
        QTest::newRow("red flag added")
            << u"INSERT INTO red_flags VALUES ("_s + keyOfSigned + u", 'x', 'no', '', NULL, NULL)"_s;
        QTest::newRow("red flag replaced")
            << u"INSERT OR REPLACE INTO red_flags SELECT visit, flag, 'no', '', NULL, NULL FROM red_flags WHERE visit ="_s +
                   keyOfSigned;
        QTest::newRow("letter changed") << u"UPDATE letters SET body = 'x' WHERE state = 'signed'"_s;
        QTest::newRow("letter removed") << u"DELETE FROM letters WHERE state = 'signed'"_s;
        QTest::newRow("letter replaced")
            << u"INSERT OR REPLACE INTO letters SELECT * FROM letters WHERE state = 'signed'"_s;
    }

    void whatOnlyGrowsIsRefused_data()
    {
        QTest::addColumn<QString>("sql");
        QTest::newRow("choice changed") << u"UPDATE evidence_choices SET reason = 'x'"_s;
        QTest::newRow("choice removed") << u"DELETE FROM evidence_choices"_s;
        QTest::newRow("choice replaced")
            << u"INSERT OR REPLACE INTO evidence_choices SELECT * FROM evidence_choices"_s;
        QTest::newRow("clinic's choice changed") << u"UPDATE clinic_choices SET reason = 'x'"_s;
        QTest::newRow("clinic's choice removed") << u"DELETE FROM clinic_choices"_s;
        QTest::newRow("clinic's choice replaced")
            << u"INSERT OR REPLACE INTO clinic_choices SELECT * FROM clinic_choices"_s;
        QTest::newRow("own catalogue changed") << u"UPDATE clinic_catalogues SET document = 'x'"_s;
        QTest::newRow("own catalogue removed") << u"DELETE FROM clinic_catalogues"_s;
        QTest::newRow("own catalogue replaced")
            << u"INSERT OR REPLACE INTO clinic_catalogues SELECT * FROM clinic_catalogues"_s;
        QTest::newRow("declaration changed") << u"UPDATE declared_equal SET taken_back = 1"_s;
        QTest::newRow("import changed") << u"UPDATE imports SET file = 'x', taken_back_at = 'x'"_s;
        QTest::newRow("import not taken back") << u"UPDATE imports SET taken_back_at = NULL"_s;
        QTest::newRow("import removed") << u"DELETE FROM imports"_s;
        QTest::newRow("import replaced") << u"INSERT OR REPLACE INTO imports SELECT * FROM imports"_s;
        for (const char* table : {"import_writes", "import_findings"}) {
            const QString name = QString::fromLatin1(table);
            QTest::addRow("%s changed", table) << u"UPDATE %1 SET import = 1"_s.arg(name);
            QTest::addRow("%s removed", table) << u"DELETE FROM %1"_s.arg(name);
            QTest::addRow("%s replaced", table) << u"INSERT OR REPLACE INTO %1 SELECT * FROM %1"_s.arg(name);
        }
        QTest::newRow("declaration removed") << u"DELETE FROM declared_equal"_s;
        QTest::newRow("declaration replaced")
            << u"INSERT OR REPLACE INTO declared_equal SELECT * FROM declared_equal"_s;
        QTest::newRow("event changed") << u"UPDATE happenings SET words = 'x'"_s;
        QTest::newRow("event removed") << u"DELETE FROM happenings"_s;
        QTest::newRow("event replaced")
            << u"INSERT OR REPLACE INTO happenings SELECT * FROM happenings WHERE version = 1"_s;
        const auto further =
            u"INSERT INTO happenings SELECT id, version + %1, %2, kind, first_day, last_day, "
            "injury, words, '', who, entered_at FROM happenings WHERE kind = '%3' AND version = "
            "(SELECT MAX(version) FROM happenings others WHERE others.id = happenings.id)"_s;
        QTest::newRow("version of an event left out") << further.arg(u"2"_s, u"patient"_s, u"fall"_s);
        QTest::newRow("event moved to another patient")
            << further.arg(u"1"_s, u"'%1'"_s.arg(somebodyElse), u"fall"_s);
        QTest::newRow("taken back undone") << further.arg(u"1"_s, u"patient"_s, u"relapse"_s);
        QTest::newRow("target changed") << u"UPDATE targets SET value = 1"_s;
        QTest::newRow("target removed") << u"DELETE FROM targets"_s;
        QTest::newRow("target replaced") << u"INSERT OR REPLACE INTO targets SELECT * FROM targets"_s;
        QTest::newRow("handing over changed") << u"UPDATE letter_handovers SET way = 'x'"_s;
        QTest::newRow("handing over removed") << u"DELETE FROM letter_handovers"_s;
        QTest::newRow("handing over replaced")
            << u"INSERT OR REPLACE INTO letter_handovers SELECT * FROM letter_handovers"_s;
        QTest::newRow("handing over of a draft") << u"INSERT INTO letter_handovers SELECT id, 1, "
                                                    u"'2026-02-02', 'by post', '', 'x', 'x' FROM letters "
                                                    "WHERE state = 'draft'"_s;
        QTest::newRow("asked changed") << u"UPDATE visit_questions SET who = 'x'"_s;
        QTest::newRow("asked removed") << u"DELETE FROM visit_questions"_s;
        QTest::newRow("asked replaced")
            << u"INSERT OR REPLACE INTO visit_questions SELECT * FROM visit_questions"_s;
        QTest::newRow("asked of a version")
            << u"INSERT INTO visit_questions SELECT visits.key, question, who, answered_at FROM "
               "visit_questions, visits WHERE version = 2"_s;
    }

    void whatOnlyGrowsIsRefused()
    {
        QFETCH(QString, sql);
        Clinic clinic;
        storage::Patients patients(clinic.file.store());
        QVERIFY(
            patients.chooseEvidence(clinic.patient.id, {u"sara"_s, u"row"_s, u"same protocol"_s, {}, {}}));
        QVERIFY(clinic.file.store().chooseEvidence(
            {u"stroke"_s, {u"sara"_s, u"row"_s, u"same protocol"_s, {}, {}}}));
        QVERIFY(patients.declareEqual(
            clinic.patient.id,
            {u"sara"_s, clinic.frozen.series, clinic.draft.series, false, u"same corridor"_s, {}, {}}));
        storage::Imports imports(clinic.file.store());
        QVERIFY(imports.add(u"march.csv"_s, {{storage::ImportWrite::Kind::Draft,
                                              clinic.draft.id.text,
                                              1,
                                              {},
                                              {{u"sara"_s, records::Side::None, 2, false}}}}));
        QVERIFY(imports.markTakenBack(1));
        storage::ClinicCatalogues catalogues(clinic.file.store());
        QVERIFY(catalogues.add("{}"));
        records::Patient other;
        other.id = {somebodyElse};
        QVERIFY(patients.save(other));
        storage::Happenings happenings(clinic.file.store());
        records::Happening happening;
        happening.patient = clinic.patient.id;
        happening.from = QDate(2026, 2, 1);
        happening.kind = records::HappeningKind::Fall;
        QVERIFY(happenings.save(happening));
        happening.kind = records::HappeningKind::Relapse;
        QVERIFY(happenings.takeBack(happenings.save(happening)->id, u"her sister's"_s));
        QVERIFY(happenings.setAsked(clinic.frozen.id));
        storage::Letters letters(clinic.file.store());
        records::Letter draft;
        draft.patient = clinic.patient.id;
        draft.visit = clinic.frozen.id;
        QVERIFY(letters.save(draft));
        QVERIFY(letters.noteHandover({clinic.letter.id, QDate(2026, 2, 1), u"by post"_s, {}, {}, {}}));
        const auto handovers = *letters.handovers(clinic.patient.id);
        QVERIFY(clinic.visits.amend(clinic.frozen.id, u"x"_s));
        storage::Targets targets(clinic.file.store());
        QVERIFY(targets.save(clinic.patient.id,
                             {u"sara"_s, records::Side::None, 4, {}, {}, QDate(2026, 2, 1), {}, {}, {}}));
        const auto events = *happenings.ofPatient(clinic.patient.id);
        const auto asked = *happenings.asked(clinic.patient.id);
        const auto wanted = *targets.ofPatient(clinic.patient.id);
        const auto patient = *patients.withId(clinic.patient.id);
        const auto newest = *catalogues.newest();
        const auto refused = storage::write(clinic.file.store(), sql, {});
        QVERIFY(!refused);
        QVERIFY2(refused.error().kind == ErrorKind::Refused, qPrintable(refused.error().detail));
        QCOMPARE(*patients.withId(clinic.patient.id), patient);
        QCOMPARE(*catalogues.newest(), newest);
        QCOMPARE(*happenings.ofPatient(clinic.patient.id), events);
        QCOMPARE(*letters.handovers(clinic.patient.id), handovers);
        QCOMPARE(*happenings.asked(clinic.patient.id), asked);
        QCOMPARE(*targets.ofPatient(clinic.patient.id), wanted);
    }

    void whatIsFrozenIsRefused()
    {
        QFETCH(QString, sql);
        Clinic clinic;
        const auto refused = storage::write(clinic.file.store(), sql, {});
        QVERIFY(!refused);
        QVERIFY2(refused.error().kind == ErrorKind::Refused, qPrintable(refused.error().detail));
        QVERIFY(refused.error().what.english().contains(u"never change"_s));
        QCOMPARE(*clinic.visits.withId(clinic.frozen.id), clinic.frozen);
        QCOMPARE(*clinic.visits.withId(clinic.draft.id), clinic.draft);
    }

    void whatIsNoRecordIsRefused_data()
    {
        QTest::addColumn<QString>("sql");
        const auto speed = u" WHERE measure = 'gait-speed-comfortable' AND visit = "
                           "(SELECT key FROM visits WHERE state = 'draft')"_s;
        QTest::newRow("done without a value") << u"UPDATE findings SET number = NULL, unit = NULL"_s + speed;
        QTest::newRow("done with two values") << u"UPDATE findings SET grade = 1"_s + speed;
        QTest::newRow("a number without a unit") << u"UPDATE findings SET unit = NULL"_s + speed;
        QTest::newRow("unable with a value") << u"UPDATE findings SET state = 'unable'"_s + speed;
        QTest::newRow("done with a reason") << u"UPDATE findings SET reason = 'x'"_s + speed;
        QTest::newRow("no such state") << u"UPDATE findings SET state = 'maybe'"_s + speed;
        QTest::newRow("no such side") << u"UPDATE findings SET side = 'both'"_s + speed;
        QTest::newRow("the same measure and side twice")
            << u"UPDATE findings SET measure = 'toe-tapping', side = 'left'"_s + speed;
        QTest::newRow("no such answer")
            << u"UPDATE red_flags SET answer = 'perhaps', action = '', acted_on = NULL, acted_at = NULL "
               "WHERE visit = (SELECT key FROM visits WHERE state = 'draft')"_s;
        const auto ofDraft =
            u" WHERE answer = '%1' AND visit = (SELECT key FROM visits WHERE state = 'draft')"_s;
        QTest::newRow("something done about a no")
            << u"UPDATE red_flags SET action = 'x', acted_on = '2026-01-01', acted_at = '10:00'"_s +
                   ofDraft.arg(u"no"_s);
        QTest::newRow("something done at no time")
            << u"UPDATE red_flags SET acted_at = NULL"_s + ofDraft.arg(u"yes"_s);
        QTest::newRow("something done on no day")
            << u"UPDATE red_flags SET acted_on = 'x'"_s + ofDraft.arg(u"yes"_s);
        QTest::newRow("signed by nobody")
            << u"UPDATE visits SET state = 'signed', signed_at = 'x' WHERE state = 'draft'"_s;
        QTest::newRow("signed at no instant")
            << u"UPDATE visits SET state = 'signed', author_name = 'x' WHERE state = 'draft'"_s;
        QTest::newRow("a visit of nobody") << u"UPDATE visits SET patient = 'x' WHERE state = 'draft'"_s;
        QTest::newRow("a day in words") << u"UPDATE visits SET day = 'Monday' WHERE state = 'draft'"_s;
        QTest::newRow("no such sex") << u"UPDATE patients SET sex = 'x'"_s;
        QTest::newRow("a second clinic")
            << u"INSERT INTO clinic (id, revision, name, address, telephone, is_demo) VALUES (2, 1, '', '', '', 0)"_s;
        QTest::newRow("too few planned visits") << u"UPDATE clinic SET planned_visits = 2"_s;
        QTest::newRow("too many planned visits") << u"UPDATE clinic SET planned_visits = 101"_s;
        QTest::newRow("another strictness") << u"UPDATE clinic SET strictness = 'lenient'"_s;
        QTest::newRow("another confirmation interval") << u"UPDATE clinic SET composite_weeks = 13"_s;
        const auto declared = u"INSERT INTO declared_equal SELECT id, 1, 'sara', %1, 'b', 0, %2, '', '' "
                              "FROM patients"_s;
        QTest::newRow("declared without a reason") << declared.arg(u"'a'"_s, u"''"_s);
        QTest::newRow("a visit declared equal to itself") << declared.arg(u"'b'"_s, u"'x'"_s);
        const auto event =
            u"INSERT INTO happenings SELECT 'a', 1, id, %1, %2, '', '', '', '' FROM patients"_s;
        QTest::newRow("no such kind of event") << event.arg(u"'x'"_s, u"'2026-01-01', NULL, ''"_s);
        QTest::newRow("an event that ends before it begins")
            << event.arg(u"'fall'"_s, u"'2026-01-02', '2026-01-01', ''"_s);
        QTest::newRow("an event on no day") << event.arg(u"'fall'"_s, u"'Monday', NULL, ''"_s);
        QTest::newRow("an injury by a relapse") << event.arg(u"'relapse'"_s, u"'2026-01-01', NULL, 'yes'"_s);
        const auto target =
            u"INSERT INTO targets SELECT id, 1, %1, %2, '', '2026-01-02', '', '', '' FROM patients"_s;
        QTest::newRow("a target of nothing") << target.arg(u"''"_s, u"'none', 1, NULL"_s);
        QTest::newRow("a target on no side") << target.arg(u"'sara'"_s, u"'both', 1, NULL"_s);
        QTest::newRow("a target without a value") << target.arg(u"'sara'"_s, u"'none', NULL, NULL"_s);
        QTest::newRow("a target by a day before it was agreed")
            << target.arg(u"'sara'"_s, u"'none', 1, '2026-01-01'"_s);
        QTest::newRow("a question nobody knows")
            << u"INSERT INTO visit_questions SELECT key, 'x', '', '' FROM visits WHERE version = 1"_s;
        QTest::newRow("a patient with visits removed") << u"DELETE FROM patients"_s;
    }

    void whatIsNoRecordIsRefused()
    {
        QFETCH(QString, sql);
        Clinic clinic;
        const auto refused = storage::write(clinic.file.store(), sql, {});
        QVERIFY(!refused);
        QVERIFY2(refused.error().kind == ErrorKind::Invalid, qPrintable(refused.error().detail));
    }

    void aYesIsAcknowledgedBeforeTheVisitIsSigned()
    {
        Clinic clinic;
        const auto refusedSigning = [&] {
            const auto signedVisit = clinic.visits.sign(clinic.draft.id, serra);
            return !signedVisit && signedVisit.error().kind == ErrorKind::Refused;
        };
        records::RedFlags flags = clinic.draft.redFlags;
        flags[u"loss-of-consciousness"_s] = {true, {}};
        QVERIFY(clinic.visits.saveRedFlags(clinic.draft.id, flags));
        QVERIFY(refusedSigning());
        flags[u"loss-of-consciousness"_s].acknowledged = {u"sent to hospital"_s, clinic.draft.day,
                                                          QTime(9, 0)};
        QVERIFY(clinic.visits.saveRedFlags(clinic.draft.id, flags));
        const auto done = clinic.visits.sign(clinic.draft.id, serra);
        QVERIFY(done);
        QCOMPARE(done->redFlags, flags);
        QVERIFY(!clinic.visits.saveRedFlags(clinic.draft.id, {}));
        const auto amended = clinic.visits.amend(clinic.draft.id, u"x"_s);
        QVERIFY(amended);
        QCOMPARE(amended->redFlags, flags);
    }

    void theTablesAreMadeOnPostgresqlToo()
    {
        const QString server = QStandardPaths::findExecutable(u"pg_virtualenv"_s);
        if (server.isEmpty())
            QSKIP("No PostgreSQL here.");
        const QTemporaryDir folder;
        QFile sql(folder.filePath(u"tables.sql"_s));
        QVERIFY(sql.open(QIODevice::WriteOnly));
        for (const storage::Migration& migration : storage::chain(u":/schema"_s)) {
            for (const QString& statement : migration.statements) {
                // What the two databases say differently, and what brings over records PostgreSQL never held.
                if (!statement.contains(u"TRIGGER"_s) && migration.version != 11)
                    sql.write((QString(statement).remove(u" WITHOUT ROWID"_s) + u";\n\n"_s).toUtf8());
            }
        }
        sql.close();
        QProcess client;
        client.start(server, {u"psql"_s, u"-q"_s, u"-v"_s, u"ON_ERROR_STOP=1"_s, u"-f"_s, sql.fileName()});
        QVERIFY(client.waitForFinished(60'000));
        QVERIFY2(client.exitCode() == 0, client.readAllStandardError().constData());
    }
};

HOUSE_TEST(TestSchema)

} // namespace test_schema

#include "test_schema.moc"
