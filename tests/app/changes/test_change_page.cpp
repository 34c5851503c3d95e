#include "app/changes/change_page.h"

#include "core/records/visit.h"
#include "tests/support/answers.h"
#include "tests/support/story.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <QTableView>
#include <QTextBrowser>

using namespace Qt::StringLiterals;

namespace test_change_page
{

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
    }

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
    QString detail() { return find<QTextBrowser>(u"changeDetail"_s).toPlainText(); }
};

class TestChangePage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theModelKeepsItsWord();
    void rowsStandUnderTheirSections();
    void aChangeIsSaidInNumbersAndWords();
    void aTurnToUnableIsAnEvent();
    void gradesShowBothValues();
    void theMostTellingRowIsExplainedFirst();
    void aRowExplainsArithmeticSourceAndConditions();
    void aRowSaysWhereTheResultStands();
    void aMismatchIsSaidInWords();
    void theTallyCountsEveryVerdict();
    void theReferenceLineIsFollowed();
    void theBaselineIsReachedByKeyboard();
    void whatIsComparedForOnePatientIsNotForTheNext();
    void rowsNotAtTheReferenceSaySo();
    void selectedRowsAreCopiedWithTabs();
    void everyCellIsSpoken();
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

void TestChangePage::rowsStandUnderTheirSections()
{
    Shown shown;
    QVERIFY(shown.model().isSection(0));
    QCOMPARE(shown.model().index(0, 0).data().toString(), u"Upper limbs"_s);
    QVERIFY(!shown.model().flags(shown.model().index(0, 0)).testFlag(Qt::ItemIsSelectable));
    QCOMPARE(shown.table().columnSpan(0, 0), int(ChangeModel::ColumnCount));
    QVERIFY(shown.place(u"finger-nose"_s, Side::Right) < shown.place(u"finger-nose"_s, Side::Left));
}

void TestChangePage::aChangeIsSaidInNumbersAndWords()
{
    Shown shown;
    const QString walk = u"ten-metre-walk-time-comfortable"_s;
    QCOMPARE(shown.cell(walk, ChangeModel::Reference), u"10.90 s"_s);
    QCOMPARE(shown.cell(walk, ChangeModel::Day), u"15-Sep-2025"_s);
    QCOMPARE(shown.cell(walk, ChangeModel::Now), u"12.60 s"_s);
    QCOMPARE(shown.cell(walk, ChangeModel::Difference), u"+1.70 s"_s);
    // Hosoi 2023, Front Neurol 14:1219505: 1.58 s from 0.8 m/s up.
    QCOMPARE(shown.cell(walk, ChangeModel::Verdict), u"worse beyond error · seen once"_s);
    QCOMPARE(shown.cell(walk, ChangeModel::StripColumn), u"worse by 1.1 times the threshold of error"_s);
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
    shown.find<QRadioButton>(u"againstBaseline"_s).setChecked(true);
    QCOMPARE(shown.cell(u"finger-nose"_s, ChangeModel::Reference, Side::Left), u"marked (3)"_s);
    QCOMPARE(shown.cell(u"finger-nose"_s, ChangeModel::Now, Side::Left), u"just visible (1)"_s);
    QVERIFY(shown.cell(u"finger-nose"_s, ChangeModel::Verdict, Side::Left).startsWith(u"2 steps better"_s));
    const QModelIndex meaning =
        shown.model().index(shown.place(u"finger-nose"_s, Side::Left), ChangeModel::Verdict);
    QVERIFY(meaning.data(Qt::AccessibleTextRole).toString().startsWith(u"2 steps better"_s));
    QCOMPARE(shown.cell(u"finger-nose"_s, ChangeModel::StripColumn, Side::Left),
             u"better; the threshold of error is not known"_s);
}

void TestChangePage::theMostTellingRowIsExplainedFirst()
{
    Shown shown;
    QCOMPARE(shown.table().currentIndex().row(), shown.place(u"timed-up-and-go"_s));
    QVERIFY(shown.detail().startsWith(u"Timed up and go: became unable"_s));
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
    shown.table().setCurrentIndex(shown.model().index(shown.place(walk), 0));
    QVERIFY2(shown.detail().contains(u"differs: not comparable"_s), qPrintable(shown.detail()));
    QVERIFY(shown.detail().contains(u"Stick"_s));
}

