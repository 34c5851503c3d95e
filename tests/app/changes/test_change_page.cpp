#include "app/changes/change_page.h"

#include "core/records/visit_form.h"
#include "tests/support/answers.h"
#include "tests/support/change_table.h"
#include "tests/support/examples.h"
#include "tests/support/paces.h"
#include "tests/support/story.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QTextBrowser>

using namespace Qt::StringLiterals;

namespace test_change_page
{

using changes::Against;
using changes::ChangeModel;
using records::Side;

/// The page on the story, shown.
struct Shown {
    Story story;
    Answers answers;
    changes::ChangePage page{story.session(), answers};

    Shown()
    {
        page.resize(1280, 760);
        page.show();
        change_table::showMore(page);
        change_table::unfold(page);
    }

    void compareWith(Against against) { change_table::compareWith(page, against); }

    template <class Widget>
    Widget& find(const QString& name)
    {
        return *page.findChild<Widget*>(name);
    }
    QTableView& table() { return find<QTableView>(u"changeTable"_s); }
    ChangeModel& model() { return *qobject_cast<ChangeModel*>(table().model()); }
    int place(const QString& measure, Side side = Side::None) { return model().placeOf(measure, side); }
    QString cell(const QString& measure, int column, Side side = Side::None)
    {
        return model().index(place(measure, side), column).data().toString();
    }
    QString day(const QString& measure)
    {
        return model().index(place(measure), ChangeModel::Reference).data(Qt::ToolTipRole).toString();
    }
    QString sentence() { return find<QLabel>(u"plainWords"_s).text(); }
    QString detail() { return find<QTextBrowser>(u"changeDetail"_s).toPlainText(); }
};

class TestChangePage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theModelKeepsItsWord();
    void rowsComeByWeight();
    void whatIsAsBeforeIsFolded();
    void sectionsAreTheOtherOrder();
    void aGroupShowsItsRowsAlone();
    void lettersFindATest();
    void theHeadLeadsToItsRows();
    void theHeadSaysHowMuchOfADraftIsDone();
    void theHeadSaysWhatDiffersFromTheReferenceVisit();
    void aChangeIsSaidInNumbersAndWords();
    void aTurnToUnableIsAnEvent();
    void gradesShowBothValues();
    void theMostTellingRowIsExplainedFirst();
    void arithmeticComesOnRequest();
    void aRowExplainsArithmeticSourceAndConditions();
    void aRowSaysWhereTheResultStands();
    void aMismatchIsSaidInWords();
    void whatChanceAloneWouldFlagIsSaid();
    void theReferenceLineIsFollowed();
    void theBaselineIsReachedByKeyboard();
    void whatIsComparedForOnePatientIsNotForTheNext();
    void rowsNotAtTheReferenceSaySo();
    void selectedRowsAreCopiedWithTabs();
    void everyCellIsSpoken();
    void noTwoThingsHaveOneKey();
    void anotherValueIsSeenAtOnce();
    void theRowChosenStaysChosen();
    void anotherRowOfEvidenceIsUsedWithAReason();
    void anotherRowIsUsedForThePopulation();
    void withoutAReasonTheRuleStays();
    void withoutAVisitThePageSaysWhatWillBeHere();
};

void TestChangePage::theModelKeepsItsWord()
{
    Shown shown;
    const QAbstractItemModelTester tester(&shown.model(),
                                          QAbstractItemModelTester::FailureReportingMode::QtTest);
    shown.story.session().moveVisit(-1);
    shown.story.session().moveVisit(1);
    QVERIFY(shown.model().rowCount() > 0);
}

void TestChangePage::rowsComeByWeight()
{
    Shown shown;
    QCOMPARE(shown.model().firstRow(), 0);
    QCOMPARE(shown.place(u"timed-up-and-go"_s), 0);           // became unable
    QCOMPARE(shown.place(u"nine-hole-peg"_s, Side::Left), 1); // became able
    QCOMPARE(shown.place(u"berg-balance"_s), 2);              // better, sustained
    QVERIFY(shown.place(u"finger-nose"_s, Side::Left) < shown.place(u"nine-hole-peg"_s, Side::Right));
}

