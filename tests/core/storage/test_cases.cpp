#include "core/storage/cases.h"

#include "core/catalogue/reader.h"
#include "core/storage/happenings.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_cases
{

using judging::Case;
using storage::Cases;

const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

/// A patient with two visits, the first signed, whose summary is kept.
struct Clinic {
    RecordsFile file;
    records::Patient patient = *storage::Patients(file.store()).save(fullPatient());
    Cases cases{file.store()};
    QString stamp;

    Clinic()
    {
        storage::Visits visits(file.store());
        const auto first = visits.add(fullVisit(patient.id, QDate(2025, 1, 6)));
        const auto isSigned = first && visits.sign(first->id, {u"A. Tester"_s, u"physiotherapist"_s, {}});
        const auto second = visits.add(fullVisit(patient.id, QDate(2025, 4, 7)));
        stamp = *cases.stamp(book().release);
        keep();
        QVERIFY(isSigned && second);
    }

    void keep()
    {
        const auto worked = cases.workOut(patient.id, book(), {});
        QVERIFY(worked && cases.keep({*worked}, stamp));
    }
    bool isKept() { return cases.one(patient.id, stamp)->value().summary.has_value(); }
    /// As another program would, without a word to this one.
    bool change(const QString& sql) { return bool(storage::write(file.store(), sql, {})); }
};

class TestCases : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aCaseSaysWhatStandsInTheRecords()
    {
        Clinic clinic;
        const Case one = **clinic.cases.one(clinic.patient.id, clinic.stamp);
        QCOMPARE(one.family, clinic.patient.family);
        QCOMPARE(one.clinician, u"A. Tester"_s);
        QCOMPARE(one.lastSeen, std::optional(QDate(2025, 1, 6)));
        QCOMPARE(one.draft, std::optional(QDate(2025, 4, 7)));
        QVERIFY(!one.hasUnsignedLetter);
        QVERIFY(one.workedOutAt.isValid());
        QCOMPARE(clinic.cases.all(clinic.stamp)->size(), size_t(1));
    }

    void aSummaryComesBackAsItWasWorkedOut()
    {
        Clinic clinic;
        const auto worked = clinic.cases.workOut(clinic.patient.id, book(), {});
        QCOMPARE(clinic.cases.one(clinic.patient.id, clinic.stamp)->value().summary,
                 std::optional(worked->summary));

        storage::WorkedOut other = *worked;
        judging::CaseSummary& summary = other.summary;
        summary.strongest = judging::Strongest{
            u"berg-balance"_s,       records::Side::Left,          judging::OutcomeKind::Worse,
            judging::Says::Reversal, judging::Strength::Sustained, true,
            QDate(2024, 3, 1)};
        summary.isFirst = false;
        summary.flags = 3;
        summary.expectedFalse = 0.1 + 0.2;
        summary.chanceWorse = 1e-9;
        summary.chanceBetter = 0.25;
        summary.isWorse = summary.hasReversed = summary.hasInjury = true;
        QVERIFY(clinic.cases.keep({other}, clinic.stamp));
        QCOMPARE(clinic.cases.one(clinic.patient.id, clinic.stamp)->value().summary, std::optional(summary));
    }

    void anyChangeLetsTheSummaryGo_data()
    {
        QTest::addColumn<QString>("sql");
        QTest::newRow("a column of the patient") << u"UPDATE patients SET allergies = 'none known'"_s;
        QTest::newRow("the population") << u"UPDATE patients SET population = 'parkinson'"_s;
        QTest::newRow("a finding") << uR"(UPDATE findings SET note = 'later'
            WHERE visit = (SELECT MAX(key) FROM visits))"_s;
        QTest::newRow("a finding less")
            << u"DELETE FROM findings WHERE visit = (SELECT MAX(key) FROM visits)"_s;
        QTest::newRow("a visit") << u"UPDATE visits SET day = '2025-04-08' WHERE state = 'draft'"_s;
        QTest::newRow("a visit less") << u"DELETE FROM visits WHERE state = 'draft'"_s;
        QTest::newRow("an event")
            << uR"(INSERT INTO happenings (id, version, patient, kind, first_day, injury,
            words, taken_back_for, who, entered_at)
            SELECT 'e', 1, id, 'relapse', '2025-02-01', '', '', '', 'x', '2025-02-01T00:00:00Z' FROM patients)"_s;
        QTest::newRow("a choice")
            << uR"(INSERT INTO evidence_choices (patient, number, measure, threshold, reason,
            who, chosen_at) SELECT id, 7, 'sara', '', 'x', 'x', '2025-02-01T00:00:00Z' FROM patients)"_s;
        QTest::newRow("in error")
            << uR"(INSERT INTO visit_withdrawals (series, reason, author_name, author_role,
            author_registration, withdrawn_at) SELECT MIN(key), 'x', 'x', '', '', '2025-02-01T00:00:00Z'
            FROM visits)"_s;
    }

    /// By this program or by SQL of another.
    void anyChangeLetsTheSummaryGo()
    {
        QFETCH(QString, sql);
        Clinic clinic;
        QVERIFY(clinic.isKept());
        QVERIFY(clinic.change(sql));
        QVERIFY(!clinic.isKept());
        clinic.keep();
        QVERIFY(clinic.isKept());
    }

    void whatIsOlderThanTheRecordIsNotKept()
    {
        Clinic clinic;
        const auto worked = clinic.cases.workOut(clinic.patient.id, book(), {});
        QVERIFY(clinic.change(u"UPDATE patients SET notes = 'meanwhile'"_s));
        QVERIFY(clinic.cases.keep({*worked}, clinic.stamp));
        QVERIFY(!clinic.isKept());
    }

    void anotherStampIsNone()
    {
        Clinic clinic;
        QVERIFY(clinic.isKept());
        records::Clinic details = *clinic.file.store().clinic();
        details.judging.strictness = records::Strictness::Strict;
        QVERIFY(clinic.file.store().save(details));
        const QString other = *clinic.cases.stamp(book().release);
        QVERIFY(other != clinic.stamp);
        QVERIFY(!clinic.cases.one(clinic.patient.id, other)->value().summary);
        QVERIFY(*clinic.cases.stamp(u"another release"_s) != other);
    }

    void aNewPatientHasNoSummaryYet()
    {
        Clinic clinic;
        records::Patient other = fullPatient();
        other.id = records::PatientId::make();
        other.recordNumber = u"other"_s;
        QVERIFY(storage::Patients(clinic.file.store()).save(other));
        const auto all = clinic.cases.all(clinic.stamp);
        QCOMPARE(all->size(), size_t(2));
        QCOMPARE(std::ranges::count_if(*all, [](const Case& each) { return each.summary.has_value(); }), 1);
    }

    void theClinicKeepsWhenPeopleAreDue()
    {
        RecordsFile file;
        records::Clinic clinic = *file.store().clinic();
        clinic.reviews = {{records::ReviewInterval::Of::Form, u"bedside"_s, 2},
                          {records::ReviewInterval::Of::Population, u"parkinson"_s, 26}};
        QVERIFY(file.store().save(clinic));
        QCOMPARE(file.store().clinic()->reviews, clinic.reviews);
        clinic.reviews.clear();
        QVERIFY(file.store().save(clinic));
        QVERIFY(file.store().clinic()->reviews.empty());
    }
};

HOUSE_TEST(TestCases)

} // namespace test_cases

#include "test_cases.moc"
