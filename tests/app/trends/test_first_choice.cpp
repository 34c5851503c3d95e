#include "app/trends/first_choice.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_first_choice
{

using examples::finding;
using examples::visit;
using values::Quantity;
using values::Unit;

class TestFirstChoice : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void turnsComeBeforeNumbersAndGradesNotAtAll();
    void whatMovedMoreLimitsComesFirst();
    void gradesAloneAreBetterThanNothing();
};

QStringList chosen(const std::vector<records::Visit>& visits, qsizetype most)
{
    const auto book = examples::catalogue();
    return trends::firstChoice(judging::latestChanges(visits, examples::patient(u"parkinson"_s), book), book,
                               most);
}

records::Visit measured(const QString& id, QDate day, double berg, double tandem, values::Value upAndGo)
{
    return visit(id, day,
                 {finding(u"berg-balance"_s, Quantity{berg, Unit::Score}),
                  finding(u"tandem-steps"_s, Quantity{tandem, Unit::Steps}),
                  finding(u"timed-up-and-go"_s, upAndGo),
                  finding(u"romberg-eyes-closed"_s, Quantity{berg, Unit::Second}),
                  finding(u"finger-nose"_s, values::Grade{1}, records::Side::Right)});
}

void TestFirstChoice::turnsComeBeforeNumbersAndGradesNotAtAll()
{
    const std::vector visits{measured(u"a"_s, {2025, 1, 6}, 50, 9, Quantity{20, Unit::Second}),
                             measured(u"b"_s, {2025, 3, 6}, 30, 4, examples::unable())};
    QCOMPARE(chosen(visits, 1), QStringList{u"timed-up-and-go"_s});
    QVERIFY(!chosen(visits, 9).contains(u"finger-nose"_s));
}

void TestFirstChoice::whatMovedMoreLimitsComesFirst()
{
    // Both fell by 20: four limits of 5 points, about one limit of 19 s (Steffen & Seney 2008).
    const std::vector visits{measured(u"a"_s, {2025, 1, 6}, 50, 9, Quantity{20, Unit::Second}),
                             measured(u"b"_s, {2025, 3, 6}, 30, 4, Quantity{20, Unit::Second})};
    QCOMPARE(chosen(visits, 2), QStringList({u"berg-balance"_s, u"romberg-eyes-closed"_s}));
}

void TestFirstChoice::gradesAloneAreBetterThanNothing()
{
    const std::vector visits{
        visit(u"a"_s, {2025, 1, 6}, {finding(u"finger-nose"_s, values::Grade{1}, records::Side::Right)})};
    QCOMPARE(chosen(visits, 4), QStringList{u"finger-nose"_s});
}

HOUSE_TEST(TestFirstChoice)

} // namespace test_first_choice

#include "test_first_choice.moc"
