#include "app/own/forms_page.h"

#include "app/own/form_preview.h"
#include "app/own/form_rows.h"
#include "app/own/measure_picker.h"
#include "app/widgets/notice.h"
#include "app/widgets/theme.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QContextMenuEvent>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QListWidget>
#include <QMenu>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTabBar>
#include <QTableView>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_forms_page
{

using clinic_desk::Desk;
using own::FormsPage;

/// The page of a clinic, shown, and what it holds by name.
struct Page : Desk {
    FormsPage page{*session, answers, nullptr};

    bool isShown()
    {
        page.resize(1200, 800);
        page.show();
        return QTest::qWaitForWindowActive(&page);
    }
    template <class Widget>
    Widget* widget(const QString& name) const
    {
        // The editors share the names of their answers; the one that is seen counts.
        const auto all = page.findChildren<Widget*>(name);
        const auto seen = std::ranges::find_if(all, &QWidget::isVisible);
        return seen == all.end() ? nullptr : *seen;
    }
    void press(const QString& name) const { QTest::keyClick(widget<QPushButton>(name), Qt::Key_Space); }
    void type(const QString& name, const QString& text) const
    {
        auto* line = widget<QLineEdit>(name);
        line->selectAll();
        QTest::keyClicks(line, text);
    }
    void choose(const QString& name, const QString& code) const
    {
        auto* box = widget<QComboBox>(name);
        box->setCurrentIndex(box->findData(code));
    }
    void write(const QString& name, const QString& text) const
    {
        widget<QPlainTextEdit>(name)->setPlainText(text);
    }
    QAbstractItemModel& table(const QString& name) const
    {
        return *page.findChild<QTableView*>(name)->model();
    }
    QString notice() const
    {
        QStringList words;
        for (const auto* each : page.findChildren<widgets::Notice*>())
            words += each->isVisible() ? each->words() : QString();
        return words.join(u' ').trimmed();
    }
    void showTab(int tab) const { page.findChild<QTabBar*>(u"ownTabs"_s)->setCurrentIndex(tab); }
    void key(const QString& name, Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) const
    {
        QTest::keyClick(widget<QWidget>(name), key, modifiers);
    }
};

class TestFormsPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatWasSavedIsTakenBackAndMadeAgain();
    void aNewTestIsNotTakenBack();
    void theActsOfAListStandOnItsMenu();
    void formsSayWhoseTheyAre();
    void aFormIsCopiedAndEditedFromTheKeyboard();
    void aTestIsFoundByItsShortFormOrSection();
    void renamingTwiceGoesOnWithTheFirst();
    void ticksAndHeadsAreEditedInTheModel();
    void thePreviewGrowsWithTheForm();
    void whatIsWrongIsSaidAndNothingIsLost();
    void leavingAsksAndTheNextEntryWaits();
    void aDeletedFormIsGoneFromTheList();
    void aMeasureIsMadeChangedAndRetired();
    void aThresholdIsMadeAndDeleted();
    void aPatternIsEditedInThePlaceOfTheProgramsOwn();
    void aPatternIsMadeFromTheKeyboard();
    void onlyFieldsThatMatterAreShown();
};

void TestFormsPage::whatWasSavedIsTakenBackAndMadeAgain()
{
    const Page desk;
    catalogue::Own own = own_example::own();
    QVERIFY(desk.session->saveOwn(own));
    own.forms.front().title = u"Morning round"_s;
    QVERIFY(desk.session->saveOwn(own));
    const QString id = own.forms.front().id;
    const auto title = [&] { return desk.session->catalogue().form(id)->title; };
    const QString before = own_example::own().forms.front().title;
    FormsPage page(*desk.session, const_cast<Answers&>(desk.answers), nullptr);
    page.show();
    auto* undo = page.findChild<QPushButton*>(u"undoOwn"_s);
    QCOMPARE(undo->text(), u"Undo “form “Morning round””"_s);
    undo->click();
    QCOMPARE(title(), before);
    QVERIFY(undo->isHidden()); // the own test that came before stays
    page.findChild<QPushButton*>(u"redoOwn"_s)->click();
    QCOMPARE(title(), u"Morning round"_s);
}

