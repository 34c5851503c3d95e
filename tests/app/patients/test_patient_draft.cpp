#include "app/patients/patient_draft.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_patient_draft
{

using patients::Field;

const QDate today(2026, 3, 12);

catalogue::Catalogue catalogueWithStroke()
{
    catalogue::Catalogue catalogue;
    catalogue.populations = {{u"stroke"_s, u"Stroke"_s, {}}};
    return catalogue;
}

records::Patient halden()
{
    records::Patient patient;
    patient.id = records::PatientId::make();
    patient.revision = 1;
    patient.recordNumber = u"L-0042"_s;
    patient.family = u"Halden"_s;
    patient.given = u"Mirrit"_s;
    patient.born = QDate(1951, 3, 4);
    patient.sex = records::Sex::Female;
    patient.dominantHand = records::Hand::Left;
    patient.heightCm = 167.5;
    patient.weightKg = 61;
    patient.diagnosis = u"stroke, left middle cerebral artery"_s;
    patient.population = u"stroke"_s;
    patient.onset = QDate(2025, 9, 1);
    patient.referrer = u"Dr A. Example"_s;
    patient.generalPractitioner = u"Dr B. Example"_s;
    patient.allergies = u"none known"_s;
    patient.notes = u"prefers mornings"_s;
    return patient;
}

class TestPatientDraft : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldComesBackAsItWas();
    void whatIsKeptComesBackAsTyped();
    void onlyTypingIsAChange();
    void eachFaultSaysWhatIsAllowed_data();
    void eachFaultSaysWhatIsAllowed();
    void aCommaIsADecimalPoint();
    void someoneWithoutAnyNameIsRefused();
    void whatAnotherSavedIsTakenOverWhereNothingWasTyped();
    void whatWasTypedStaysAndTheFieldIsNamed();
};

void TestPatientDraft::everyFieldComesBackAsItWas()
{
    const records::Patient patient = halden();
    const auto check = patients::checked(patients::draftOf(patient), catalogueWithStroke(), today);
    QVERIFY(check.wrong.empty());
    QCOMPARE(check.patient, patient);
}

void TestPatientDraft::whatIsKeptComesBackAsTyped()
{
    patients::PatientDraft draft = patients::draftOf(halden());
    QCOMPARE(patients::asKept(draft), QString());
    std::map<Field, QString> typed;
    for (auto& [field, text] : draft.typed)
        typed[field] = text = u" \"%1\" \n ▲"_s.arg(int(field));
    const auto kept = patients::fromKept(patients::asKept(draft));
    QVERIFY(kept);
    QCOMPARE(kept->patient, draft.original.id);
    QVERIFY(kept->typed == typed);
    QCOMPARE(typed.size(), size_t(15));
    for (const QString& text : {u""_s, u"x"_s, u"{}"_s, u"{\"patient\":\"1\",\"typed\":{}}"_s})
        QVERIFY(!patients::fromKept(text));
}

void TestPatientDraft::onlyTypingIsAChange()
{
    patients::PatientDraft draft = patients::draftOf(halden());
    QVERIFY(!draft.isChanged());
    draft.typed[Field::Notes] += u"."_s;
    QVERIFY(draft.isChanged());
}

void TestPatientDraft::eachFaultSaysWhatIsAllowed_data()
{
    QTest::addColumn<Field>("field");
    QTest::addColumn<QString>("typed");
    QTest::addColumn<QString>("says");
    QTest::newRow("no day") << Field::Born << u"4.3.1951"_s << u"1951-03-04"_s;
    QTest::newRow("born tomorrow") << Field::Born << u"2026-03-13"_s << u"today"_s;
    QTest::newRow("born long ago") << Field::Born << u"1851-03-04"_s << u"1880"_s;
    QTest::newRow("onset before birth") << Field::Onset << u"1950-01-01"_s << u"birth date"_s;
    QTest::newRow("onset no day") << Field::Onset << u"spring"_s << u"1951-03-04"_s;
    QTest::newRow("height in metres") << Field::Height << u"1.67"_s << u"30 to 250"_s;
    QTest::newRow("height with its unit") << Field::Height << u"167 cm"_s << u"number"_s;
    QTest::newRow("weight too much") << Field::Weight << u"401"_s << u"1 to 400"_s;
    QTest::newRow("a name without end") << Field::Family << QString(101, u'x') << u"at most 100 characters"_s;
    QTest::newRow("a name that turns the line")
        << Field::Given << u"Anna\u202egnaL"_s << u"character 5 is an invisible control character"_s;
    QTest::newRow("a number that clears the screen") << Field::RecordNumber << u"L-1\x1b[2J"_s << u"U+001B"_s;
    QTest::newRow("a number without end")
        << Field::RecordNumber << QString(41, u'1') << u"at most 40 characters"_s;
    QTest::newRow("notes without end") << Field::Notes << QString(20'001, u'x') << u"at most 20000"_s;
    QTest::newRow("unknown population") << Field::Population << u"martians"_s << u"catalogue"_s;
}

void TestPatientDraft::eachFaultSaysWhatIsAllowed()
{
    QFETCH(Field, field);
    QFETCH(QString, typed);
    QFETCH(QString, says);
    patients::PatientDraft draft = patients::draftOf(halden());
    draft.typed[field] = typed;
    const auto check = patients::checked(draft, catalogueWithStroke(), today);
    QCOMPARE(check.wrong.size(), size_t(1));
    QVERIFY2(check.wrong.at(field).contains(says), qPrintable(check.wrong.at(field)));
}

void TestPatientDraft::aCommaIsADecimalPoint()
{
    patients::PatientDraft draft = patients::draftOf(halden());
    draft.typed[Field::Height] = u"171,5"_s;
    QCOMPARE(patients::checked(draft, catalogueWithStroke(), today).patient.heightCm, std::optional(171.5));
}

void TestPatientDraft::someoneWithoutAnyNameIsRefused()
{
    const auto check = patients::checked(patients::draftOf({}), catalogueWithStroke(), today);
    QCOMPARE(check.wrong.size(), size_t(1));
    QVERIFY(check.wrong.at(Field::Family).contains(u"family name"_s));
}

void TestPatientDraft::whatAnotherSavedIsTakenOverWhereNothingWasTyped()
{
    patients::PatientDraft draft = patients::draftOf(halden());
    draft.typed[Field::Notes] = u"prefers evenings"_s;
    records::Patient saved = draft.original;
    saved.revision = 2;
    saved.weightKg = 64;
    QVERIFY(patients::goOnFrom(saved, draft).empty());
    QCOMPARE(draft.typed.at(Field::Weight), u"64"_s);
    QCOMPARE(draft.typed.at(Field::Notes), u"prefers evenings"_s);
    QCOMPARE(patients::checked(draft, catalogueWithStroke(), today).patient.revision, 2);
}

void TestPatientDraft::whatWasTypedStaysAndTheFieldIsNamed()
{
    patients::PatientDraft draft = patients::draftOf(halden());
    draft.typed[Field::Notes] = u"prefers evenings"_s;
    records::Patient saved = draft.original;
    saved.notes = u"needs an interpreter"_s;
    QCOMPARE(patients::goOnFrom(saved, draft), std::vector{Field::Notes});
    QCOMPARE(draft.typed.at(Field::Notes), u"prefers evenings"_s);
}

HOUSE_TEST(TestPatientDraft)

} // namespace test_patient_draft

#include "test_patient_draft.moc"
