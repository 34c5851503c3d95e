#include "app/patients/patient_table.h"

#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>

using namespace Qt::StringLiterals;

namespace test_patient_table
{

using patients::PatientTable;

const QDate today(2026, 3, 12);

records::PatientSummary summary(const QString& family, const QString& given, QDate born, int visits)
{
    records::PatientSummary patient;
    patient.id = {family};
    patient.family = family;
    patient.given = given;
    patient.born = born;
    patient.recordNumber = u"L-0042"_s;
    patient.diagnosis = u"ataxia"_s;
    patient.visits = visits;
    return patient;
}

QStringList column(const QAbstractItemModel& model, int column)
{
    QStringList texts;
    for (int row = 0; row < model.rowCount(); ++row)
        texts += model.index(row, column).data().toString();
    return texts;
}

class TestPatientTable : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void keepsTheRulesOfModels();
    void aRowTellsPeopleApart();
    void whatIsMissingIsSaid();
    void aSearchLeavesWhoItFinds();
    void columnsSortByWhatTheyMean();
    void aPatientIsFoundAgainById();
};

void TestPatientTable::keepsTheRulesOfModels()
{
    PatientTable table;
    patients::FoundPatients found(table, nullptr);
    const QAbstractItemModelTester source(&table, QAbstractItemModelTester::FailureReportingMode::QtTest);
    const QAbstractItemModelTester proxy(&found, QAbstractItemModelTester::FailureReportingMode::QtTest);
    table.setPatients({summary(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2), 3)}, today);
    found.search(u"nobody"_s);
    table.setPatients({}, today);
    QCOMPARE(table.rowCount(), 0);
}

void TestPatientTable::aRowTellsPeopleApart()
{
    PatientTable table;
    records::PatientSummary patient = summary(u"Voss"_s, u"Osric"_s, QDate(1951, 3, 13), 3);
    patient.lastVisit = QDate(2026, 3, 1);
    patient.hasDraft = true;
    table.setPatients({patient}, today);
    QStringList row;
    for (int i = 0; i < PatientTable::columns; ++i)
        row += table.index(0, i).data().toString();
    const QStringList expected = {u"Voss"_s,   u"Osric"_s,  u"13-Mar-1951 (74)"_s,
                                  u"L-0042"_s, u"ataxia"_s, u"01-Mar-2026, draft open"_s,
                                  u"3"_s};
    QCOMPARE(row, expected);
}

void TestPatientTable::whatIsMissingIsSaid()
{
    PatientTable table;
    records::PatientSummary patient;
    patient.family = u"Voss"_s;
    table.setPatients({patient}, today);
    QCOMPARE(table.index(0, PatientTable::Born).data().toString(), u"not recorded"_s);
    QCOMPARE(table.index(0, PatientTable::LastVisit).data().toString(), u"none yet"_s);
}

void TestPatientTable::aSearchLeavesWhoItFinds()
{
    PatientTable table;
    patients::FoundPatients found(table, nullptr);
    table.setPatients({summary(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2), 3),
                       summary(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), 1)},
                      today);
    found.search(u"4.3.1951"_s);
    QCOMPARE(column(found, PatientTable::Family), QStringList(u"Halden"_s));
    found.search({});
    QCOMPARE(found.rowCount(), 2);
}

void TestPatientTable::columnsSortByWhatTheyMean()
{
    PatientTable table;
    patients::FoundPatients found(table, nullptr);
    table.setPatients({summary(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2), 3),
                       summary(u"halden"_s, u"Mirrit"_s, QDate(1951, 12, 4), 10),
                       summary(u"Halden"_s, u"Anso"_s, QDate(1990, 2, 4), 1)},
                      today);
    found.sort(PatientTable::Family);
    const QStringList byName = {u"Anso"_s, u"Mirrit"_s, u"Osric"_s};
    QCOMPARE(column(found, PatientTable::Given), byName);
    found.sort(PatientTable::Born);
    const QStringList byAge = {u"Mirrit"_s, u"Osric"_s, u"Anso"_s};
    QCOMPARE(column(found, PatientTable::Given), byAge);
    found.sort(PatientTable::Visits, Qt::DescendingOrder);
    QCOMPARE(column(found, PatientTable::Visits), QStringList({u"10"_s, u"3"_s, u"1"_s}));
}

void TestPatientTable::aPatientIsFoundAgainById()
{
    PatientTable table;
    patients::FoundPatients found(table, nullptr);
    table.setPatients({summary(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2), 3)}, today);
    QCOMPARE(found.indexOf({u"Voss"_s}).row(), 0);
    QVERIFY(!found.indexOf({u"nobody"_s}).isValid());
}

HOUSE_TEST(TestPatientTable)

} // namespace test_patient_table

#include "test_patient_table.moc"