/// A test that was kept is never removed, so nothing before it can be taken back either.
void TestFormsPage::aNewTestIsNotTakenBack()
{
    const Page desk;
    QVERIFY(desk.session->saveOwn(own_example::own()));
    QVERIFY(!desk.session->own().measures.empty());
    QVERIFY(desk.session->lastOwnEdit() == nullptr);
    QVERIFY(desk.session->undoOwn());
    QVERIFY(!desk.session->own().measures.empty());
}

/// Each while its button is: a form that comes with the program is copied and not edited.
void TestFormsPage::theActsOfAListStandOnItsMenu()
{
    Page desk;
    QVERIFY(desk.isShown());
    auto* table = desk.page.findChild<QTableView*>(u"formsTable"_s);
    QCOMPARE(table->contextMenuPolicy(), Qt::ActionsContextMenu);
    QStringList offered;
    QTimer::singleShot(0, table, [&offered] {
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QVERIFY(menu != nullptr);
        for (const QAction* action : menu->actions())
            offered += action->isEnabled() ? action->text().section(u'\t', 0, 0) : QString();
        menu->close();
    });
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support raise()");
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support grabbing the keyboard");
    QContextMenuEvent byMouse(QContextMenuEvent::Mouse, {5, 5}, {5, 5});
    QApplication::sendEvent(table->viewport(), &byMouse);
    QCOMPARE(offered, QStringList({u"Copy"_s, {}, {}, u"New form"_s, u"&Copy rows"_s, u"&Print table…"_s}));
    table->findChild<QAction*>(u"copyForm"_s)->trigger();
    QVERIFY(desk.widget<QPushButton>(u"saveEntry"_s) != nullptr);
}

void TestFormsPage::formsSayWhoseTheyAre()
{
    Page desk;
    QVERIFY(bool(desk.session->saveOwn(own_example::own())));
    QVERIFY(desk.isShown());
    const QAbstractItemModel& forms = desk.table(u"formsTable"_s);
    QCOMPARE(forms.rowCount(), int(clinic_desk::book().forms.size()) + 1);
    QCOMPARE(forms.index(0, 2).data().toString(), u"comes with the program"_s);
    QVERIFY(!desk.widget<QPushButton>(u"editForm"_s)->isEnabled());
    QVERIFY(!desk.widget<QPushButton>(u"deleteForm"_s)->isEnabled());
    QTest::keyClick(desk.widget<QTableView>(u"formsTable"_s), Qt::Key_End, Qt::ControlModifier);
    QCOMPARE(forms.index(forms.rowCount() - 1, 2).data().toString(), u"the clinic's own"_s);
    QVERIFY(desk.widget<QPushButton>(u"editForm"_s)->isEnabled());
}

void TestFormsPage::aFormIsCopiedAndEditedFromTheKeyboard()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.press(u"copyForm"_s);
    QTest::keyClicks(desk.widget<QLineEdit>(u"formTitle"_s), u"Ward round"_s);
    auto* list = desk.widget<QListView>(u"formRows"_s);
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Home);
    QTest::keyClick(list, Qt::Key_Down);
    const QString first = list->currentIndex().data().toString();
    QTest::keyClick(list, Qt::Key_Space);
    QTest::keyClick(list, Qt::Key_Down, Qt::AltModifier);
    QCOMPARE(list->currentIndex().data().toString(), first);
    QCOMPARE(list->currentIndex().row(), 2);
    QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_Delete);
    QTest::keyClick(list, Qt::Key_S, Qt::ControlModifier);

    QCOMPARE(desk.session->own().forms.size(), size_t(1));
    const catalogue::Form& made = desk.session->own().forms.front();
    const catalogue::Form& released = clinic_desk::book().forms.front();
    QCOMPARE(made.id, u"own-ward-round"_s);
    QCOMPARE(made.measures().size(), released.measures().size() - 1);
    QCOMPARE(made.measures().at(1), released.measures().at(0));
    QStringList expected = released.expected; // without the one switched and the one deleted
    QVERIFY(expected.removeOne(released.measures().at(0)) && expected.removeOne(released.measures().at(2)));
    QCOMPARE(made.expected, expected);
    QCOMPARE(desk.widget<QTableView>(u"formsTable"_s)->currentIndex().siblingAtColumn(0).data().toString(),
             u"Ward round"_s);
}