void TestChangePage::whatIsAsBeforeIsFolded()
{
    Story story;
    Answers answers;
    changes::ChangePage page(story.session(), answers);
    page.resize(1280, 760);
    page.show();
    ChangeModel& model = change_table::model(page);
    QCOMPARE(model.placeOf(u"gait-speed-comfortable"_s, Side::None), -1);
    const int last = model.rowCount() - 1;
    QCOMPARE(model.line(last)->kind, changes::Line::Kind::Fold);
    QVERIFY2(model.line(last)->words.contains(u"as before: "_s), qPrintable(model.line(last)->words));
    QCOMPARE(change_table::table(page).columnSpan(last, 0), int(ChangeModel::ColumnCount));
    change_table::table(page).setCurrentIndex(model.index(last, 0));
    QTest::keyClick(&change_table::table(page), Qt::Key_Space);
    QVERIFY(model.placeOf(u"gait-speed-comfortable"_s, Side::None) > 0);
    QTest::keyClick(&change_table::table(page), Qt::Key_Space);
    QCOMPARE(model.placeOf(u"gait-speed-comfortable"_s, Side::None), -1);
}

void TestChangePage::sectionsAreTheOtherOrder()
{
    Shown shown;
    shown.find<QComboBox>(u"order"_s).setCurrentIndex(1);
    QCOMPARE(shown.model().line(0)->kind, changes::Line::Kind::Title);
    QCOMPARE(shown.model().index(0, 0).data().toString(), u"Upper limbs"_s);
    QVERIFY(!shown.model().flags(shown.model().index(0, 0)).testFlag(Qt::ItemIsSelectable));
}

void TestChangePage::aGroupShowsItsRowsAlone()
{
    Shown shown;
    auto& better = shown.find<QPushButton>(u"groupBetter"_s);
    QCOMPARE(better.text(), u"&Better 1"_s);
    QTest::keyClick(&better, Qt::Key_Space);
    QCOMPARE(shown.model().rowCount(), 1);
    QTest::keyClick(&shown.find<QPushButton>(u"groupAsBefore"_s), Qt::Key_Space);
    QVERIFY(shown.place(u"gait-speed-comfortable"_s) >= 0);
    QTest::keyClick(&shown.find<QPushButton>(u"groupAll"_s), Qt::Key_Space);
    QVERIFY(shown.place(u"timed-up-and-go"_s) >= 0);
}

/// Letters in the table find a test at every pace; Escape shows everything again.
void TestChangePage::lettersFindATest()
{
    paces::each([](Pace& pace) {
        Shown shown;
        auto& find = shown.find<QLineEdit>(u"findTest"_s);
        pace.key(&shown.table(), Qt::Key_B);
        pace.type(&find, u"erg"_s);
        QCOMPARE(find.text(), u"berg"_s);
        QCOMPARE(shown.model().rowCount(), 1);
        QVERIFY(shown.place(u"berg-balance"_s) == 0);
        pace.key(&find, Qt::Key_Escape);
        QVERIFY(shown.model().rowCount() > 1);
    });
}

/// A line at the head leads to its rows.
void TestChangePage::theHeadLeadsToItsRows()
{
    Shown shown;
    QVERIFY2(shown.find<QLabel>(u"summary.changed"_s).text().startsWith(u"Became unable: Timed up and go"_s),
             qPrintable(shown.find<QLabel>(u"summary.changed"_s).text()));
    QCOMPARE(shown.find<QLabel>(u"summary.better"_s).text(),
             u"Sustained over 6 visits, since 10-Mar-2025: Berg balance scale: total: 41 → 50 points"_s);
    shown.find<QPushButton>(u"lead.better"_s).click();
    QCOMPARE(shown.model().rowCount(), 1);
    QCOMPARE(shown.place(u"berg-balance"_s), 0);
}

void TestChangePage::theHeadSaysHowMuchOfADraftIsDone()
{
    Shown shown;
    auto& words = shown.find<QLabel>(u"ofTheVisit"_s);
    session::Session& session = shown.story.session();
    const auto before = records::progressOf(*session.visitInFocus(), session.catalogue());
    QVERIFY(before.done > 0 && before.done < before.expected);
    QCOMPARE(words.text(), u"Draft, %1 of %2 tests"_s.arg(before.done).arg(before.expected));
    QVERIFY(
        session.saveFinding(session.visitInFocus()->id,
                            examples::finding(u"tandem-steps"_s, values::Quantity{4, values::Unit::Steps})));
    QCOMPARE(words.text(), u"Draft, %1 of %2 tests"_s.arg(before.done + 1).arg(before.expected));
    session.moveVisit(-1);
    QVERIFY(!words.isVisible());
}

