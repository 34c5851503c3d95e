#include "core/telling/visit_words.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_visit_words
{

const QDate march(2026, 3, 2);

/// Who walked under these conditions, or was scored alone.
records::Visit walked(const records::Conditions& conditions,
                      const QString& measure = u"gait-speed-comfortable"_s)
{
    return examples::visit(u"v"_s, march,
                           {examples::finding(measure, values::Quantity{1, values::Unit::MetrePerSecond})},
                           conditions);
}

QString told(const records::Visit& now, const records::Visit* before,
             const QString& population = u"parkinson"_s)
{
    static const catalogue::Catalogue book = examples::catalogue();
    return telling::circumstances(now, before, population, book, {}).join(u" · "_s);
}

class TestVisitWords : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void onAndOffAreNamedWhereTheyAreRecorded()
    {
        QCOMPARE(told(walked({{u"medication"_s, u"off"_s}}), nullptr), u"Medication: off"_s);
        QCOMPARE(told(walked({}), nullptr), QString());
        const records::Visit same = walked({{u"medication"_s, u"off"_s}});
        QCOMPARE(told(same, &same), u"Medication: off"_s);
    }

    void whatDecidesIsNamedWhereItDiffers()
    {
        const records::Visit off = walked({{u"medication"_s, u"off"_s}, {u"aid"_s, u"stick"_s}});
        const records::Visit on = walked({{u"medication"_s, u"on"_s}, {u"aid"_s, u"none"_s}});
        QCOMPARE(told(on, &off), u"Walking aid: none (at 02-Mar-2026: stick) · "
                                 "Medication: on (at 02-Mar-2026: off)"_s);
    }

    void whatDecidesNothingIsNotNamed()
    {
        const records::Visit ten = walked({{u"distance_m"_s, u"10"_s}, {u"aid"_s, u"none"_s}});
        const records::Visit six = walked({{u"distance_m"_s, u"6"_s}, {u"aid"_s, u"None"_s}});
        QCOMPARE(told(six, &ten), QString()); // a soft condition, and the same aid in other letters
        const records::Visit off = walked({{u"medication"_s, u"off"_s}});
        const records::Visit on = walked({{u"medication"_s, u"on"_s}});
        QCOMPARE(told(on, &off, u"stroke"_s), u"Medication: on"_s);
        const records::Visit scored = walked({{u"aid"_s, u"stick"_s}}, u"berg-balance"_s);
        QCOMPARE(told(scored, &ten), QString());
    }

    void whatWasNotRecordedDiffersFromNothing()
    {
        const records::Visit bare = walked({});
        QCOMPARE(told(walked({{u"aid"_s, u"stick"_s}}), &bare), QString());
        QCOMPARE(told(bare, &bare), QString());
    }
};

HOUSE_TEST(TestVisitWords)

} // namespace test_visit_words

#include "test_visit_words.moc"