void TestFormsPage::aTestIsFoundByItsShortFormOrSection()
{
    const auto found = own::measuresFound(u"timed up"_s, clinic_desk::book());
    QVERIFY(!found.empty());
    QCOMPARE(found.front()->id, u"timed-up-and-go"_s);
    QVERIFY(own::measuresFound(u"no such test"_s, clinic_desk::book()).empty());

    Page desk;
    QVERIFY(desk.isShown());
    desk.press(u"newForm"_s);
    desk.type(u"measureSearch"_s, u"timed up"_s);
    desk.key(u"measureSearch"_s, Qt::Key_Return);
    desk.key(u"measureSearch"_s, Qt::Key_Return);
    desk.type(u"measureSearch"_s, u"heel to shin"_s);
    desk.key(u"measureSearch"_s, Qt::Key_Return);
    QCOMPARE(desk.widget<QListView>(u"formRows"_s)->model()->rowCount(), 3);
    QVERIFY(desk.widget<QLabel>(u"testCount"_s)->text().startsWith(u'2'));
}

void TestFormsPage::renamingTwiceGoesOnWithTheFirst()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.press(u"newForm"_s);
    desk.press(u"addSection"_s);
    auto* list = desk.widget<QListView>(u"formRows"_s);
    const auto editors = [&] { return list->viewport()->findChildren<QLineEdit*>(); };
    QCOMPARE(editors().size(), 1);
    QTest::keyClicks(editors().front(), u"Stairs"_s);
    desk.widget<QPushButton>(u"renameSection"_s)->click();
    QCOMPARE(editors().size(), 1);
    QCOMPARE(editors().front()->text(), u"Stairs"_s);
}

void TestFormsPage::ticksAndHeadsAreEditedInTheModel()
{
    const clinic_desk::Desk desk;
    own::FormRows model(*desk.session, nullptr);
    QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::QtTest);
    model.setForm(clinic_desk::book().forms.front());
    QVERIFY(model.setData(model.index(0, 0), u" Arms "_s, Qt::EditRole));
    QCOMPARE(model.form().sections.front().title, u"Arms"_s);
    QVERIFY(!model.setData(model.index(0, 0), u"  "_s, Qt::EditRole));
    QVERIFY(!model.setData(model.index(1, 0), u"other"_s, Qt::EditRole));
    const QString test = model.form().measures().front();
    QVERIFY(model.setData(model.index(1, 0), Qt::Checked, Qt::CheckStateRole));
    QVERIFY(model.form().expected.contains(test));
    QVERIFY(model.setData(model.index(1, 0), Qt::Unchecked, Qt::CheckStateRole));
    QVERIFY(!model.form().expected.contains(test));
    model.setForm({});
    QCOMPARE(model.rowCount(), 0);
}

void TestFormsPage::thePreviewGrowsWithTheForm()
{
    const clinic_desk::Desk desk;
    own::FormPreview preview(*desk.session, nullptr);
    preview.setForm({u"a"_s, u"A"_s, {{u"Arms"_s, {u"finger-nose"_s}}}, {}, true});
    const int one = preview.sizeHint().height();
    preview.setForm({u"a"_s, u"A"_s, {{u"Arms"_s, {u"finger-nose"_s, u"timed-up-and-go"_s}}}, {}, true});
    QVERIFY(preview.sizeHint().height() > one);
    QVERIFY(preview.accessibleDescription().contains(u"right and left"_s));
    QImage picture(preview.sizeHint(), QImage::Format_RGB32);
    preview.resize(preview.sizeHint());
    preview.render(&picture);
    const widgets::Colours& colours = widgets::coloursFor(preview.palette());
    QCOMPARE(QColor(picture.pixel(picture.width() - 1, 0)), colours.panel);
}

