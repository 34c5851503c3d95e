#include "core/letters/kind.h"

#include "core/letters/composer.h"
#include "core/letters/kind_check.h"
#include "core/letters/letter_template.h"
#include "tests/core/letters/letter_material.h"
#include "tests/support/test_support.h"

#include <QDir>

namespace test_kind
{

using namespace letter_material;

records::LetterKind version(int number, const QString& page)
{
    records::LetterKind made;
    made.id = u"own"_s;
    made.version = number;
    made.title = u"Our letter %1"_s.arg(number);
    made.page = page;
    return made;
}

class TestKind : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void thoseOfTheProgramHaveNoFault()
    {
        const std::vector<Kind> all = kinds({});
        QCOMPARE(all.size(), size_t(5));
        for (const Kind& kind : all) {
            const auto faults = faultsIn(kind.page);
            QVERIFY2(faults.empty(),
                     qPrintable(kind.id + (faults.empty() ? QString() : faults.front().what.english())));
        }
        for (const QString& part : QDir(u":/letters/parts"_s).entryList()) {
            if (part.startsWith(u"style"_s) ||
                part.startsWith(u"annex"_s)) // a sheet, and rows a clinic does not write
                continue;
            const auto faults = faultsIn(templateNamed(u"parts/"_s + part.chopped(9)));
            QVERIFY2(faults.empty(),
                     qPrintable(part + (faults.empty() ? QString() : faults.front().what.english())));
        }
    }

    void aFaultIsSaidWithItsLine_data()
    {
        QTest::addColumn<QString>("page");
        QTest::addColumn<int>("line");
        QTest::addColumn<QString>("what");
        QTest::newRow("open section")
            << u"<p>Größe</p>\n{{#plan}}<p>x</p>"_s << 2 << u"The section “plan” is not closed."_s;
        QTest::newRow("closed section")
            << u"<p>a</p>\n\n{{/plan}}"_s << 3 << u"The section “plan” is closed and was not opened."_s;
        QTest::newRow("tag") << u"<p>{{plan</p>"_s << 1 << u"A tag is not closed with }}."_s;
        QTest::newRow("field") << u"<p>{{to}}</p>\n<p>{{pan}}</p>"_s << 2 << u"There is no field “pan”."_s;
        QTest::newRow("part") << u"{{> part:head}}\n{{> part:heart}}"_s << 2
                              << u"There is no part “part:heart”."_s;
        QTest::newRow("behind a remark")
            << u"{{! a remark }}\n{{pan}}"_s << 2 << u"There is no field “pan”."_s;
        QTest::newRow("markup as text")
            << u"{{{question}}}"_s << 1
            << u"“question” must stand between two braces, so that it is written as text."_s;
        QTest::newRow("element") << u"<p>a</p>\n<script>x</script>"_s << 2
                                 << u"Letters do not draw the element “script”."_s;
        QTest::newRow("unclosed element")
            << u"<p>a\n<p>b</p>"_s << 2 << u"An element is not closed, or closed where another is open."_s;
    }

    void aFaultIsSaidWithItsLine()
    {
        QFETCH(QString, page);
        QFETCH(int, line);
        QFETCH(QString, what);
        const auto faults = faultsIn(page);
        const auto found =
            std::ranges::find_if(faults, [&](const KindFault& each) { return each.what.english() == what; });
        QVERIFY2(found != faults.end(),
                 qPrintable(faults.empty() ? QString() : faults.front().what.english()));
        QCOMPARE(found->line, line);
    }

    void aGoodPageOfTheClinicMakesALetter()
    {
        const QString page =
            u"{{> part:head}}\n<h3>Our heading</h3>{{#hasPlan}}{{#plan}}<p>{{.}}</p>{{/plan}}{{/hasPlan}}"_s;
        QVERIFY(faultsIn(page).empty());
        const std::vector<Kind> all = kinds({}, {version(1, page)});
        QCOMPARE(all.size(), size_t(6));
        Draft letter = material();
        letter.letter.plan = u"Ride a bicycle"_s;
        const QString body = Composer(letter.made(), kindOf(u"own"_s, all), book(), {}).composed(9).body;
        QVERIFY(body.contains(u"<h3>Our heading</h3><p>Ride a bicycle</p>"_s));
    }

    void aBrokenPageNeverStandsInTheWayOfALetter()
    {
        const std::vector<records::LetterKind> versions = {version(1, u"<p>good</p>"_s),
                                                           version(2, u"<p>{{plan</p>"_s)};
        QCOMPARE(kindOf(u"own"_s, kinds({}, versions)).page, u"<p>good</p>"_s);
        QCOMPARE(usedInstead(versions).front().english(),
                 u"The kind of letter “Our letter 2” has a fault; its last good version is used."_s);
        const records::LetterKind broken = version(1, u"<p>{{plan</p>"_s);
        QCOMPARE(kindOf(u"own"_s, kinds({}, {broken, version(2, u"<p>mended</p>"_s)})).page,
                 u"<p>mended</p>"_s);
        records::LetterKind alsoBroken = broken;
        alsoBroken.id = u"their"_s;
        alsoBroken.title = u"Their letter"_s;
        QVERIFY(usedInstead({version(1, u"<p>good</p>"_s), alsoBroken})
                    .front()
                    .english()
                    .contains(u"“Their letter”"_s));
        const std::vector<records::LetterKind> onlyBroken = {version(1, u"<p>{{plan</p>"_s)};
        QCOMPARE(kindOf(u"own"_s, kinds({}, onlyBroken)).id, u"referral"_s);
        QVERIFY(
            usedInstead(onlyBroken).front().english().contains(u"a referral letter is used in its place"_s));
        QVERIFY(usedInstead({version(1, u"<p>good</p>"_s)}).empty());
    }

    void aRetiredKindStaysForTheLettersThatAreOfIt()
    {
        records::LetterKind retired = version(2, u"<p>good</p>"_s);
        retired.isRetired = true;
        const Kind kind = kindOf(u"own"_s, kinds({}, {version(1, u"<p>old</p>"_s), retired}));
        QVERIFY(kind.isRetired && kind.isOwn);
        QCOMPARE(kind.page, u"<p>good</p>"_s);
    }
};

HOUSE_TEST(TestKind)

} // namespace test_kind

#include "test_kind.moc"
