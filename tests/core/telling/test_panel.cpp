#include "core/catalogue/reader.h"
#include "tests/support/panel.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_panel
{

/// A small panel of people whose truth is known; tests/bench/run panel asks 2,000 of each kind.
class TestPanel : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theLinesNameWhatIsTrue_data();
    void theLinesNameWhatIsTrue();
};

constexpr int people = 60;

void TestPanel::theLinesNameWhatIsTrue_data()
{
    QTest::addColumn<panel::Truth>("truth");
    QTest::addColumn<double>("effect");
    QTest::newRow("stable") << panel::Truth::Stable << 0.0;
    QTest::newRow("declining by 4 SEM") << panel::Truth::Declining << 4.0;
    QTest::newRow("improving by 4 SEM") << panel::Truth::Improving << 4.0;
    QTest::newRow("relapsing by 4 SEM") << panel::Truth::Relapsing << 4.0;
    QTest::newRow("turned unable") << panel::Truth::TurnedUnable << 0.0;
    QTest::newRow("at the ceiling") << panel::Truth::Ceiling << 0.0;
    QTest::newRow("condition changed") << panel::Truth::ConditionChanged << 0.0;
}

/// In at least nine of ten, and for sure and false of a tenth at most: of sixty people the 5 % of the large
/// panel could come out so by chance.
void TestPanel::theLinesNameWhatIsTrue()
{
    static const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
    QVERIFY(catalogue);
    QFETCH(panel::Truth, truth);
    QFETCH(double, effect);
    int named = 0;
    int falselySure = 0;
    for (int each = 0; each < people; ++each) {
        const panel::Reading reading =
            panel::read(panel::person(truth, effect, std::uint32_t(each + 1), *catalogue), *catalogue);
        named += int(reading.isTrue);
        falselySure += int(reading.isFalselySure);
    }
    QVERIFY2(named >= people * 9 / 10, qPrintable(QString::number(named)));
    QVERIFY2(falselySure <= people / 10, qPrintable(QString::number(falselySure)));
}

HOUSE_TEST(TestPanel)

} // namespace test_panel

#include "test_panel.moc"
