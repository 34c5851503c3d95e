#include "app/patients/patient_search.h"

#include "core/base/text.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_patient_search
{

class TestPatientSearch : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void finds_data();
    void finds();
    void aPersonWithoutBirthDateIsFoundByName();
};

void TestPatientSearch::finds_data()
{
    QTest::addColumn<QString>("typed");
    QTest::addColumn<bool>("isFound");
    QTest::newRow("nothing typed") << QString() << true;
    QTest::newRow("beginning of the family name") << u"ló"_s << true;
    QTest::newRow("without accents, other case") << u"LODZ"_s << true;
    QTest::newRow("second part of a double name") << u"ugur"_s << true;
    QTest::newRow("double name without hyphen") << u"lodz ugur"_s << true;
    QTest::newRow("given name") << u"mir"_s << true;
    QTest::newRow("given before family") << u"mirrit łódź"_s << true;
    QTest::newRow("record number") << u"l-0042"_s << true;
    QTest::newRow("record number without its sign") << u"L0042"_s << true;
    QTest::newRow("figures of the record number") << u"0042"_s << true;
    QTest::newRow("birth date, month in words") << u"04-Mar-1951"_s << true;
    QTest::newRow("birth date, ISO") << u"1951-03-04"_s << true;
    QTest::newRow("birth date, points") << u"4.3.1951"_s << true;
    QTest::newRow("birth date, strokes") << u"04/03/1951"_s << true;
    QTest::newRow("birth date being typed") << u"4.3"_s << true;
    QTest::newRow("name and birth date") << u"mirrit 4.3.1951"_s << true;
    QTest::newRow("name and year") << u"lodz 1951"_s << true;
    QTest::newRow("day and month exchanged") << u"3.4.1951"_s << false;
    QTest::newRow("another name") << u"halden"_s << false;
    QTest::newRow("inside a name") << u"odz"_s << false;
    QTest::newRow("one word right, one wrong") << u"mirrit halden"_s << false;
}

void TestPatientSearch::finds()
{
    QFETCH(QString, typed);
    QFETCH(bool, isFound);
    records::PatientSummary patient;
    patient.family = u"Łódź-Ügur"_s;
    patient.given = u"Mirrit"_s;
    patient.recordNumber = u"L-0042"_s;
    patient.born = QDate(1951, 3, 4);
    QCOMPARE(base::matches(patients::searchKeys(patient), typed), isFound);
}

void TestPatientSearch::aPersonWithoutBirthDateIsFoundByName()
{
    records::PatientSummary patient;
    patient.family = u"Halden"_s;
    QVERIFY(base::matches(patients::searchKeys(patient), u"hal"_s));
    QVERIFY(!base::matches(patients::searchKeys(patient), u"1951"_s));
}

HOUSE_TEST(TestPatientSearch)

} // namespace test_patient_search

#include "test_patient_search.moc"
