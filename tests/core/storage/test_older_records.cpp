#include "core/base/file.h"
#include "core/storage/audit_trail.h"
#include "core/storage/clinic_catalogues.h"
#include "core/storage/letters.h"
#include "core/storage/migrations.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/visits.h"
#include "tests/support/places.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_older_records
{

using records::Finding;
using records::Opening;
using records::Side;
using storage::Store;

constexpr int newestFixture = 9;

const records::PatientId ada{u"11111111-0000-4000-8000-000000000001"_s};
const records::Author serra{u"Dr Serra"_s, u"Neurologist"_s, u"R-1"_s};

records::VisitId visitNumber(int number)
{
    return {u"22222222-0000-4000-8000-%1"_s.arg(number, 12, 10, QChar(u'0'))};
}

QDateTime on(int month, int day)
{
    return QDateTime(QDate(2026, month, day), QTime(9, 30), Qt::UTC);
}

/// What every fixture holds of one of the signed visits, as far as its schema could hold it.
std::vector<Finding> findingsOf(int visit, int schema)
{
    const records::Conditions exceptions = {{u"aid"_s, u"cane"_s}, {u"footwear"_s, QString()}};
    const auto seconds = [](double number) { return values::Quantity{number, values::Unit::Second}; };
    const auto finding = [](const QString& measure, Side side, const values::Value& value) {
        Finding found;
        found.measure = measure;
        found.side = side;
        found.value = value;
        return found;
    };
    const auto missing = [](values::Absence why, const QString& reason) {
        return values::Missing{why, reason};
    };
    std::vector<Finding> findings = {
        finding(u"ten-metre-walk-time-comfortable"_s, Side::None, seconds(1.0 / 3)),
        finding(u"nine-hole-peg"_s, Side::Right, seconds(300)),
        finding(u"nine-hole-peg"_s, Side::Left, missing(values::Absence::Unable, u"dropped the pegs"_s)),
        finding(u"finger-tapping"_s, Side::Right, values::Grade{2}),
        finding(u"pronator-drift"_s, Side::Left, values::Choice{u"pronation"_s}),
        finding(u"berg-balance"_s, Side::None, missing(values::Absence::Refused, u"tired"_s)),
        finding(u"finger-tapping-count"_s, Side::Right, values::Quantity{31, values::Unit::Count})};
    findings[0].trials = {0.1 + 0.2, 1.0 / 3, 5e-324, 1.7976931348623157e308, 12};
    findings[0].note = u"zig\nzag “ü”"_s;
    findings[0].exceptions = exceptions;
    records::addTrial(findings[1], 2, 300);
    findings[1].capReached = true;
    if (visit == 1)
        findings[1].exceptions = exceptions;
    findings[3].signs = {u"speed"_s, u"evenness"_s};
    if (schema >= 3)
        findings[6].taps = {0.1, 0.1 + 0.2, 1.0 / 3};
    return findings;
}

/// A copy of a fixture, opened by this program.
struct Older {
    explicit Older(int schema)
    {
        if (!QFile::copy(places::inSource(u"tests/data/schema-%1.aplomb"_s.arg(schema)), path))
            qFatal("No fixture.");
        QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner);
        before = *base::read(path, 1'000'000);
    }

    base::Result<std::unique_ptr<Store>> opened(std::function<bool(int)> progress = {})
    {
        return Store::open(path, {u"tester"_s, [] { return on(3, 1); }, std::move(progress)},
                           Opening::MustExist);
    }

    QTemporaryDir folder;
    QString path = folder.filePath(u"records"_s);
    QByteArray before;
};

