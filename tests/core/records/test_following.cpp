#include "core/records/following.h"

#include "core/catalogue/reader.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_following
{

using values::Absence;
using values::Quantity;

class TestFollowing : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// The sign is positive only where the stance is steady with open eyes (common practice, no source).
    void anUnsteadyStanceLeavesNothingToSayOfTheSign_data()
    {
        QTest::addColumn<values::Value>("held");
        QTest::addColumn<bool>("follows");
        const auto seconds = [](double held) { return values::Value(Quantity{held, values::Unit::Second}); };
        QTest::newRow("steady") << seconds(60) << false;
        QTest::newRow("just steady") << seconds(30) << false;
        QTest::newRow("just not") << seconds(29.9) << true;
        QTest::newRow("lost at once") << seconds(0) << true;
        QTest::newRow("unable") << values::Value(values::Missing{Absence::Unable, u"weakness"_s}) << true;
        QTest::newRow("not attempted")
            << values::Value(values::Missing{Absence::NotAttempted, u"pain"_s}) << false;
        QTest::newRow("refused") << values::Value(values::Missing{Absence::Refused, {}}) << false;
        QTest::newRow("not asked") << values::Value(values::Missing{}) << false;
    }

    void anUnsteadyStanceLeavesNothingToSayOfTheSign()
    {
        QFETCH(const values::Value, held);
        QFETCH(const bool, follows);
        const auto book = catalogue::readCatalogue(u":/catalogue"_s);
        QVERIFY(book);
        const catalogue::Measure& sign = *book->measure(u"romberg-sign"_s);
        records::Finding hold;
        hold.measure = u"romberg-eyes-open"_s;
        hold.value = held;
        records::Visit visit;
        QVERIFY(!records::followingChoice(sign, visit));
        visit.findings = {hold};
        const auto choice = records::followingChoice(sign, visit);
        QCOMPARE(choice.has_value(), follows);
        if (choice)
            QCOMPARE(choice->key, u"unsteady-eyes-open"_s);
        QVERIFY(!records::followingChoice(*book->measure(u"nystagmus"_s), visit));
    }
};

HOUSE_TEST(TestFollowing)

} // namespace test_following

#include "test_following.moc"
