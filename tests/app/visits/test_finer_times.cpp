#include "app/visits/examination_page.h"

#include "tests/app/visits/examination_desk.h"
#include "tests/support/test_support.h"

#include <QLineEdit>

using namespace Qt::StringLiterals;

namespace test_finer_times
{

namespace finer_times
{

const QDate today(2026, 3, 4);

/// The examination page on a draft of today.
struct Open : desk::Desk {
    std::unique_ptr<visits::ExaminationPage> page;

    Open()
    {
        startVisit(today);
        show();
    }
    void show()
    {
        page = std::make_unique<visits::ExaminationPage>(*session, answers);
        page->resize(1280, 860);
        page->show();
    }
    QLineEdit& field(const QString& name) const { return *page->findChild<QLineEdit*>(name); }
    void type(const QString& name, const QString& keys) const
    {
        field(name).setFocus();
        QTest::keyClicks(&field(name), keys);
        page->flush();
    }
};

} // namespace finer_times

/// A stopwatch shows hundredths where the protocol asks for tenths: what it shows is kept.
class TestFinerTimes : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyDigitOfATimeIsKeptAndShownAgain()
    {
        finer_times::Open open;
        open.type(u"timed-up-and-go"_s, u"12,375"_s);
        QCOMPARE(values::number(open.found(u"timed-up-and-go"_s)->value), std::optional(12.375));
        open.show(); // as after a restart
        QCOMPARE(open.field(u"timed-up-and-go"_s).text(), u"12.375"_s);
    }

    void aFurtherTrialLeavesTheDigitsOfTheFirst()
    {
        finer_times::Open open;
        open.type(u"nine-hole-peg.right.trial.1"_s, u"20.05"_s);
        open.show();
        open.type(u"nine-hole-peg.right.trial.2"_s, u"21.15"_s);
        QCOMPARE(open.found(u"nine-hole-peg"_s, records::Side::Right)->trials, (std::vector{20.05, 21.15}));
    }

    void aDistanceKeepsToItsStep()
    {
        const finer_times::Open open;
        open.type(u"six-minute-walk"_s, u"320"_s);
        open.type(u"six-minute-walk"_s, u".5"_s);
        const records::Finding* stored = open.found(u"six-minute-walk"_s);
        QVERIFY(stored == nullptr || values::number(stored->value) == std::optional(320.0));
    }
};

HOUSE_TEST(TestFinerTimes)

} // namespace test_finer_times

#include "test_finer_times.moc"