void TestChangePage::theTallyCountsEveryVerdict()
{
    Shown shown;
    const QString tally = shown.find<QLabel>(u"tally"_s).text();
    QVERIFY2(tally.startsWith(u"Became unable: 1"_s), qPrintable(tally));
    QVERIFY(tally.contains(u"worse beyond error: 1"_s));
    QVERIFY(tally.contains(u"better beyond error: 0"_s));
    // 5 % of the three results that a threshold judged.
    QVERIFY(shown.find<QLabel>(u"byChance"_s).text().contains(u"about 0.15 of the 3 results"_s));
}

void TestChangePage::theReferenceLineIsFollowed()
{
    Shown shown;
    auto& chosen = shown.find<QRadioButton>(u"againstChosen"_s);
    QVERIFY(!chosen.isEnabled());
    shown.story.session().chooseReference(shown.story.visit(3));
    QVERIFY(chosen.isEnabled());
    QVERIFY(chosen.isChecked());
    QVERIFY(chosen.text().contains(u"10-Mar-2025"_s));
    QCOMPARE(shown.cell(u"berg-balance"_s, ChangeModel::Day), u"10-Mar-2025"_s);
    shown.story.session().chooseReference(std::nullopt);
    QVERIFY(shown.find<QRadioButton>(u"againstPrevious"_s).isChecked());
    QCOMPARE(shown.cell(u"berg-balance"_s, ChangeModel::Day), u"15-Sep-2025"_s);
}

void TestChangePage::theBaselineIsReachedByKeyboard()
{
    Shown shown;
    QTest::keyClick(&shown.find<QRadioButton>(u"againstBaseline"_s), Qt::Key_Space);
    QVERIFY(shown.find<QRadioButton>(u"againstBaseline"_s).isChecked());
    QCOMPARE(shown.cell(u"ten-metre-walk-time-comfortable"_s, ChangeModel::Day), u"10-Mar-2025"_s);
    QTest::keyClick(&shown.table(), Qt::Key_Up);
    QVERIFY(!shown.detail().startsWith(u"Timed up and go"_s));
}

void TestChangePage::whatIsComparedForOnePatientIsNotForTheNext()
{
    Shown shown;
    session::Session& session = shown.story.session();
    const records::PatientId first = *session.focus().patient;
    shown.find<QRadioButton>(u"againstBaseline"_s).setChecked(true);
    session.moveVisit(-1);
    QVERIFY(shown.find<QRadioButton>(u"againstBaseline"_s).isChecked()); // within one patient it stays
    records::Patient next;
    next.id = records::PatientId::make();
    next.family = u"Other"_s;
    const auto saved = session.savePatient(next);
    QVERIFY(saved);
    session.choosePatient(saved->id);
    QVERIFY(shown.find<QRadioButton>(u"againstPrevious"_s).isChecked());
    shown.find<QRadioButton>(u"againstBest"_s).setChecked(true);
    session.choosePatient(first);
    QVERIFY(shown.find<QRadioButton>(u"againstPrevious"_s).isChecked());
}

void TestChangePage::rowsNotAtTheReferenceSaySo()
{
    Shown shown;
    session::Session& session = shown.story.session();
    session.chooseVisit(shown.story.visit(1));
    QCOMPARE(shown.cell(u"nine-hole-peg"_s, ChangeModel::Verdict, Side::Left), u"became able"_s);
    session.chooseVisit(shown.story.visit(0));
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
    QVERIFY(lines[0].startsWith(
        u"Test\tSide\tEarlier\tOn\tThis visit\tDifference\tAgainst the threshold of error\t"_s));
    QVERIFY2(lines[1].contains(u"\t51 points\t15-Sep-2025\t50 points\t−1 points\t"_s) ||
                 lines[1].contains(u"\t51 points\t15-Sep-2025\t50 points\t−1 point\t"_s),
             qPrintable(lines[1]));
}

void TestChangePage::everyCellIsSpoken()
{
    Shown shown;
    for (int row = 0; row < shown.model().rowCount(); ++row) {
        if (shown.model().isSection(row))
            continue;
        for (int column = 0; column < shown.model().columnCount(); ++column)
            QVERIFY(!shown.model().index(row, column).data(Qt::AccessibleTextRole).toString().isEmpty());
    }
}

void TestChangePage::anotherValueIsSeenAtOnce()
{
    Shown shown;
    session::Session& session = shown.story.session();
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
