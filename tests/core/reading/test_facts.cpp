#include "core/catalogue/reader.h"
#include "core/reading/facts.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_facts
{

using examples::finding;
using reading::Fact;
using records::Side;
using values::Absence;
using values::Choice;
using values::Grade;
using values::Missing;

const catalogue::Catalogue& shipped()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

const QDate march(2026, 3, 4);
const QDate may(2026, 5, 6);

std::vector<Fact> factsOf(const std::vector<records::Finding>& before,
                          const std::vector<records::Finding>& now,
                          const std::vector<records::Happening>& happenings = {})
{
    return reading::facts({u"b"_s},
                          {examples::visit(u"a"_s, march, before, {}), examples::visit(u"b"_s, may, now, {})},
                          happenings, shipped());
}

records::Happening fall(QDate on, records::Injury injury)
{
    records::Happening made;
    made.kind = records::HappeningKind::Fall;
    made.from = on;
    made.injury = injury;
    return made;
}

class TestFacts : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void newVerticalNystagmusIsPut()
    {
        const auto vertical = finding(u"nystagmus"_s, Choice{u"upbeat-or-downbeat"_s});
        const auto none = finding(u"nystagmus"_s, Choice{u"none"_s});
        const auto put = factsOf({none}, {vertical});
        QCOMPARE(put.size(), size_t(1));
        QCOMPARE(put.front().kind, Fact::Kind::VerticalNystagmus);
        QCOMPARE(put.front().day, march);
        QCOMPARE(put.front().before, std::optional(none));
        QCOMPARE(factsOf({}, {vertical}).size(), size_t(1));
        QVERIFY(factsOf({vertical}, {vertical}).empty()); // it is not new
        QVERIFY(factsOf({vertical}, {none}).empty());
    }

    void whatTurnedToUnableIsPut()
    {
        const auto done = finding(u"heel-shin"_s, Grade{2}, Side::Left);
        const auto unable = finding(u"heel-shin"_s, Missing{Absence::Unable, {}}, Side::Left);
        const auto put = factsOf({done}, {unable});
        QCOMPARE(put.size(), size_t(1));
        QCOMPARE(put.front().kind, Fact::Kind::BecameUnable);
        QCOMPARE(put.front().side, Side::Left);
        QVERIFY(factsOf({unable}, {unable}).empty());
        QVERIFY(
            factsOf({finding(u"heel-shin"_s, Grade{2}, Side::Right)}, {unable}).empty()); // the other side
        QVERIFY(
            factsOf({finding(u"heel-shin"_s, Missing{Absence::Refused, {}}, Side::Left)}, {unable}).empty());
    }

    void fallsWithInjurySinceTheVisitBeforeArePut()
    {
        using records::Injury;
        QCOMPARE(factsOf({}, {}, {fall(march.addDays(1), Injury::Yes)}).size(), size_t(1));
        QCOMPARE(factsOf({}, {}, {fall(may, Injury::Yes)}).size(), size_t(1));
        QVERIFY(factsOf({}, {}, {fall(march, Injury::Yes)}).empty()); // told at the visit before
        QVERIFY(factsOf({}, {}, {fall(may.addDays(1), Injury::Yes)}).empty());
        QVERIFY(factsOf({}, {}, {fall(may, Injury::No)}).empty());
        QVERIFY(factsOf({}, {}, {fall(may, Injury::NotStated)}).empty());
        auto counted = finding(u"falls-since-last-visit"_s, values::Quantity{2, values::Unit::Count});
        QVERIFY(factsOf({}, {counted}).empty());
        counted.signs = {u"with injury"_s};
        QCOMPARE(factsOf({}, {counted}).size(), size_t(1));
    }
};

HOUSE_TEST(TestFacts)

} // namespace test_facts

#include "test_facts.moc"
