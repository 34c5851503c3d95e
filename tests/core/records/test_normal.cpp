#include "core/records/normal.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_normal
{

class TestNormal : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theBetterEndOfAGradeIsNormal()
    {
        catalogue::Measure nose = *m_book.measure(u"finger-nose"_s);
        QCOMPARE(records::normalValue(nose), std::optional<values::Value>(values::Grade{0}));
        nose.better = catalogue::Direction::HigherIsBetter;
        QCOMPARE(records::normalValue(nose), std::optional<values::Value>(values::Grade{4}));
        nose.better = catalogue::Direction::Neither;
        QVERIFY(!records::normalValue(nose));
    }

    void aGradeWithoutBothEndsHasNone()
    {
        catalogue::Measure nose = *m_book.measure(u"finger-nose"_s);
        nose.highest.reset();
        QVERIFY(!records::normalValue(nose));
        nose = *m_book.measure(u"finger-nose"_s);
        nose.lowest.reset();
        QVERIFY(!records::normalValue(nose));
    }

    void amongWordsTheOneThatSaysSo()
    {
        const catalogue::Measure& drift = *m_book.measure(u"pronator-drift"_s);
        QCOMPARE(records::normalValue(drift), std::optional<values::Value>(values::Choice{u"none"_s}));
    }

    /// A time has a range, and no time is normal of everybody.
    void aMeasuredNumberHasNone()
    {
        for (const QString& id : {u"timed-up-and-go"_s, u"berg-balance"_s})
            QVERIFY(!records::normalValue(*m_book.measure(id)));
    }

private:
    const catalogue::Catalogue m_book = examples::catalogue();
};

HOUSE_TEST(TestNormal)

} // namespace test_normal

#include "test_normal.moc"