class TestOlderRecords : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everythingComesThrough_data()
    {
        QTest::addColumn<int>("schema");
        for (int schema = 1; schema <= newestFixture; ++schema)
            QTest::addRow("schema %d", schema) << schema;
        for (const int schema : {13, 15, 22}) // those between were steps to it and never released alone
            QTest::addRow("schema %d", schema) << schema;
    }

    void everythingComesThrough()
    {
        QFETCH(int, schema);
        Older older(schema);
        const auto opened = older.opened();
        QVERIFY2(opened, opened ? "" : qPrintable(opened.error().what.english() + opened.error().detail));
        Store& store = **opened;

        const auto clinic = *store.clinic();
        QCOMPARE(clinic.name, u"Invented Clinic"_s);
        QCOMPARE(clinic.judging.plannedVisits, schema >= 5 ? 5 : 8);
        QCOMPARE(clinic.judging.strictness,
                 schema >= 15 ? records::Strictness::Strict : records::Strictness::Balanced);
        QCOMPARE(clinic.judging.choices.size(), size_t(schema >= 15 ? 1 : 0));
        const auto patient = *storage::Patients(store).withId(ada);
        QCOMPARE(patient.revision, 3);
        QCOMPARE(patient.family, u"Müller"_s);
        QCOMPARE(patient.heightCm, std::optional(170.5));
        QCOMPARE(patient.choices.size(), size_t(schema >= 3 ? 1 : 0));
        QCOMPARE(patient.declared.size(), size_t(schema >= 5 ? 1 : 0));
        if (schema >= 5)
            QCOMPARE(patient.declared.front().later, visitNumber(3));

        const auto visits = *storage::Visits(store).ofPatient(ada);
        QCOMPARE(visits.size(), size_t(3));
        for (size_t i = 0; i < visits.size(); ++i) {
            const records::Visit& visit = visits[i];
            const int number = int(i) + 1;
            QCOMPARE(visit.id, visitNumber(number));
            QCOMPARE(visit.series, visitNumber(number == 2 ? 1 : number));
            QCOMPARE(visit.version, number == 2 ? 2 : 1);
            QCOMPARE(visit.revision, number);
            QCOMPARE(visit.author, serra);
            QCOMPARE(visit.signedAt, number == 3 ? on(2, 5) : on(1, 4 + number));
            QCOMPARE(visit.amendmentReason.isEmpty(), number != 2);
            QCOMPARE(visit.conditions, (records::Conditions{{u"aid"_s, u"none"_s},
                                                            {u"footwear"_s, u"usual shoes \"soft\""_s}}));
            QCOMPARE(visit.formAsMade.has_value(), schema >= 3 && number != 3);
            QCOMPARE(visit.withdrawn.has_value(), schema >= 8 && number == 3);
            QCOMPARE(visit.findings, findingsOf(number, schema));
        }
        const auto draft = *storage::Visits(store).withId(visitNumber(4));
        QCOMPARE(draft.state, records::VisitState::Draft);
        QVERIFY(draft.conditions.isEmpty());
        QCOMPARE(draft.findings.size(), size_t(1));

        const auto letters = *storage::Letters(store).ofPatient(ada);
        QCOMPARE(letters.size(), size_t(2));
        QCOMPARE(letters[0].state, records::LetterState::Signed);
        QCOMPARE(letters[0].reference, std::optional(visitNumber(2)));
        QCOMPARE(letters[0].urgency, u"Routine"_s);
        QCOMPARE(storage::Letters(store).withId(letters[0].id)->pdf, QByteArray("%PDF"));
        QCOMPARE(letters[0].kind, u"referral"_s);
        QVERIFY(letters[1].hasAnnex); // as it stood
        QCOMPARE(letters[1].language, schema >= 9 ? u"de"_s : u"en"_s);
        const auto trail = *storage::AuditTrail(store).newest(100);
        QCOMPARE(trail.size(), size_t(schema >= 8 ? 8 : 7));
        QCOMPARE(trail.back().who, u"reception"_s);
        QCOMPARE(trail.back().record, ada.text);
        QCOMPARE(*store.fileFaults(), QStringList());
        if (schema >= 3)
            QVERIFY((*storage::ClinicCatalogues(store).newest()).has_value());
    }

    void theOlderFileIsKeptAsItWas_data() { everythingComesThrough_data(); }
    void theOlderFileIsKeptAsItWas()
    {
        QFETCH(int, schema);
        Older older(schema);
        QVERIFY(older.opened());
        QCOMPARE(*base::read(older.path + u".version-%1"_s.arg(schema), 1'000'000), older.before);
        QCOMPARE(QDir(older.folder.path()).entryList(QDir::Files | QDir::Hidden).filter(u"unfinished"_s),
                 QStringList());
    }

    void whatIsKeptOfItIsItsOwnersAlone()
    {
        Older older(newestFixture);
        QVERIFY(QFile::setPermissions(older.path, QFile::ReadOwner | QFile::WriteOwner | QFile::ReadGroup |
                                                      QFile::ReadOther));
        QVERIFY(older.opened());
        QVERIFY(!(QFile::permissions(older.path + u".version-9"_s) & (QFile::ReadGroup | QFile::ReadOther)));
    }

    void itTellsHowFarItIsAndCanBeStopped()
    {
        Older older(newestFixture);
        std::vector<int> told;
        const auto stopped = older.opened([&](int percent) {
            told.push_back(percent);
            return percent < 40;
        });
        QVERIFY(!stopped);
        QCOMPARE(stopped.error().kind, base::ErrorKind::Refused);
        QCOMPARE(stopped.error().what.english(), u"This was stopped; the records are as they were."_s);
        QCOMPARE(*base::read(older.path, 1'000'000), older.before);
        QVERIFY(told.size() > 3 && std::ranges::is_sorted(told));
        QCOMPARE(QDir(older.folder.path()).entryList(QDir::Files), QStringList{u"records"_s});

        told.clear();
        QVERIFY(older.opened([&](int percent) {
            told.push_back(percent);
            return true;
        }));
        QCOMPARE(told.back(), 100);
    }

    /// What the copying breaks, the comparing finds.
    void aValueThatDoesNotComeThroughIsNoticed_data()
    {
        QTest::addColumn<QString>("breaking");
        const auto row = [](const char* name, const QString& sql) { QTest::newRow(name) << sql; };
        row("day", u"UPDATE new_visits SET day = '2026-01-09' WHERE version = 2"_s);
        row("author", u"UPDATE new_visits SET author_role = '' WHERE version = 2"_s);
        row("series", u"UPDATE new_visits SET series = 3, version = 3 WHERE version = 2"_s);
        row("form as made", u"UPDATE new_visits SET form_made = NULL WHERE version = 2"_s);
        row("conditions", u"UPDATE new_visits SET conditions = NULL WHERE version = 2"_s);
        row("other conditions", u"UPDATE new_visits SET conditions = (SELECT exceptions FROM new_findings "
                                "WHERE exceptions IS NOT NULL) WHERE version = 2"_s);
        row("conditions of nobody",
            u"UPDATE new_visits SET conditions = (SELECT MIN(key) FROM condition_sets) WHERE state = 'draft'"_s);
        row("visit", u"DELETE FROM new_visits WHERE state = 'draft'"_s);
        row("number",
            u"UPDATE new_findings SET number = number + 1e-9 WHERE measure = 'finger-tapping-count'"_s);
        row("side", u"UPDATE new_findings SET side = 'left' WHERE measure = 'finger-tapping'"_s);
        row("note", u"UPDATE new_findings SET note = 'x' WHERE measure = 'berg-balance'"_s);
        row("position", u"UPDATE new_findings SET position = 9 WHERE measure = 'berg-balance'"_s);
        row("finding", u"DELETE FROM new_findings WHERE measure = 'berg-balance'"_s);
        row("another finding",
            u"INSERT INTO new_findings SELECT visit, 'toe-tapping', side, 9, state, number, "
            "unit, grade, choice, trials, reason, cap_reached, signs, note, taps, "
            "exceptions FROM new_findings WHERE measure = 'berg-balance'"_s);
        row("trial", u"UPDATE new_findings SET trials = '[null,300.5]' WHERE measure = 'nine-hole-peg'"_s);
        row("place of a trial",
            u"UPDATE new_findings SET trials = '[300]' WHERE measure = 'nine-hole-peg'"_s);
        row("trial of nobody", u"UPDATE new_findings SET trials = '[1]' WHERE measure = 'finger-tapping'"_s);
        row("tap", u"UPDATE new_findings SET taps = '[0.1,0.3,0.3333333333333333]' WHERE taps IS NOT NULL"_s);
        row("exceptions", u"UPDATE new_findings SET exceptions = NULL"_s);
        row("exceptions of nobody",
            u"UPDATE new_findings SET exceptions = 1 WHERE measure = 'berg-balance'"_s);
        row("withdrawal", u"UPDATE new_visit_withdrawals SET reason = 'x'"_s);
        row("withdrawal lost", u"DELETE FROM new_visit_withdrawals"_s);
        row("letter", u"UPDATE new_letters SET pdf = NULL"_s);
        row("letter lost", u"DELETE FROM new_letters WHERE state = 'draft'"_s);
        row("audit trail", u"UPDATE new_audit_trail SET who = 3 - who WHERE number = 2"_s);
        row("audit entry lost", u"DELETE FROM new_audit_trail WHERE number = 2"_s);
    }

    void aValueThatDoesNotComeThroughIsNoticed()
    {
        QFETCH(QString, breaking);
        Older older(newestFixture);
        auto chain = storage::chain(u":/schema"_s);
        auto& bringing =
            std::ranges::find(chain, newestFixture + 2, &storage::Migration::version)->statements;
        const auto isCheck = [](const QString& statement) {
            return statement.contains(u"\nSELECT "_s) && statement.contains(u"--"_s);
        };
        const auto firstCheck = std::find_if(bringing.begin() + 1, bringing.end(), isCheck);
        QVERIFY(firstCheck != bringing.end());
        bringing.insert(firstCheck, breaking);
        const auto refused =
            Store::open(older.path, {u"tester"_s, [] { return on(3, 1); }}, Opening::MustExist, chain);
        QVERIFY(!refused);
        QVERIFY2(refused.error().what.english().startsWith(u"A value did not come through whole"_s),
                 qPrintable(refused.error().what.english() + refused.error().detail));
        QCOMPARE(*base::read(older.path, 1'000'000), older.before);
    }
};

HOUSE_TEST(TestOlderRecords)

} // namespace test_older_records

#include "test_older_records.moc"