void TestFormsPage::whatIsWrongIsSaidAndNothingIsLost()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.press(u"newForm"_s);
    desk.type(u"formTitle"_s, u"Stairs"_s);
    desk.press(u"saveEntry"_s);
    QVERIFY(desk.notice().contains(u"holds no test"_s));
    QCOMPARE(desk.widget<QLineEdit>(u"formTitle"_s)->text(), u"Stairs"_s);
    QVERIFY(desk.session->own().forms.empty());
}

void TestFormsPage::leavingAsksAndTheNextEntryWaits()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.press(u"newForm"_s);
    desk.type(u"formTitle"_s, u"Stairs"_s);
    QVERIFY(desk.page.hasUnsavedEntry());
    desk.page.newMeasure();
    QVERIFY(desk.notice().contains(u"still here"_s));
    QCOMPARE(desk.widget<QLineEdit>(u"formTitle"_s)->text(), u"Stairs"_s);
    desk.answers.isConfirmed = false;
    desk.press(u"cancelEntry"_s);
    QVERIFY(desk.page.hasUnsavedEntry());
    desk.answers.isConfirmed = true;
    QTest::keyClick(desk.widget<QLineEdit>(u"formTitle"_s), Qt::Key_Escape);
    QVERIFY(!desk.page.hasUnsavedEntry());
    QCOMPARE(desk.answers.asked.size(), 2);
}

void TestFormsPage::aDeletedFormIsGoneFromTheList()
{
    Page desk;
    QVERIFY(bool(desk.session->saveOwn(own_example::own())));
    QVERIFY(desk.isShown());
    QTest::keyClick(desk.widget<QTableView>(u"formsTable"_s), Qt::Key_End, Qt::ControlModifier);
    desk.answers.isConfirmed = false;
    desk.press(u"deleteForm"_s);
    QCOMPARE(desk.session->own().forms.size(), size_t(1));
    desk.answers.isConfirmed = true;
    desk.press(u"deleteForm"_s);
    QVERIFY(desk.session->own().forms.empty());
    QCOMPARE(desk.table(u"formsTable"_s).rowCount(), int(clinic_desk::book().forms.size()));
}

void TestFormsPage::aMeasureIsMadeChangedAndRetired()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.showTab(1);
    desk.press(u"nextStep"_s);
    desk.type(u"measureTitle"_s, u"Ten steps up"_s);
    desk.type(u"lowest"_s, u"much"_s);
    desk.press(u"saveEntry"_s);
    QVERIFY(desk.notice().contains(u"field(s) to correct"_s) ||
            desk.notice().contains(u"fields to correct"_s));
    QVERIFY(desk.widget<QLabel>(u"lowestBelow"_s)->text().contains(u"number"_s));
    desk.type(u"lowest"_s, u"1"_s);
    desk.type(u"highest"_s, u"120"_s);
    desk.type(u"step"_s, u"0.1"_s);
    desk.choose(u"better"_s, u"lower"_s);
    desk.choose(u"condition.aid"_s, u"hard"_s);
    desk.write(u"purpose"_s, u"Shows strength and balance on stairs."_s);
    desk.type(u"position"_s, u"Standing at the foot of the stairs."_s);
    desk.write(u"how"_s, u"Ten steps of 17 cm, as fast as is safe."_s);
    desk.write(u"unableMeans"_s, u"Fewer than ten steps."_s);
    desk.press(u"saveEntry"_s);
    QCOMPARE(desk.notice(), QString());
    const catalogue::Measure* made = desk.session->catalogue().measure(u"own-ten-steps-up"_s);
    QVERIFY(made != nullptr && made->isOwn);
    QCOMPARE(made->conditions.size(), size_t(1));

    desk.press(u"editMeasure"_s);
    desk.type(u"shortForm"_s, u"10S"_s);
    QTest::keyClick(desk.widget<QLineEdit>(u"shortForm"_s), Qt::Key_S, Qt::ControlModifier);
    QCOMPARE(desk.session->own().measures.front().shortForm, u"10S"_s);
    desk.press(u"retireMeasure"_s);
    QVERIFY(desk.session->own().measures.front().retired);
    QCOMPARE(desk.widget<QPushButton>(u"retireMeasure"_s)->text(), u"Bring back"_s);
    desk.press(u"retireMeasure"_s);
    QVERIFY(!desk.session->own().measures.front().retired);
}

