#include "app/visits/earlier.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_earlier
{

using records::Visit;

const QString walk = u"ten-metre-walk-time-comfortable"_s;

Visit walked(int day, const records::Conditions& conditions)
{
    return examples::visit(u"v%1"_s.arg(day), {2026, 3, day},
                           {examples::finding(walk, values::Quantity{12, values::Unit::Second})}, conditions);
}

class TestEarlier : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatWasDeclaredEqualIsComparableInTheFormToo()
    {
        const catalogue::Catalogue book = examples::catalogue();
        const std::vector<Visit> visits = {walked(1, {{u"distance_m"_s, u"10"_s}}),
                                           walked(9, {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}})};
        records::Patient patient = examples::patient(u"stroke"_s);
        const auto isComparable = [&] {
            return visits::earlierValue({walk, records::Side::None}, visits.back(), {}, visits, patient, book)
                ->isComparable;
        };
        QVERIFY(!isComparable());
        patient.declared = {
            {walk, {u"v1"_s}, {u"v9"_s}, false, u"seen by both of us"_s, u"A. Invented"_s, {}}};
        QVERIFY(isComparable());
    }
};

HOUSE_TEST(TestEarlier)

} // namespace test_earlier

#include "test_earlier.moc"
