#include "app/writing/rich_field.h"

#include "tests/support/test_support.h"

#include <QtWidgets>

using namespace Qt::StringLiterals;

namespace test_rich_field
{

struct Field : writing::RichField {
    Field()
    {
        show();
        activateWindow();
        setFocus();
    }
    void type(const QString& text) { QTest::keyClicks(this, text); }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        QTest::keyClick(this, key, modifiers);
    }
};

class TestRichField : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsTypedIsPlainUntilItIsFormed()
    {
        Field field;
        field.type(u"two * three # four_five"_s);
        field.key(Qt::Key_Return);
        field.type(u"- six"_s);
        QCOMPARE(field.stored(), u"two * three # four_five\n\\- six"_s);
    }

    void wordsBecomeBoldFromTheKeyboardAndUndone()
    {
        Field field;
        field.type(u"Take "_s);
        field.key(Qt::Key_B, Qt::ControlModifier);
        QVERIFY(field.isBold());
        field.type(u"two"_s);
        field.key(Qt::Key_B, Qt::ControlModifier);
        field.type(u" a day"_s);
        QCOMPARE(field.stored(), u"Take **two** a day"_s);
        field.selectAll();
        field.key(Qt::Key_B, Qt::ControlModifier);
        field.key(Qt::Key_B, Qt::ControlModifier);
        QVERIFY(!field.stored().contains(u'*') || field.stored().startsWith(u"**"_s));
        while (field.document()->isUndoAvailable())
            field.undo();
        QCOMPARE(field.stored(), QString());
        while (field.document()->isRedoAvailable())
            field.redo();
        QVERIFY(field.toPlainText() == u"Take two a day"_s);
    }

    void listsAreMadeAndEndedFromTheKeyboard()
    {
        Field field;
        field.key(Qt::Key_8, Qt::ControlModifier | Qt::ShiftModifier);
        field.type(u"stand"_s);
        field.key(Qt::Key_Return);
        field.type(u"turn"_s);
        field.key(Qt::Key_Return);
        field.key(Qt::Key_Return); // an empty item ends the list
        field.type(u"then"_s);
        field.key(Qt::Key_Return);
        field.key(Qt::Key_7, Qt::ControlModifier | Qt::ShiftModifier);
        field.type(u"sit"_s);
        QCOMPARE(field.stored(), u"- stand\n- turn\nthen\n1. sit"_s);
        field.key(Qt::Key_7, Qt::ControlModifier | Qt::ShiftModifier);
        QCOMPARE(field.stored(), u"- stand\n- turn\nthen\nsit"_s);
        field.undo();
        QCOMPARE(field.stored(), u"- stand\n- turn\nthen\n1. sit"_s);
    }

    void whatIsStoredComesBack()
    {
        Field field;
        for (const QString& kept :
             {u"Take **two** a day\n- at eight\n- at **noon**\n1. stand\n2. turn\nend"_s,
              u"plain * text\n\nwith \\- signs"_s, QString()}) {
            field.setStored(kept);
            QCOMPARE(field.stored(), kept);
            QVERIFY(!field.document()->isUndoAvailable());
        }
    }

    void whatIsPastedIsWordsAlone()
    {
        Field field;
        auto* rich = new QMimeData;
        rich->setHtml(u"<h1 style=\"color: red\">Big</h1><img src=\"x\"/>"_s);
        rich->setText(u"Big"_s);
        QGuiApplication::clipboard()->setMimeData(rich);
        field.paste();
        QCOMPARE(field.stored(), u"Big"_s);
    }

    void whatIsSignedIsNotFormed()
    {
        Field field;
        field.setStored(u"signed"_s);
        field.setReadOnly(true);
        field.selectAll();
        field.key(Qt::Key_B, Qt::ControlModifier);
        field.key(Qt::Key_8, Qt::ControlModifier | Qt::ShiftModifier);
        QCOMPARE(field.stored(), u"signed"_s);
    }
};

HOUSE_TEST(TestRichField)

} // namespace test_rich_field

#include "test_rich_field.moc"