void TestChangePage::theHeadSaysWhatDiffersFromTheReferenceVisit()
{
    Shown shown;
    session::Session& session = shown.story.session();
    auto& words = shown.find<QLabel>(u"ofTheVisit"_s);
    session.chooseVisit(shown.story.visit(3));
    QCOMPARE(words.text(), u"Walking aid: None (at 02-Sep-2024: Stick)"_s); // the visit before
    session.chooseVisit(shown.story.visit(4));
    QVERIFY(!words.isVisible());
    session.chooseReference(shown.story.visit(1));
    QCOMPARE(words.text(), u"Walking aid: None (at 20-May-2024: Stick)"_s);
    QVERIFY(words.isVisible());
}

void TestChangePage::aChangeIsSaidInNumbersAndWords()
{
    Shown shown;
    const QString walk = u"ten-metre-walk-time-comfortable"_s;
    QCOMPARE(shown.cell(walk, ChangeModel::Reference), u"11.40 s"_s);
    QCOMPARE(shown.day(walk), u"10-Mar-2025"_s);
    QCOMPARE(shown.cell(walk, ChangeModel::Previous), u"10.90 s"_s);
    QCOMPARE(shown.cell(walk, ChangeModel::Now), u"12.60 s"_s);
    shown.compareWith(Against::Previous);
    QCOMPARE(shown.cell(walk, ChangeModel::Difference), u"+1.70 s"_s);
    // Hosoi 2023, Front Neurol 14:1219505: 1.58 s from 0.8 m/s up.
    QCOMPARE(shown.cell(walk, ChangeModel::Verdict), u"worse beyond error · seen once"_s);
    QVERIFY(shown.cell(walk, ChangeModel::JudgedBy).startsWith(u"published, n "_s));
}

void TestChangePage::aTurnToUnableIsAnEvent()
{
    Shown shown;
    QCOMPARE(shown.cell(u"timed-up-and-go"_s, ChangeModel::Now), u"unable: needed help to rise"_s);
    QCOMPARE(shown.cell(u"timed-up-and-go"_s, ChangeModel::Difference), QString());
    QCOMPARE(shown.cell(u"timed-up-and-go"_s, ChangeModel::Verdict), u"became unable"_s);
}

void TestChangePage::gradesShowBothValues()
{
    Shown shown;
    shown.compareWith(Against::Baseline);
    QCOMPARE(shown.cell(u"finger-nose"_s, ChangeModel::Reference, Side::Left), u"marked (3)"_s);
    QCOMPARE(shown.cell(u"finger-nose"_s, ChangeModel::Now, Side::Left), u"just visible (1)"_s);
    QVERIFY(shown.cell(u"finger-nose"_s, ChangeModel::Verdict, Side::Left).startsWith(u"2 steps better"_s));
    const QModelIndex meaning =
        shown.model().index(shown.place(u"finger-nose"_s, Side::Left), ChangeModel::Verdict);
    QVERIFY(meaning.data(Qt::AccessibleTextRole).toString().startsWith(u"2 steps better"_s));
    QCOMPARE(shown.cell(u"finger-nose"_s, ChangeModel::Difference, Side::Left), u"−2"_s);
}

void TestChangePage::theMostTellingRowIsExplainedFirst()
{
    Shown shown;
    QCOMPARE(shown.table().currentIndex().row(), shown.place(u"timed-up-and-go"_s));
    QVERIFY2(shown.sentence().contains(u"Timed up and go: became unable."_s), qPrintable(shown.sentence()));
    QVERIFY2(shown.sentence().contains(u"Tried and unable since "_s), qPrintable(shown.sentence()));
}

