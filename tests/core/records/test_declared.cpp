#include "core/records/declared.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_declared
{

using catalogue::Strictness;
using records::Conditions;
using records::DeclaredEqual;
using records::Occasion;

const QString walk = u"walk"_s;

DeclaredEqual equal(const QString& earlier, const QString& later, bool isTakenBack = false)
{
    return {walk, {earlier}, {later}, isTakenBack, {}, {}, {}};
}

Occasion occasion(const QString& series, const Conditions& conditions = {})
{
    Occasion made;
    made.series = {series};
    made.conditions = conditions;
    return made;
}

std::vector<Conditions> laid(std::vector<Occasion> occasions, const std::vector<DeclaredEqual>& declared)
{
    catalogue::Measure measure;
    measure.id = walk;
    measure.conditions = {{u"footwear"_s, Strictness::Soft, {}}, {u"aid"_s, Strictness::Hard, {}}};
    records::layDeclared(occasions, measure, declared);
    std::vector<Conditions> counted;
    for (const Occasion& occasion : occasions)
        counted.push_back(occasion.declared);
    return counted;
}

class TestDeclared : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aWordIsOfItsTwoVisitsInAnyOrder()
    {
        const auto isEqual = [](const QString& one, const QString& other) {
            return records::isDeclaredEqual({equal(u"a"_s, u"b"_s)}, walk, {one}, {other});
        };
        QVERIFY(isEqual(u"a"_s, u"b"_s) && isEqual(u"b"_s, u"a"_s));
        QVERIFY(!isEqual(u"a"_s, u"c"_s) && !isEqual(u"c"_s, u"a"_s));
        QVERIFY(!isEqual(u"b"_s, u"c"_s) && !isEqual(u"c"_s, u"b"_s));
        QVERIFY(!records::isDeclaredEqual({equal(u"a"_s, u"b"_s)}, u"turn"_s, {u"a"_s}, {u"b"_s}));
    }

    void whatOneRecordedCountsAtTheOther()
    {
        const Conditions stick = {{u"aid"_s, u"stick"_s}, {u"footwear"_s, u"shoes"_s}};
        QCOMPARE(laid({occasion(u"a"_s), occasion(u"b"_s, stick)}, {equal(u"a"_s, u"b"_s)}),
                 (std::vector{stick, Conditions()}));
    }

    /// A hard condition that nobody recorded is equal to itself; a soft one keeps nothing apart and needs no
    /// word.
    void whatNobodyRecordedSharesAWord()
    {
        const Conditions shared = {{u"aid"_s, u"a"_s}};
        QCOMPARE(laid({occasion(u"a"_s), occasion(u"b"_s), occasion(u"c"_s)},
                      {equal(u"a"_s, u"b"_s), equal(u"b"_s, u"c"_s)}),
                 (std::vector{shared, shared, shared}));
    }

    void aWordOnAVisitThatIsNotThereSaysNothing()
    {
        for (const auto& word :
             {equal(u"gone"_s, u"b"_s), equal(u"a"_s, u"gone"_s), equal(u"a"_s, u"b"_s, true)})
            QCOMPARE(laid({occasion(u"a"_s), occasion(u"b"_s)}, {word}),
                     (std::vector{Conditions(), Conditions()}));
    }
};

HOUSE_TEST(TestDeclared)

} // namespace test_declared

#include "test_declared.moc"
