#include "app/patients/look_alikes.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_look_alikes
{

records::PatientSummary summary(const QString& family, const QString& given, std::optional<QDate> born)
{
    records::PatientSummary patient;
    patient.id = records::PatientId::make();
    patient.family = family;
    patient.given = given;
    patient.born = born;
    return patient;
}

class TestLookAlikes : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void namesAreCompared_data();
    void namesAreCompared();
    void sameBirthDateIsALookAlike();
    void missingBirthDatesAreNotTheSame();
    void bothTogetherStandFirst();
    void nobodyIsTheirOwnLookAlike();
};

void TestLookAlikes::namesAreCompared_data()
{
    QTest::addColumn<QString>("family");
    QTest::addColumn<QString>("given");
    QTest::addColumn<bool>("isSimilar");
    QTest::newRow("the same") << u"Halden"_s << u"Mirrit"_s << true;
    QTest::newRow("other case and accents") << u"HÅLDEN"_s << u"mírrit"_s << true;
    QTest::newRow("one letter more") << u"Haldern"_s << u"Mirrit"_s << true;
    QTest::newRow("two letters other") << u"Holden"_s << u"Mirret"_s << true;
    QTest::newRow("names exchanged") << u"Mirrit"_s << u"Halden"_s << true;
    QTest::newRow("other given name") << u"Halden"_s << u"Osric"_s << false;
    QTest::newRow("three letters other") << u"Holdon"_s << u"Mirret"_s << false;
    QTest::newRow("family name alone") << u"Halden"_s << QString() << false;
    QTest::newRow("nothing yet") << QString() << QString() << false;
}

void TestLookAlikes::namesAreCompared()
{
    QFETCH(QString, family);
    QFETCH(QString, given);
    QFETCH(bool, isSimilar);
    QCOMPARE(patients::isSimilarName(family, given, u"Halden"_s, u"Mirrit"_s), isSimilar);
}

void TestLookAlikes::sameBirthDateIsALookAlike()
{
    records::Patient candidate;
    candidate.family = u"Voss"_s;
    candidate.born = QDate(1951, 3, 4);
    const auto found = patients::lookAlikes(candidate, {summary(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)),
                                                        summary(u"Brandt"_s, u"Ilse"_s, QDate(1951, 4, 3))});
    QCOMPARE(found.size(), size_t(1));
    QVERIFY(found.front().hasSameBirthDate);
    QVERIFY(!found.front().hasSimilarName);
}

void TestLookAlikes::missingBirthDatesAreNotTheSame()
{
    records::Patient candidate;
    candidate.family = u"Voss"_s;
    QVERIFY(patients::lookAlikes(candidate, {summary(u"Halden"_s, u"Mirrit"_s, std::nullopt)}).empty());
}

void TestLookAlikes::bothTogetherStandFirst()
{
    records::Patient candidate;
    candidate.family = u"Halden"_s;
    candidate.given = u"Mirrit"_s;
    candidate.born = QDate(1951, 3, 4);
    const auto found =
        patients::lookAlikes(candidate, {summary(u"Voss"_s, u"Osric"_s, QDate(1951, 3, 4)),
                                         summary(u"Haldén"_s, u"Mirrit"_s, QDate(1951, 3, 4))});
    QCOMPARE(found.size(), size_t(2));
    QCOMPARE(found.front().patient.family, u"Haldén"_s);
}

void TestLookAlikes::nobodyIsTheirOwnLookAlike()
{
    const records::PatientSummary onRecord = summary(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    records::Patient candidate;
    candidate.id = onRecord.id;
    candidate.family = onRecord.family;
    candidate.given = onRecord.given;
    candidate.born = onRecord.born;
    QVERIFY(patients::lookAlikes(candidate, {onRecord}).empty());
}

HOUSE_TEST(TestLookAlikes)

} // namespace test_look_alikes

#include "test_look_alikes.moc"