/// The sentence alone, until more is asked for; what was chosen last is there again.
void TestChangePage::arithmeticComesOnRequest()
{
    Shown shown;
    QVERIFY(shown.find<QTextBrowser>(u"changeDetail"_s).isVisible());
    shown.find<QPushButton>(u"showMore"_s).click();
    QVERIFY(!shown.find<QTextBrowser>(u"changeDetail"_s).isVisible());
    QVERIFY(!shown.sentence().isEmpty());
    const changes::ChangePage again(shown.story.session(), shown.answers);
    QVERIFY(!again.findChild<QPushButton*>(u"showMore"_s)->isChecked());
}

void TestChangePage::aRowExplainsArithmeticSourceAndConditions()
{
    Shown shown;
    shown.table().setCurrentIndex(shown.model().index(shown.place(u"ten-metre-walk-time-comfortable"_s), 0));
    const QString words = shown.detail();
    QVERIFY2(words.contains(u"12.60"_s) && words.contains(u"10.90"_s), qPrintable(words));
    QVERIFY(words.contains(u"Arithmetic"_s));
    QVERIFY(words.contains(u"doi:10.3389/fneur.2023.1219505"_s));
    QVERIFY(shown.find<QTextBrowser>(u"changeDetail"_s).toHtml().contains(u"https://doi.org/"_s));
    QVERIFY(words.contains(u"Walking aid"_s));
    QVERIFY(words.contains(u"same"_s));
}

void TestChangePage::aRowSaysWhereTheResultStands()
{
    Shown shown;
    const int row = shown.place(u"gait-speed-comfortable"_s);
    QVERIFY(row >= 0);
    shown.table().selectRow(row);
    QVERIFY(shown.detail().contains(u"This visit against reference values"_s));
    QVERIFY2(shown.detail().contains(u"Fritz & Lusardi 2009"_s), qPrintable(shown.detail()));
}

void TestChangePage::aMismatchIsSaidInWords()
{
    Shown shown;
    shown.story.session().chooseReference(shown.story.visit(2)); // with a stick
    const QString walk = u"ten-metre-walk-time-comfortable"_s;
    QCOMPARE(shown.cell(walk, ChangeModel::Verdict), u"not comparable"_s);
    QVERIFY2(shown.cell(walk, ChangeModel::JudgedBy).contains(u"walking aid"_s),
             qPrintable(shown.cell(walk, ChangeModel::JudgedBy)));
    shown.table().setCurrentIndex(shown.model().index(shown.place(walk), 0));
    QVERIFY2(shown.detail().contains(u"differs: not comparable"_s), qPrintable(shown.detail()));
    QVERIFY(shown.detail().contains(u"Stick"_s));
}

void TestChangePage::whatChanceAloneWouldFlagIsSaid()
{
    Shown shown;
    // 5 % of what an error judged.
    QCOMPARE(shown.find<QLabel>(u"byChance"_s).text(), u"Expected by chance: about 0.45 of 9 judged"_s);
}

void TestChangePage::theReferenceLineIsFollowed()
{
    Shown shown;
    QCOMPARE(change_table::references(shown.page).findData(int(Against::Chosen)), -1);
    shown.story.session().chooseReference(shown.story.visit(3));
    QCOMPARE(change_table::comparedWith(shown.page), Against::Chosen);
    QVERIFY(change_table::references(shown.page).currentText().contains(u"10-Mar-2025"_s));
    QCOMPARE(shown.day(u"berg-balance"_s), u"10-Mar-2025"_s);
    shown.story.session().chooseReference(std::nullopt);
    QCOMPARE(change_table::comparedWith(shown.page), Against::Course);
    shown.compareWith(Against::Previous);
    QCOMPARE(shown.day(u"berg-balance"_s), u"15-Sep-2025"_s);
}

void TestChangePage::theBaselineIsReachedByKeyboard()
{
    Shown shown;
    QComboBox& references = change_table::references(shown.page);
    QTest::keyClick(&references, Qt::Key_Down);
    QTest::keyClick(&references, Qt::Key_Down);
    QCOMPARE(change_table::comparedWith(shown.page), Against::Baseline);
    QCOMPARE(shown.day(u"ten-metre-walk-time-comfortable"_s), u"10-Mar-2025"_s);
    QTest::keyClick(&shown.table(), Qt::Key_Down);
    QVERIFY(!shown.sentence().contains(u"Timed up and go"_s));
}

