#include "app/visits/typed.h"

#include "core/catalogue/reader.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_typed
{

const catalogue::Measure& measure(const QString& id)
{
    static const auto book = catalogue::readCatalogue(u":/catalogue"_s);
    return *book->measure(id);
}

class TestTyped : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void trialsAreReadInTheirOrderAndEmptyFieldsAreNone();
    void aRefusedFieldIsNamedAndTheOthersStillCount();
    void impossibleNumbersAreRefusedWithWhatIsAllowed_data();
    void impossibleNumbersAreRefusedWithWhatIsAllowed();
    void everyLetterOfAStateIsReadBack();
    void aStoppedClockIsAsFineAsTheMeasure_data();
    void aStoppedClockIsAsFineAsTheMeasure();
};

void TestTyped::trialsAreReadInTheirOrderAndEmptyFieldsAreNone()
{
    const auto typed = visits::trialsTyped({u" 12,5"_s, QString(), u"11.75"_s},
                                           measure(u"ten-metre-walk-time-comfortable"_s));
    QVERIFY(!typed.wrong);
    QCOMPARE(typed.numbers, (std::vector{12.5, 11.75}));
}

void TestTyped::aRefusedFieldIsNamedAndTheOthersStillCount()
{
    const auto typed = visits::trialsTyped({u"20.1"_s, u"2"_s}, measure(u"nine-hole-peg"_s));
    QVERIFY(typed.wrong);
    QCOMPARE(typed.wrongField, 1);
    QCOMPARE(typed.numbers, std::vector{20.1});
}

void TestTyped::impossibleNumbersAreRefusedWithWhatIsAllowed_data()
{
    QTest::addColumn<QString>("id");
    QTest::addColumn<QString>("text");
    QTest::addColumn<QString>("allowed");
    QTest::newRow("13 of 10 tandem steps") << u"tandem-steps"_s << u"13"_s << u"0 to 10"_s;
    QTest::newRow("half a point") << u"berg-balance"_s << u"55.5"_s << u"0 to 56"_s;
    QTest::newRow("a negative time") << u"timed-up-and-go"_s << u"-4"_s << u"2 to 300"_s;
    QTest::newRow("no number") << u"timed-up-and-go"_s << u"1e2"_s << u"2 to 300"_s;
}

void TestTyped::impossibleNumbersAreRefusedWithWhatIsAllowed()
{
    QFETCH(QString, id);
    QFETCH(QString, text);
    QFETCH(QString, allowed);
    const auto typed = visits::trialsTyped({text}, measure(id));
    QVERIFY(typed.wrong);
    QVERIFY2(typed.wrong->what.english().contains(allowed), qUtf8Printable(typed.wrong->what.english()));
    QVERIFY(typed.numbers.empty());
}

void TestTyped::everyLetterOfAStateIsReadBack()
{
    for (const auto absence : {values::Absence::Unable, values::Absence::NotAttempted,
                               values::Absence::Refused, values::Absence::NotApplicable}) {
        QCOMPARE(visits::absenceTyped(visits::letterOf(absence)), std::optional(absence));
        QCOMPARE(visits::absenceTyped(visits::letterOf(absence).toUpper()), std::optional(absence));
    }
    QVERIFY(!visits::absenceTyped(u'q'));
}

void TestTyped::aStoppedClockIsAsFineAsTheMeasure_data()
{
    QTest::addColumn<QString>("id");
    QTest::addColumn<qint64>("milliseconds");
    QTest::addColumn<QString>("text");
    QTest::newRow("hundredths") << u"ten-metre-walk-time-comfortable"_s << qint64(12504) << u"12.50"_s;
    QTest::newRow("tenths, rounded up") << u"timed-up-and-go"_s << qint64(9960) << u"10.0"_s;
    QTest::newRow("tenths, rounded down") << u"timed-up-and-go"_s << qint64(9949) << u"9.9"_s;
}

void TestTyped::aStoppedClockIsAsFineAsTheMeasure()
{
    QFETCH(QString, id);
    QFETCH(qint64, milliseconds);
    QFETCH(QString, text);
    QCOMPARE(visits::secondsText(milliseconds, measure(id)), text);
}

HOUSE_TEST(TestTyped)

} // namespace test_typed

#include "test_typed.moc"
