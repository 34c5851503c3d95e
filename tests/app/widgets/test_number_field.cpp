#include "app/widgets/number_field.h"
#include "app/widgets/stopwatch.h"

#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_number_field
{

using widgets::NumberField;

class TestNumberField : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aCommandIsToldAndNotWritten();
    void otherTextStaysToBeJudged();
    void aLetterIsNeverWritten();
    void deleteInAnEmptyFieldIsTold();
    void aReadOnlyFieldTakesNoCommand();
    void theStopwatchTellsHowLongItRan();
};

void TestNumberField::aCommandIsToldAndNotWritten()
{
    NumberField field(u"s"_s, u"udnx "_s, nullptr);
    QSignalSpy commands(&field, &NumberField::commandTyped);
    QTest::keyClicks(&field, u"12U "_s);
    QCOMPARE(field.text(), u"12"_s);
    QCOMPARE(commands.size(), 2);
    QCOMPARE(commands.first().first().toChar(), QChar(u'u'));
}

void TestNumberField::otherTextStaysToBeJudged()
{
    NumberField field(u"s"_s, u"udnx"_s, nullptr);
    QTest::keyClicks(&field, u"-4+"_s);
    QCOMPARE(field.text(), u"-4+"_s);
}

void TestNumberField::aLetterIsNeverWritten()
{
    NumberField field(u"s"_s, u"u"_s, nullptr);
    QSignalSpy letters(&field, &NumberField::letterTyped);
    for (const Qt::KeyboardModifiers held :
         {Qt::KeyboardModifiers(), Qt::KeyboardModifiers(Qt::AltModifier),
          Qt::ControlModifier | Qt::AltModifier, Qt::ShiftModifier | Qt::AltModifier})
        QTest::sendKeyEvent(QTest::Click, &field, Qt::Key_C, u"ć"_s, held);
    QTest::keyClicks(&field, u"C u"_s);
    QVERIFY(field.text().isEmpty());
    QCOMPARE(letters.size(), 3); // ć, C and the space
}

void TestNumberField::deleteInAnEmptyFieldIsTold()
{
    NumberField field(u"s"_s, u"u"_s, nullptr);
    QSignalSpy emptied(&field, &NumberField::emptied);
    field.setText(u"1"_s);
    QTest::keyClick(&field, Qt::Key_Backspace);
    QCOMPARE(emptied.size(), 0);
    QTest::keyClick(&field, Qt::Key_Delete);
    QCOMPARE(emptied.size(), 1);
}

void TestNumberField::aReadOnlyFieldTakesNoCommand()
{
    NumberField field(u"s"_s, u"udnx"_s, nullptr);
    field.setReadOnly(true);
    QSignalSpy commands(&field, &NumberField::commandTyped);
    QTest::keyClicks(&field, u"u1"_s);
    QCOMPARE(commands.size(), 0);
    QVERIFY(field.text().isEmpty());
}

void TestNumberField::theStopwatchTellsHowLongItRan()
{
    qint64 now = 1000;
    widgets::Stopwatch watch([&now] { return now; }, nullptr);
    QSignalSpy stopped(&watch, &widgets::Stopwatch::stopped);
    watch.toggle();
    QVERIFY(watch.isRunning());
    now = 13504;
    watch.toggle();
    QVERIFY(!watch.isRunning());
    QCOMPARE(stopped.first().first().toLongLong(), qint64(12504));
}

HOUSE_TEST(TestNumberField)

} // namespace test_number_field

#include "test_number_field.moc"
