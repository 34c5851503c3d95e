#include "app/widgets/mnemonics.h"

#include "app/widgets/key_row.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QTabBar>
#include <QVBoxLayout>

using namespace Qt::StringLiterals;

namespace test_mnemonics
{

using widgets::withMnemonics;

QStringList given(const QStringList& bare)
{
    std::vector<widgets::Labelled> texts;
    for (const QString& text : bare)
        texts.push_back({text, false});
    return withMnemonics(texts);
}

struct Window : QWidget {
    QVBoxLayout* column = new QVBoxLayout(this);
    QPushButton* save = new QPushButton(u"Save"_s, this);
    QCheckBox* signs = new QCheckBox(u"Signs"_s, this);
    QPushButton* hidden = new QPushButton(u"Send"_s, this);
    QTabBar* tabs = new QTabBar(this);
    QLabel* label = new QLabel(u"Age"_s, this);
    QLabel* plain = new QLabel(u"No key leads here"_s, this);
    QLineEdit* age = new QLineEdit(this);

    Window()
    {
        tabs->addTab(u"Trend"_s);
        tabs->addTab(u"Tests"_s);
        label->setBuddy(age);
        for (QWidget* each : std::initializer_list<QWidget*>{save, signs, hidden, tabs, label, plain, age})
            column->addWidget(each);
        hidden->hide();
    }
};

class TestMnemonics : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theFirstLetterIsTheBest()
    {
        QCOMPARE(given({u"Save"_s, u"Print…"_s, u"Sign visit"_s}),
                 QStringList({u"&Save"_s, u"&Print…"_s, u"Sign &visit"_s}));
    }

    void whatWasChosenByHandStays()
    {
        QCOMPARE(withMnemonics({{u"Save"_s, false}, {u"&Sign"_s, true}, {u"&Send"_s, true}}),
                 QStringList({u"S&ave"_s, u"&Sign"_s, u"S&end"_s}));
    }

    /// Who came first moves on: without that the last would have none.
    void aLetterIsGivenUpWhereAnotherNeedsIt()
    {
        QCOMPARE(given({u"Abc"_s, u"B"_s, u"A"_s}), QStringList({u"Ab&c"_s, u"&B"_s, u"&A"_s}));
    }

    /// What someone has seen is not moved by what comes up beside it.
    void aLetterThatWasGivenStays()
    {
        QCOMPARE(withMnemonics({{u"Send"_s, false}, {u"&Save"_s, false}}),
                 QStringList({u"S&end"_s, u"&Save"_s}));
        QCOMPARE(withMnemonics({{u"&Ab"_s, false}, {u"A"_s, false}}), QStringList({u"A&b"_s, u"&A"_s}));
    }

    void textsThatAreAlikeShareOne()
    {
        QCOMPARE(given({u"Rest done"_s, u"Ready"_s, u"Rest done"_s}),
                 QStringList({u"&Rest done"_s, u"R&eady"_s, u"&Rest done"_s}));
    }

    /// Two & are one that is read; what stands behind a tab is the entry's key; a number has no letter.
    void whatIsNoLetterIsLeft()
    {
        QCOMPARE(given({u"&& more"_s, u"12"_s, u"\tCtrl+C"_s, u"Copy\tCtrl+C"_s}),
                 QStringList({u"&& &more"_s, u"12"_s, u"\tCtrl+C"_s, u"&Copy\tCtrl+C"_s}));
        QVERIFY(widgets::mnemonicOf(u"a && b"_s).isNull());
        QCOMPARE(widgets::mnemonicOf(u"a && &b"_s), QChar(u'B'));
    }

    void everythingInAWindowGetsItsOwn()
    {
        Window window;
        window.show();
        widgets::giveMnemonics(window);
        QCOMPARE(window.save->text(), u"&Save"_s);
        QCOMPARE(window.signs->text(), u"S&igns"_s);
        QCOMPARE(window.hidden->text(), u"Send"_s);
        QCOMPARE(window.tabs->tabText(0), u"&Trend"_s);
        QCOMPARE(window.tabs->tabText(1), u"T&ests"_s);
        QCOMPARE(window.label->text(), u"&Age"_s);
        QCOMPARE(window.plain->text(), u"No key leads here"_s);
        widgets::giveMnemonics(window); // a second time nothing moves
        QCOMPARE(window.signs->text(), u"S&igns"_s);
    }

    /// It would be shown as it stands, beside the digit that presses the key.
    void aKeyThatDrawsItselfHasNone()
    {
        QWidget window;
        auto* column = new QVBoxLayout(&window);
        auto* key = new widgets::Key({u"None"_s, u"1"_s, u"None"_s, {}}, true, &window);
        auto* next = new QPushButton(u"Next"_s, &window);
        column->addWidget(key);
        column->addWidget(next);
        window.show();
        widgets::giveMnemonics(window);
        QCOMPARE(key->text(), u"None"_s);
        QCOMPARE(next->text(), u"&Next"_s);
    }

    /// As the program runs: after a text was changed, and for what comes up later.
    void aLetterIsGivenAgain()
    {
        const widgets::Mnemonics mnemonics(*qApp);
        Window window;
        window.show();
        QTRY_COMPARE(window.save->text(), u"&Save"_s);
        window.save->setText(u"Undo “Trend”"_s);
        QTRY_COMPARE(window.save->text(), u"&Undo “Trend”"_s);
        window.hidden->show();
        QTRY_COMPARE(window.hidden->text(), u"&Send"_s);
        bool isPressed = false;
        connect(window.hidden, &QPushButton::clicked, &window, [&] { isPressed = true; });
        QVERIFY(QTest::qWaitForWindowActive(&window));
        QTest::keyClick(&window, Qt::Key_S, Qt::AltModifier);
        QTRY_VERIFY(isPressed);
    }

    void aMenuHasThemBeforeItIsSeen()
    {
        const widgets::Mnemonics mnemonics(*qApp);
        QMenu menu;
        menu.addAction(u"Import findings…"_s);
        menu.addAction(u"&Import records…"_s);
        QTest::ignoreMessage(QtWarningMsg, "This plugin does not support raise()");
        QTest::ignoreMessage(QtWarningMsg, "This plugin does not support grabbing the keyboard");
        menu.popup({});
        QCOMPARE(menu.actions()[0]->text(), u"Import &findings…"_s);
        QCOMPARE(menu.actions()[1]->text(), u"&Import records…"_s);
    }
};

HOUSE_TEST(TestMnemonics)

} // namespace test_mnemonics

#include "test_mnemonics.moc"
