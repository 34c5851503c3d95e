#include "core/records/conditions.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_conditions
{

using records::Conditions;

class TestConditions : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anExceptionLiesOverTheVisitsCondition();
    void anEmptyExceptionMeansNotRecorded();
    void whatIsAbsentWasNotRecorded();
};

void TestConditions::anExceptionLiesOverTheVisitsCondition()
{
    const Conditions visit = {{u"aid"_s, u"stick"_s}, {u"footwear"_s, u"own-shoes"_s}};
    const Conditions expected = {
        {u"aid"_s, u"none"_s}, {u"footwear"_s, u"own-shoes"_s}, {u"start"_s, u"moving"_s}};
    QCOMPARE(records::withExceptions(visit, {{u"aid"_s, u"none"_s}, {u"start"_s, u"moving"_s}}), expected);
    QCOMPARE(records::withExceptions(visit, {}), visit);
}

void TestConditions::anEmptyExceptionMeansNotRecorded()
{
    const Conditions laid = records::withExceptions({{u"aid"_s, u"stick"_s}}, {{u"aid"_s, QString()}});
    QCOMPARE(records::recorded(laid, u"aid"_s), QString());
}

void TestConditions::whatIsAbsentWasNotRecorded()
{
    QCOMPARE(records::recorded({}, u"aid"_s), QString());
}

HOUSE_TEST(TestConditions)

} // namespace test_conditions

#include "test_conditions.moc"
