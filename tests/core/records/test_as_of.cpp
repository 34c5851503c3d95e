#include "core/records/as_of.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_as_of
{

using records::AsOf;

const QDate february(2026, 2, 3);
const QDate march(2026, 3, 5);

QStringList idsOf(const AsOf& record)
{
    QStringList ids;
    for (const records::Visit& visit : record.visits())
        ids << visit.id.text;
    return ids;
}

class TestAsOf : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void laterVisitsAreCutOff()
    {
        const std::vector visits{examples::visit(u"c"_s, march, {}),
                                 examples::visit(u"a"_s, {2025, 1, 1}, {}),
                                 examples::visit(u"b"_s, february, {})};
        QCOMPARE(idsOf(AsOf({u"b"_s}, visits)), (QStringList{u"a"_s, u"b"_s}));
        QCOMPARE(AsOf({u"b"_s}, visits).visit()->id.text, u"b"_s);
        QCOMPARE(idsOf(AsOf({u"c"_s}, visits)), (QStringList{u"a"_s, u"b"_s, u"c"_s}));
    }

    void ofOneDayTheFollowingAreLater()
    {
        const std::vector visits{examples::visit(u"a"_s, march, {}), examples::visit(u"b"_s, march, {}),
                                 examples::visit(u"c"_s, march, {})};
        QCOMPARE(idsOf(AsOf({u"b"_s}, visits)), (QStringList{u"a"_s, u"b"_s}));
    }

    void anUnknownVisitHasNoRecord()
    {
        const AsOf record({u"z"_s}, {examples::visit(u"a"_s, march, {})});
        QVERIFY(record.visits().empty());
        QVERIFY(record.visit() == nullptr);
        QVERIFY(AsOf().visit() == nullptr);
    }
};

HOUSE_TEST(TestAsOf)

} // namespace test_as_of

#include "test_as_of.moc"