void TestFormsPage::aThresholdIsMadeAndDeleted()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.page.newThreshold(u"timed-up-and-go"_s);
    QCOMPARE(desk.widget<QComboBox>(u"thresholdMeasure"_s)->currentData().toString(), u"timed-up-and-go"_s);
    desk.type(u"improvement"_s, u"3.5"_s);
    desk.choose(u"thresholdPopulation"_s, u"stroke"_s);
    desk.type(u"populationWords"_s, u"adults of our clinic"_s);
    desk.type(u"n"_s, u"24"_s);
    desk.type(u"reference"_s, u"Vale O. An invented repeat study. 2021"_s);
    desk.type(u"sourceShortForm"_s, u"Vale 2021"_s);
    desk.press(u"saveEntry"_s);
    QCOMPARE(desk.notice(), QString());
    QCOMPARE(desk.session->own().thresholds.size(), size_t(1));
    const QAbstractItemModel& rows = desk.table(u"ownThresholdsTable"_s);
    QCOMPARE(rows.index(0, 1).data().toString(), u"3.5 s"_s);
    QCOMPARE(rows.index(0, 4).data().toString(), u"Vale 2021"_s);
    desk.press(u"deleteThreshold"_s);
    QVERIFY(desk.session->own().thresholds.empty());
    QVERIFY(desk.session->own().sources.empty());
}

void TestFormsPage::aPatternIsEditedInThePlaceOfTheProgramsOwn()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.page.showPatterns();
    const QAbstractItemModel& patterns = desk.table(u"patternsTable"_s);
    const int count = patterns.rowCount();
    QCOMPARE(count, int(clinic_desk::book().patterns.size()));
    QVERIFY(!desk.widget<QPushButton>(u"deletePattern"_s)->isEnabled());
    desk.press(u"editPattern"_s);
    QVERIFY(desk.notice().contains(u"stands in its place"_s));
    QVERIFY(!desk.page.hasUnsavedEntry());
    desk.write(u"patternNote"_s, u"As our clinic reads it."_s);
    QVERIFY(desk.page.hasUnsavedEntry());
    desk.key(u"patternTitle"_s, Qt::Key_S, Qt::ControlModifier);
    QCOMPARE(desk.session->own().patterns.size(), size_t(1));
    QCOMPARE(desk.session->catalogue().patterns.front().note, u"As our clinic reads it."_s);
    QCOMPARE(patterns.rowCount(), count);
    QCOMPARE(patterns.index(0, 2).data().toString(), u"the clinic's own, in place of the program's"_s);
    desk.press(u"deletePattern"_s);
    QVERIFY(desk.session->own().patterns.empty());
    QCOMPARE(desk.session->catalogue().patterns.front(), clinic_desk::book().patterns.front());
}

