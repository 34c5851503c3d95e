#include "core/records/patient.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_patient
{

using records::Hand;
using records::Patient;
using records::Sex;

const QDate today(2026, 3, 3);

class TestPatient : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theIdentityLineNamesAllParts();
    void noNameTurnsOrSwellsTheIdentityLine();
    void aMissingPartIsSaidInWords();
    void theAgeIsThatOfCompletedYears();
    void codesReadBackAsTheyWereWritten();
    void monthsAreEnglishInEveryLocale();
};

void TestPatient::theIdentityLineNamesAllParts()
{
    Patient patient;
    patient.family = u"Håldén"_s;
    patient.given = u"Mirrit"_s;
    patient.born = QDate(1951, 3, 4);
    patient.sex = Sex::Female;
    patient.recordNumber = u"L-0042"_s;
    QCOMPARE(records::identityLine(patient, today, {}),
             u"\u2068HÅLDÉN\u2069, \u2068Mirrit\u2069 · born 04-Mar-1951 (74) · female · No. "
             "\u2068L-0042\u2069"_s);
}

void TestPatient::noNameTurnsOrSwellsTheIdentityLine()
{
    Patient patient;
    patient.family = u"Hal\u202eden"_s; // as older records may hold it
    patient.given = u"שרה"_s;
    patient.recordNumber = u"L\u2069-\x1b[2J1"_s;
    QCOMPARE(records::identityLine(patient, today, {}),
             u"\u2068HALDEN\u2069, \u2068שרה\u2069 · birth date not recorded · sex not recorded · No. "
             "\u2068L-[2J1\u2069"_s);
    patient.family = QString(1'000'000, u'x');
    QVERIFY(records::identityLine(patient, today, {}).size() < 250);
}

void TestPatient::aMissingPartIsSaidInWords()
{
    QCOMPARE(records::identityLine({}, today, {}),
             u"family name not recorded, given name not recorded · birth "
             u"date not recorded · sex not recorded · no "
             "record number"_s);
}

void TestPatient::theAgeIsThatOfCompletedYears()
{
    Patient patient;
    patient.born = QDate(1951, 3, 4);
    QVERIFY(records::identityLine(patient, QDate(2026, 3, 3), {}).contains(u"(74)"_s));
    QVERIFY(records::identityLine(patient, QDate(2026, 3, 4), {}).contains(u"(75)"_s));
    QVERIFY(!records::identityLine(patient, QDate(1950, 1, 1), {}).contains(u'('));
}

void TestPatient::codesReadBackAsTheyWereWritten()
{
    for (const Sex sex : {Sex::Unknown, Sex::Female, Sex::Male, Sex::Other})
        QCOMPARE(records::sexFromCode(records::code(sex)), std::optional(sex));
    for (const Hand hand : {Hand::Unknown, Hand::Right, Hand::Left, Hand::Both})
        QCOMPARE(records::handFromCode(records::code(hand)), std::optional(hand));
    QVERIFY(!records::sexFromCode(u"Female"_s));
    QVERIFY(!records::sexFromCode({}));
    QVERIFY(!records::handFromCode(u"ambidextrous"_s));
}

void TestPatient::monthsAreEnglishInEveryLocale()
{
    const QLocale before;
    QLocale::setDefault(QLocale(QLocale::German));
    const QString words = records::dayInWords(QDate(2026, 5, 9), {});
    QLocale::setDefault(before);
    QCOMPARE(words, u"09-May-2026"_s);
    QCOMPARE(records::dayInWords(QDate(), {}), QString());
}

HOUSE_TEST(TestPatient)

} // namespace test_patient

#include "test_patient.moc"
