#include "app/changes/target_dialog.h"

#include "app/widgets/summary_card.h"
#include "tests/support/answers.h"
#include "tests/support/change_table.h"
#include "tests/support/paces.h"
#include "tests/support/story.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableView>
#include <QTableWidget>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_target_dialog
{

using changes::ChangeModel;
using changes::TargetDialog;
using records::Side;
using records::Target;

const QString upAndGo = u"timed-up-and-go"_s;
const QString fingerNose = u"finger-nose"_s;

/// The dialog on a test of the story.
struct Asked {
    Story story;
    Answers answers;
    std::unique_ptr<TargetDialog> dialog;

    explicit Asked(const QString& measure = upAndGo, Side side = Side::None) { open(measure, side); }

    void open(const QString& measure = upAndGo, Side side = Side::None)
    {
        dialog = std::make_unique<TargetDialog>(story.session(), answers,
                                                *story.session().catalogue().measure(measure), side, nullptr);
        dialog->show();
        dialog->activateWindow();
    }

    template <class Widget>
    Widget* widget(const QString& name) const
    {
        return dialog->findChild<Widget*>(name);
    }
    QString notice() const { return widget<QLabel>(u"noticeWords"_s)->text(); }
    void press(const QString& name) { QTest::keyClick(widget<QPushButton>(name), Qt::Key_Space); }
    std::vector<Target> stored() { return story.session().targets(); }
};

class TestTargetDialog : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aTargetIsAgreedWithoutAMouse()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            QWidget* window = asked.dialog.get();
            pace.typeAt(window, u"12"_s);
            pace.keyAt(window, Qt::Key_Tab);
            pace.typeAt(window, u"2027-03-01"_s);
            pace.keyAt(window, Qt::Key_Tab);
            pace.typeAt(window, u"to the shop"_s);
            pace.keyAt(window, Qt::Key_Return);
            QVERIFY(!window->isVisible());
            QCOMPARE(asked.stored().size(), 1U);
            const Target target = asked.stored().front();
            QCOMPARE(target.measure, upAndGo);
            QCOMPARE(target.value, 12.0);
            QCOMPARE(target.by, std::optional(QDate(2027, 3, 1)));
            QCOMPARE(target.words, u"to the shop"_s);
            QCOMPARE(target.agreedOn, asked.story.session().today());
        });
    }

    void whatCannotBeStoredIsToldAndStays_data()
    {
        QTest::addColumn<QString>("value");
        QTest::addColumn<QString>("by");
        QTest::addColumn<QString>("sentence");
        QTest::addColumn<QString>("keyboard");
        QTest::newRow("nothing") << u""_s << u""_s << u"Type what is to be reached."_s << u"targetValue"_s;
        QTest::newRow("no number") << u"quick"_s << u""_s << u"Timed up and go"_s << u"targetValue"_s;
        QTest::newRow("out of range") << u"100000"_s << u""_s << u"Timed up and go"_s << u"targetValue"_s;
        QTest::newRow("no day") << u"12"_s << u"spring"_s << u"“spring” is not a day"_s << u"targetBy"_s;
        QTest::newRow("a day gone by")
            << u"12"_s << u"2020-01-01"_s << u"from the day it was agreed"_s << u"targetValue"_s;
    }

    void whatCannotBeStoredIsToldAndStays()
    {
        QFETCH(const QString, value);
        QFETCH(const QString, by);
        QFETCH(const QString, sentence);
        QFETCH(const QString, keyboard);
        Asked asked;
        asked.widget<QLineEdit>(u"targetValue"_s)->setText(value);
        asked.widget<QLineEdit>(u"targetBy"_s)->setText(by);
        asked.press(u"storeTarget"_s);
        QVERIFY2(asked.notice().contains(sentence), qPrintable(asked.notice()));
        QVERIFY(asked.dialog->isVisible());
        QVERIFY(asked.stored().empty());
        QCOMPARE(asked.widget<QLineEdit>(u"targetValue"_s)->text(), value);
        QCOMPARE(asked.widget<QLineEdit>(u"targetBy"_s)->text(), by);
        QCOMPARE(asked.dialog->focusWidget()->objectName(), keyboard);
    }

    void aGradeIsChosenByItsStep()
    {
        Asked asked(fingerNose, Side::Left);
        auto* steps = asked.widget<QComboBox>(u"targetValue"_s);
        QVERIFY2(steps->itemText(2).endsWith(u"(1)"_s), qPrintable(steps->itemText(2)));
        asked.press(u"storeTarget"_s);
        QVERIFY(asked.dialog->isVisible());
        steps->setCurrentIndex(2);
        asked.press(u"storeTarget"_s);
        QCOMPARE(asked.stored().size(), 1U);
        QCOMPARE(asked.stored().front().value, 1.0);
        QCOMPARE(asked.stored().front().side, Side::Left);
    }

    void itIsChangedAndNoLongerLookedAtWithItsHistory()
    {
        Asked asked;
        QVERIFY(!asked.widget<QPushButton>(u"dropTarget"_s)->isVisible());
        asked.widget<QLineEdit>(u"targetValue"_s)->setText(u"12"_s);
        asked.press(u"storeTarget"_s);
        asked.open();
        QCOMPARE(asked.widget<QLineEdit>(u"targetValue"_s)->text(), u"12"_s);
        asked.press(u"storeTarget"_s); // unchanged
        QCOMPARE(asked.stored().size(), 1U);
        asked.open();
        asked.widget<QLineEdit>(u"targetValue"_s)->setText(u"11.5"_s);
        asked.press(u"storeTarget"_s);
        asked.open();
        auto* history = asked.widget<QTableWidget>(u"targetHistory"_s);
        QCOMPARE(history->item(0, 1)->text(), u"at most 11.5 s"_s);
        QCOMPARE(history->item(1, 1)->text(), u"at most 12.0 s"_s);
        asked.answers.text = std::nullopt;
        asked.press(u"dropTarget"_s);
        QCOMPARE(history->rowCount(), 2);
        asked.answers.text = u"walks with a frame now"_s;
        asked.press(u"dropTarget"_s);
        QVERIFY2(asked.answers.asked.last().contains(u"at most 11.5 s"_s),
                 qPrintable(asked.answers.asked.last()));
        QCOMPARE(history->item(0, 1)->text(), u"no longer looked at: “walks with a frame now”"_s);
        QCOMPARE(asked.widget<QLineEdit>(u"targetValue"_s)->text(), QString());
        QVERIFY(!asked.widget<QPushButton>(u"dropTarget"_s)->isVisible());
        QVERIFY(records::inForce(asked.stored()).empty());
    }

    void whatWasTypedIsThrownAwayOnlyWhenAsked()
    {
        paces::each([](Pace& pace) {
            Asked asked;
            asked.answers.isConfirmed = false;
            pace.typeAt(asked.dialog.get(), u"12"_s);
            pace.keyAt(asked.dialog.get(), Qt::Key_Escape);
            QVERIFY(asked.dialog->isVisible());
            QCOMPARE(asked.answers.risked, 1);
            asked.answers.isConfirmed = true;
            pace.keyAt(asked.dialog.get(), Qt::Key_Escape);
            QVERIFY(!asked.dialog->isVisible());
            QVERIFY(asked.stored().empty());
        });
    }

    void wordsAndWhatHasNoBetterEndHaveNoTarget()
    {
        catalogue::Measure measure;
        measure.better = catalogue::Direction::HigherIsBetter;
        QVERIFY(TargetDialog::isFor(measure));
        measure.better = catalogue::Direction::Neither;
        QVERIFY(!TargetDialog::isFor(measure));
        measure.better = catalogue::Direction::HigherIsBetter;
        measure.kind = catalogue::Kind::Choice;
        QVERIFY(!TargetDialog::isFor(measure));
    }

    void theChangePageLeadsThereAndSaysHowItStands()
    {
        Story story;
        Answers answers;
        changes::ChangePage page(story.session(), answers);
        page.resize(1280, 760);
        page.show();
        change_table::unfold(page);
        auto* table = page.findChild<QTableView*>(u"changeTable"_s);
        const auto& model = *qobject_cast<const ChangeModel*>(table->model());
        const auto verdict = [&] {
            return model.index(model.placeOf(upAndGo, Side::None), ChangeModel::Verdict).data().toString();
        };
        const QString before = verdict();
        QVERIFY(!page.findChild<widgets::SummaryCard*>()->words().contains(u"target"_s));
        table->setCurrentIndex(model.index(model.placeOf(upAndGo, Side::None), 0));
        QTimer::singleShot(0, qApp, [] {
            QWidget* dialog = QApplication::activeModalWidget();
            QVERIFY(dialog != nullptr);
            dialog->findChild<QLineEdit*>(u"targetValue"_s)->setText(u"2"_s);
            QTest::keyClick(dialog->findChild<QPushButton*>(u"storeTarget"_s), Qt::Key_Space);
        });
        QTest::keyClick(table, Qt::Key_Insert);
        QCOMPARE(records::inForce(story.session().targets()).size(), 1U);
        const QString head = page.findChild<widgets::SummaryCard*>()->words();
        QVERIFY2(head.contains(u"target: Timed up and go at most 2.0 s, not reached"_s), qPrintable(head));
        const QString sentence = page.findChild<QLabel*>(u"plainWords"_s)->text();
        QVERIFY2(sentence.contains(u"Target: Timed up and go: at most 2.0 s;"_s), qPrintable(sentence));
        const int place = model.placeOf(upAndGo, Side::None);
        QCOMPARE(model.row(place)->target, std::optional(2.0));
        QCOMPARE(verdict(), before);
        story.session().chooseVisit(story.visit(0)); // nobody knew of it then
        QVERIFY(!page.findChild<widgets::SummaryCard*>()->words().contains(u"target"_s));
    }
};

HOUSE_TEST(TestTargetDialog)

} // namespace test_target_dialog

#include "test_target_dialog.moc"