/// Two findings that hold together, one that contradicts, and what was left open is asked for.
void TestFormsPage::aPatternIsMadeFromTheKeyboard()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.page.showPatterns();
    desk.press(u"newPattern"_s);
    QTest::keyClicks(desk.widget<QLineEdit>(u"patternTitle"_s), u"Shaky legs"_s);
    auto* list = desk.widget<QListWidget>(u"patternRows"_s);
    const auto find = [&](const QString& typed) {
        auto* line = desk.widget<QLineEdit>(u"measureSearch"_s);
        line->setFocus();
        line->clear();
        QTest::keyClicks(line, typed);
        QTest::keyClick(line, Qt::Key_Return);
    };
    const auto mark = [&](const QString& head) {
        list->setCurrentItem(list->findItems(head, Qt::MatchExactly).front());
    };
    find(u"heel to shin"_s);
    QCOMPARE(list->currentItem()->text(), u"Heel to shin"_s);
    mark(u"Supports it"_s);
    QVERIFY(!desk.widget<QPushButton>(u"addTogether"_s)->isEnabled());
    find(u"heel to shin"_s);
    desk.press(u"saveEntry"_s);
    QCOMPARE(desk.notice(), u"Not saved yet. Say what “Heel to shin” must be."_s);
    desk.key(u"atLeast"_s, Qt::Key_Space);
    QVERIFY(desk.widget<QCheckBox>(u"option.0"_s) == nullptr); // its words are grades
    desk.key(u"atLeastNumber"_s, Qt::Key_Down);
    desk.key(u"atLeastNumber"_s, Qt::Key_Down);
    QCOMPARE(list->currentItem()->text(), u"Heel to shin: at least clear (2)"_s);
    desk.press(u"addTogether"_s);
    QVERIFY(desk.widget<QLineEdit>(u"measureSearch"_s)->hasFocus());
    find(u"romberg sign"_s);
    desk.key(u"option.positive"_s, Qt::Key_Space);
    QCOMPARE(list->currentItem()->text(), u"and Romberg sign: positive"_s);
    QVERIFY(desk.widget<QComboBox>(u"findingChecked"_s) == nullptr); // no source, so from memory
    const QString source = clinic_desk::book().sources.front().id;
    desk.choose(u"findingSource"_s, source);
    desk.choose(u"findingChecked"_s, u"read"_s);
    mark(u"Contradicts it"_s);
    find(u"romberg sign"_s);
    desk.key(u"option.negative"_s, Qt::Key_Space);
    find(u"tandem steps"_s);
    desk.key(u"atMost"_s, Qt::Key_Space);
    auto* most = desk.widget<QDoubleSpinBox>(u"atMostNumber"_s);
    most->selectAll();
    QTest::keyClicks(most, u"9"_s);
    QCOMPARE(list->currentItem()->text(), u"Tandem steps achieved of 10: at most 9 steps"_s);
    desk.press(u"addTogether"_s);
    mark(u"Romberg sign: negative"_s); // whoever marks another finding no longer means the first
    find(u"finger to nose"_s);
    QCOMPARE(list->currentItem()->text(), u"Finger to nose: what must be seen?"_s);
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Delete);
    desk.press(u"saveEntry"_s);
    QCOMPARE(desk.notice(), QString());
    QCOMPARE(desk.session->own().patterns.size(), size_t(1));
    const catalogue::Pattern& made = desk.session->own().patterns.front();
    QCOMPARE(made.needs, QStringList{u"heel-shin"_s});
    QCOMPARE(made.supports.size(), size_t(1));
    const auto& together = made.supports.front();
    QCOMPARE(together.looks.size(), size_t(2));
    QCOMPARE(together.looks.front().from, std::optional(2.0));
    QCOMPARE(together.looks.back().options, QStringList{u"positive"_s});
    QCOMPARE(together.source, source);
    QCOMPARE(together.checked, catalogue::Checked::Read);
    QCOMPARE(made.contradicts.size(), size_t(2));
    QCOMPARE(made.contradicts.back().looks.front().to, std::optional(9.0));
    QCOMPARE(made.contradicts.front().looks.front().options, QStringList{u"negative"_s});
    QVERIFY(made.note.isEmpty());
}

void TestFormsPage::onlyFieldsThatMatterAreShown()
{
    Page desk;
    QVERIFY(desk.isShown());
    desk.page.newMeasure();
    QVERIFY(desk.widget<QLineEdit>(u"cap"_s) != nullptr);
    QVERIFY(desk.widget<QLineEdit>(u"trials"_s) == nullptr);
    QVERIFY(desk.widget<QPlainTextEdit>(u"words"_s) == nullptr);
    desk.type(u"highest"_s, u"90"_s);
    desk.choose(u"kind"_s, u"choice"_s);
    QVERIFY(desk.widget<QLineEdit>(u"highest"_s) == nullptr);
    QVERIFY(desk.widget<QPlainTextEdit>(u"words"_s) != nullptr);
    desk.choose(u"kind"_s, u"distance"_s);
    QCOMPARE(desk.widget<QLineEdit>(u"highest"_s)->text(), u"90"_s);
    QCOMPARE(desk.widget<QComboBox>(u"unit"_s)->currentData().toString(), u"m"_s);
}

HOUSE_TEST(TestFormsPage)

} // namespace test_forms_page

#include "test_forms_page.moc"