void TestChangePage::whatIsComparedForOnePatientIsNotForTheNext()
{
    Shown shown;
    session::Session& session = shown.story.session();
    const records::PatientId first = *session.focus().patient;
    shown.compareWith(Against::Baseline);
    session.moveVisit(-1);
    QCOMPARE(change_table::comparedWith(shown.page), Against::Baseline); // within one patient it stays
    records::Patient next;
    next.id = records::PatientId::make();
    next.family = u"Other"_s;
    const auto saved = session.savePatient(next);
    QVERIFY(saved);
    session.choosePatient(saved->id);
    QCOMPARE(change_table::comparedWith(shown.page), Against::Course);
    shown.table().setCurrentIndex(shown.model().index(2, 0));
    session.choosePatient(first);
    QCOMPARE(shown.table().currentIndex().row(), 0); // the next page begins at its top
    session.choosePatient(saved->id);
    shown.compareWith(Against::Best);
    session.choosePatient(first);
    QCOMPARE(change_table::comparedWith(shown.page), Against::Course);
}

void TestChangePage::rowsNotAtTheReferenceSaySo()
{
    Shown shown;
    session::Session& session = shown.story.session();
    session.chooseVisit(shown.story.visit(1));
    QCOMPARE(shown.cell(u"nine-hole-peg"_s, ChangeModel::Verdict, Side::Left), u"became able"_s);
    session.chooseVisit(shown.story.visit(0));
    change_table::unfold(shown.page);
    QCOMPARE(shown.cell(u"berg-balance"_s, ChangeModel::Verdict), u"first result, nothing to compare with"_s);
}

void TestChangePage::selectedRowsAreCopiedWithTabs()
{
    Shown shown;
    QTableView& table = shown.table();
    table.selectRow(shown.place(u"berg-balance"_s));
    QTest::keyClick(&table, Qt::Key_C, Qt::ControlModifier);
    const QStringList lines = QApplication::clipboard()->text().split(u'\n');
    QCOMPARE(lines.size(), 3);
    QCOMPARE(lines[0], u"Test\tSide\tFirst\tPrevious\tNow\tCourse\tDifference\tAgainst error\tJudged by"_s);
    QVERIFY2(lines[1].contains(u" (points)\t\t"_s) && lines[1].contains(u"\t51\t50\t"_s),
             qPrintable(lines[1]));
    bool isNumber = false;
    lines[1].split(u'\t')[6].toDouble(&isNumber);
    QVERIFY2(isNumber, qPrintable(lines[1])); // the difference, with a sign that is reckoned with
}

void TestChangePage::noTwoThingsHaveOneKey()
{
    Shown shown;
    QList<QKeySequence> keys;
    for (const auto* button : shown.page.findChildren<QAbstractButton*>())
        keys += button->shortcut();
    for (const auto* label : shown.page.findChildren<QLabel*>()) {
        if (label->buddy() != nullptr)
            keys += QKeySequence::mnemonic(label->text());
    }
    keys.removeAll(QKeySequence());
    QVERIFY(keys.size() > 8);
    for (const QKeySequence& key : keys)
        QVERIFY2(keys.count(key) == 1, qPrintable(key.toString()));
}

void TestChangePage::everyCellIsSpoken()
{
    Shown shown;
    for (int row = 0; row < shown.model().rowCount(); ++row) {
        if (shown.model().isWide(row))
            continue;
        for (int column = 0; column < shown.model().columnCount(); ++column)
            QVERIFY(!shown.model().index(row, column).data(Qt::AccessibleTextRole).toString().isEmpty());
    }
}

void TestChangePage::anotherValueIsSeenAtOnce()
{
    Shown shown;
    session::Session& session = shown.story.session();
    shown.compareWith(Against::Previous);
    records::Finding berg = *session.visitInFocus()->finding(u"berg-balance"_s, Side::None);
    berg.value = values::Quantity{40, values::Unit::Score};
    QVERIFY(session.saveFinding(shown.story.visit(5), berg));
    QCOMPARE(shown.cell(u"berg-balance"_s, ChangeModel::Now), u"40 points"_s);
    QCOMPARE(shown.cell(u"berg-balance"_s, ChangeModel::Verdict), u"worse beyond error · seen once"_s);
}

