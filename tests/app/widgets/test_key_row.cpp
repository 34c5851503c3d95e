#include "app/widgets/key_row.h"

#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_key_row
{

using widgets::KeyRow;

std::vector<widgets::KeyFace> grades()
{
    std::vector<widgets::KeyFace> faces;
    for (const QString& digit : {u"0"_s, u"1"_s, u"2"_s})
        faces.push_back({digit, digit, u"grade "_s + digit, u"grade."_s + digit});
    return faces;
}

class TestKeyRow : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aDigitPressesItsKey();
    void oneKeyIsDownAtMost();
    void arrowsGoAlongAndSpacePresses();
    void deleteLetsGo();
    void anEmptyRowBeginsAtItsFirstKey();
    void aClickPressesAKey();
    void anyKeysMayBeDownWhereTheyAreToggles();
    void aReadOnlyRowKeepsStill();
    void showingAKeyTellsNobody();
    void aLetterOfNoKeyIsPassedOn();
    void keysBreakIntoLinesThatFit();
};

void TestKeyRow::aDigitPressesItsKey()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    QSignalSpy pressed(&row, &KeyRow::pressed);
    QTest::keyClick(&row, Qt::Key_2);
    QCOMPARE(pressed.size(), 1);
    QCOMPARE(row.chosen(), std::optional(2));
}

void TestKeyRow::oneKeyIsDownAtMost()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    QTest::keyClicks(&row, u"01"_s);
    QVERIFY(!row.isDown(0));
    QVERIFY(row.isDown(1));
}

void TestKeyRow::arrowsGoAlongAndSpacePresses()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    QTest::keyClick(&row, Qt::Key_Right);
    QVERIFY(!row.chosen());
    QTest::keyClick(&row, Qt::Key_Space);
    QCOMPARE(row.chosen(), std::optional(1));
}

void TestKeyRow::deleteLetsGo()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    row.setChosen(1);
    QSignalSpy cleared(&row, &KeyRow::cleared);
    QTest::keyClick(&row, Qt::Key_Delete);
    QCOMPARE(cleared.size(), 1);
    QVERIFY(!row.chosen());
}

/// Of what stood in the row before, Space must not press again; where the arrows have come to stays.
void TestKeyRow::anEmptyRowBeginsAtItsFirstKey()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    row.setChosen(2);
    row.setChosen(std::nullopt);
    QTest::keyClick(&row, Qt::Key_Space);
    QCOMPARE(row.chosen(), std::optional(0));
    row.setChosen(std::nullopt);
    QTest::keyClick(&row, Qt::Key_Right);
    row.setChosen(std::nullopt);
    QTest::keyClick(&row, Qt::Key_Space);
    QCOMPARE(row.chosen(), std::optional(1));
}

void TestKeyRow::aClickPressesAKey()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    row.resize(row.sizeHint());
    QTest::mouseClick(row.findChild<widgets::Key*>(u"grade.2"_s), Qt::LeftButton);
    QCOMPARE(row.chosen(), std::optional(2));
}

void TestKeyRow::anyKeysMayBeDownWhereTheyAreToggles()
{
    KeyRow row(grades(), KeyRow::Down::Any, nullptr);
    QTest::keyClicks(&row, u"020"_s);
    QVERIFY(!row.isDown(0));
    QVERIFY(row.isDown(2));
    QTest::mouseClick(row.findChild<widgets::Key*>(u"grade.1"_s), Qt::LeftButton);
    QVERIFY(row.isDown(1));
}

void TestKeyRow::aReadOnlyRowKeepsStill()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    row.setReadOnly(true);
    QTest::keyClick(&row, Qt::Key_1);
    QTest::keyClick(&row, Qt::Key_Delete);
    QVERIFY(!row.chosen());
}

void TestKeyRow::showingAKeyTellsNobody()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    QSignalSpy pressed(&row, &KeyRow::pressed);
    row.setChosen(2);
    QCOMPARE(pressed.size(), 0);
    QCOMPARE(row.accessibleDescription(), u"2"_s);
}

void TestKeyRow::aLetterOfNoKeyIsPassedOn()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    QSignalSpy other(&row, &KeyRow::otherTyped);
    QTest::keyClick(&row, Qt::Key_U);
    QCOMPARE(other.size(), 1);
    QCOMPARE(other.first().first().toChar(), QChar(u'u'));
}

void TestKeyRow::keysBreakIntoLinesThatFit()
{
    KeyRow row(grades(), KeyRow::Down::One, nullptr);
    const int one = row.heightForWidth(400);
    QVERIFY(row.heightForWidth(90) > one);
    QVERIFY(row.heightForWidth(45) > row.heightForWidth(90));
}

HOUSE_TEST(TestKeyRow)

} // namespace test_key_row

#include "test_key_row.moc"