void TestChangePage::theRowChosenStaysChosen()
{
    Shown shown;
    shown.table().setCurrentIndex(shown.model().index(shown.place(u"berg-balance"_s), 0));
    shown.story.session().moveVisit(-1);
    QCOMPARE(shown.table().currentIndex().row(), shown.place(u"berg-balance"_s));
}

void TestChangePage::anotherRowOfEvidenceIsUsedWithAReason()
{
    Shown shown;
    shown.table().setCurrentIndex(shown.model().index(shown.place(u"berg-balance"_s), 0));
    auto& rows = shown.find<QComboBox>(u"otherRows"_s);
    auto& use = shown.find<QPushButton>(u"useRow"_s);
    auto& back = shown.find<QPushButton>(u"backToRule"_s);
    // Hiengkaew 2012 (six days) before Alghadir 2018 (interval not known).
    QVERIFY2(shown.detail().contains(u"Interval not known. 2.7 points; Alghadir 2018"_s),
             qPrintable(shown.detail()));
    QCOMPARE(rows.count(), 1);
    QVERIFY(rows.currentText().startsWith(u"2.7 points: Alghadir 2018"_s));
    QVERIFY(use.isVisible() && !back.isEnabled());

    shown.answers.text = u"same raters as here"_s;
    QTest::keyClick(&use, Qt::Key_Space);
    QVERIFY2(shown.detail().contains(u"chosen by tester on 07-Sep-2026 (“same raters as here”)"_s),
             qPrintable(shown.detail()));
    QVERIFY(rows.currentText().startsWith(u"5 points: Hiengkaew 2012"_s));

    QVERIFY(back.isEnabled());
    QTest::keyClick(&back, Qt::Key_Space);
    QVERIFY(!shown.detail().contains(u"chosen by"_s));
    QVERIFY(rows.currentText().startsWith(u"2.7 points: Alghadir 2018"_s));
    QCOMPARE(shown.story.session().patientInFocus().choices.size(), size_t(2));
}

void TestChangePage::anotherRowIsUsedForThePopulation()
{
    Shown shown;
    shown.table().setCurrentIndex(shown.model().index(shown.place(u"berg-balance"_s), 0));
    auto& rows = shown.find<QComboBox>(u"otherRows"_s);
    shown.answers.text = u"our raters agree"_s;
    QTest::keyClick(&shown.find<QPushButton>(u"useRowForPopulation"_s), Qt::Key_Space);
    QVERIFY2(shown.detail().contains(
                 u"chosen for everybody of this population by tester on 07-Sep-2026 (“our raters agree”)"_s),
             qPrintable(shown.detail()));
    QVERIFY(rows.currentText().startsWith(u"5 points: Hiengkaew 2012"_s));
    QVERIFY(shown.story.session().patientInFocus().choices.empty());
    const auto& choices = shown.story.session().clinic().judging.choices;
    QCOMPARE(choices.size(), size_t(1));
    QCOMPARE(choices.front().population, shown.story.session().patientInFocus().population);

    QTest::keyClick(&shown.find<QPushButton>(u"backToRule"_s), Qt::Key_Space);
    QVERIFY(!shown.detail().contains(u"chosen for everybody"_s));
    QCOMPARE(shown.story.session().clinic().judging.choices.size(), size_t(2));
}

void TestChangePage::withoutAReasonTheRuleStays()
{
    Shown shown;
    shown.table().setCurrentIndex(shown.model().index(shown.place(u"berg-balance"_s), 0));
    auto& use = shown.find<QPushButton>(u"useRow"_s);
    shown.answers.text.reset();
    use.click();
    QVERIFY(shown.answers.told.isEmpty());
    shown.answers.text = u" "_s;
    use.click();
    QCOMPARE(shown.answers.told.size(), 1);
    QVERIFY(shown.story.session().patientInFocus().choices.empty());
}

void TestChangePage::withoutAVisitThePageSaysWhatWillBeHere()
{
    Shown shown;
    shown.story.session().leavePatient();
    QVERIFY(!shown.table().isVisible());
    QStringList words;
    for (const QLabel* label : shown.page.findChildren<QLabel*>()) {
        if (label->isVisible())
            words << label->text();
    }
    QVERIFY(words.contains(u"No visit yet"_s));
}

HOUSE_TEST(TestChangePage)

} // namespace test_change_page

#include "test_change_page.moc"
