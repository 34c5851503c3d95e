#include "app/handbook/measures_page.h"

#include "app/handbook/evidence_table.h"
#include "app/handbook/measure_list.h"
#include "app/handbook/uses_table.h"
#include "core/records/patient.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QDesktopServices>
#include <QLabel>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTabWidget>
#include <QTableView>
#include <QTextBrowser>

using namespace Qt::StringLiterals;

namespace test_measures_page
{

using clinic_desk::Desk;
using handbook::EvidenceTable;
using handbook::MeasureList;

/// The page on a clinic of one.
struct Shown : Desk {
    records::Patient halden = add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), u"L-0042"_s);
    handbook::MeasuresPage page{*session, nullptr};

    Shown()
    {
        page.resize(1200, 760);
        page.show();
    }

    template <class Widget>
    Widget& find(const QString& name)
    {
        return *page.findChild<Widget*>(name);
    }
    QLineEdit& search() { return find<QLineEdit>(u"measureSearch"_s); }
    QTableView& list() { return find<QTableView>(u"measureList"_s); }
    MeasureList& model() { return *qobject_cast<MeasureList*>(list().model()); }
    QTextBrowser& handbook() { return find<QTextBrowser>(u"handbook"_s); }
    QTabWidget& tabs() { return find<QTabWidget>(u"measureTabs"_s); }
    QTableView& evidence() { return find<QTableView>(u"evidence"_s); }
    QTableView& uses() { return find<QTableView>(u"uses"_s); }
};

/// Takes the links the program would hand to the desktop.
class Links : public QObject
{
    Q_OBJECT

public:
    Links() { QDesktopServices::setUrlHandler(u"https"_s, this, "take"); }
    ~Links() override { QDesktopServices::unsetUrlHandler(u"https"_s); }
    QList<QUrl> taken;

public Q_SLOTS:
    void take(const QUrl& url) { taken += url; }
};

class TestMeasuresPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theModelsKeepTheirWord();
    void everyMeasureStandsUnderItsSection();
    void theNameTypedIsShown();
    void aPopulationFindsWhatHasEvidenceForIt();
    void typingInTheListSearches();
    void arrowsTurnThePages();
    void tabGoesFromTheListToThePage();
    void nothingFoundOffersAllAgain();
    void errorComesBeforeImportantChange();
    void theSelectedEvidenceIsSaidInFull();
    void linksGoToTheDesktop();
    void aRelatedMeasureIsAClickAway();
    void withoutEvidenceThePageSaysSo();
    void visitsThatUsedItOpen();
    void withoutVisitsThePageSaysSo();
    void escapeClearsThenLeaves();
};

void TestMeasuresPage::theModelsKeepTheirWord()
{
    const auto strictly = QAbstractItemModelTester::FailureReportingMode::QtTest;
    MeasureList list;
    EvidenceTable evidence;
    handbook::UsesTable uses;
    const QAbstractItemModelTester first(&list, strictly);
    const QAbstractItemModelTester second(&evidence, strictly);
    const QAbstractItemModelTester third(&uses, strictly);
    list.show(clinic_desk::book(), {});
    evidence.show(u"berg-balance"_s, clinic_desk::book());
    uses.show({records::Use(), records::Use()});
    QVERIFY(list.rowCount() > 0 && evidence.rowCount() > 0);
    QCOMPARE(uses.rowCount(), 2);
    list.show(clinic_desk::book(), u"no such thing"_s);
    evidence.show(u"no-such-measure"_s, clinic_desk::book());
    QCOMPARE(list.rowCount() + evidence.rowCount(), 0);
}

void TestMeasuresPage::everyMeasureStandsUnderItsSection()
{
    Shown shown;
    const MeasureList& model = shown.model();
    QCOMPARE(size_t(model.count()), clinic_desk::book().measures.size());
    QVERIFY(model.isSection(0));
    QString section;
    for (int row = 0; row < model.rowCount(); ++row) {
        if (model.isSection(row))
            section = model.index(row, 0).data().toString();
        else
            QCOMPARE(
                clinic_desk::book().section(clinic_desk::book().measure(model.measure(row))->section)->title,
                section);
    }
}

void TestMeasuresPage::theNameTypedIsShown()
{
    Shown shown;
    QTest::keyClicks(&shown.search(), u"berg"_s);
    QCOMPARE(shown.page.measure(), u"berg-balance"_s);
    QVERIFY(shown.handbook().toPlainText().startsWith(clinic_desk::book().measure(u"berg-balance"_s)->title));
    QTest::keyClick(&shown.search(), Qt::Key_A, Qt::ControlModifier);
    QTest::keyClicks(&shown.search(), u"tug"_s);
    QCOMPARE(shown.page.measure(), u"timed-up-and-go"_s);
}

void TestMeasuresPage::aPopulationFindsWhatHasEvidenceForIt()
{
    MeasureList list;
    list.show(clinic_desk::book(), u"parkinson"_s);
    QVERIFY(list.rowOf(u"romberg-eyes-open"_s) > 0); // Steffen & Seney 2008
    QCOMPARE(list.rowOf(u"toe-tapping"_s), -1);
}

void TestMeasuresPage::typingInTheListSearches()
{
    Shown shown;
    QTest::keyClicks(&shown.list(), u"b"_s);
    QCOMPARE(shown.search().text(), u"b"_s);
    QVERIFY(shown.model().count() < int(clinic_desk::book().measures.size()));
}

void TestMeasuresPage::arrowsTurnThePages()
{
    Shown shown;
    const QString first = shown.page.measure();
    QVERIFY(!first.isEmpty());
    QTest::keyClick(&shown.list(), Qt::Key_Down);
    QVERIFY(shown.page.measure() != first);
    QCOMPARE(shown.page.measure(), clinic_desk::book().measures.at(1).id);
}

void TestMeasuresPage::tabGoesFromTheListToThePage()
{
    Shown shown;
    const QWidget* next = shown.list().nextInFocusChain();
    while (next != &shown.list() && (!next->isVisible() || !(next->focusPolicy() & Qt::TabFocus)))
        next = next->nextInFocusChain();
    QCOMPARE(next->objectName(), u"handbook"_s);
}

void TestMeasuresPage::nothingFoundOffersAllAgain()
{
    Shown shown;
    QTest::keyClicks(&shown.search(), u"xyzzy"_s);
    QVERIFY(!shown.list().isVisible());
    QCOMPARE(shown.find<QLabel>(u"measureCount"_s).text(),
             u"0 of %1"_s.arg(clinic_desk::book().measures.size()));
    shown.search().clear();
    QVERIFY(shown.list().isVisible());
}

void TestMeasuresPage::errorComesBeforeImportantChange()
{
    EvidenceTable evidence;
    for (const catalogue::Measure& measure : clinic_desk::book().measures) {
        evidence.show(measure.id, clinic_desk::book());
        bool isPast = false;
        for (int row = 0; row < evidence.rowCount(); ++row) {
            const QString answers = evidence.index(row, EvidenceTable::Answers).data().toString();
            QVERIFY2(!isPast || answers == u"importance"_s, qPrintable(measure.id));
            isPast = answers == u"importance"_s;
        }
    }
}

/// Donoghue & Stokes 2009, J Rehabil Med 41:343: 118 people of 65 and over, bands of the Berg scale.
void TestMeasuresPage::theSelectedEvidenceIsSaidInFull()
{
    Shown shown;
    shown.page.showMeasure(u"berg-balance"_s);
    const auto* model = shown.evidence().model();
    int found = -1;
    for (int row = 0; row < model->rowCount(); ++row) {
        const bool isIt =
            model->index(row, EvidenceTable::Source).data().toString().startsWith(u"Donoghue"_s) &&
            model->index(row, EvidenceTable::People).data().toString().contains(u"25"_s);
        found = isIt ? row : found;
    }
    QVERIFY(found >= 0);
    QCOMPARE(model->index(found, EvidenceTable::Value).data().toString(), u"7 points"_s);
    QCOMPARE(model->index(found, EvidenceTable::People).data().toString(),
             u"Older adults, 25 to 34 points"_s);
    QCOMPARE(model->index(found, EvidenceTable::Number).data().toString(), u"118"_s);
    QCOMPARE(model->index(found, EvidenceTable::Confidence).data().toString(), u"95 %, stated"_s);
    shown.evidence().setCurrentIndex(model->index(found, 0));
    const QString detail = shown.find<QTextBrowser>(u"evidenceDetail"_s).toPlainText();
    QVERIFY2(detail.contains(u"test–retest"_s) && detail.contains(u"https://doi.org/"_s), qPrintable(detail));
}

void TestMeasuresPage::linksGoToTheDesktop()
{
    Shown shown;
    Links links;
    shown.page.showMeasure(u"berg-balance"_s);
    const QUrl link(u"https://doi.org/10.2340/16501977-0337"_s);
    Q_EMIT shown.find<QTextBrowser>(u"evidenceDetail"_s).anchorClicked(link);
    QCOMPARE(links.taken, QList<QUrl>{link});
}

void TestMeasuresPage::aRelatedMeasureIsAClickAway()
{
    Shown shown;
    QTest::keyClicks(&shown.search(), u"berg"_s);
    Q_EMIT shown.handbook().anchorClicked(QUrl(u"measure:timed-up-and-go"_s));
    QCOMPARE(shown.page.measure(), u"timed-up-and-go"_s);
    QVERIFY(shown.search().text().isEmpty());
}

void TestMeasuresPage::withoutEvidenceThePageSaysSo()
{
    Shown shown;
    shown.page.showMeasure(u"toe-tapping"_s);
    QVERIFY(!shown.evidence().isVisible());
    QCOMPARE(shown.tabs().tabText(0), u"Evidence of change"_s);
    shown.page.showMeasure(u"berg-balance"_s);
    QVERIFY(shown.evidence().isVisible());
}

void TestMeasuresPage::visitsThatUsedItOpen()
{
    Shown shown;
    shown.session->choosePatient(shown.halden.id);
    const records::VisitId visit = shown.addVisit(QDate(2026, 1, 12));
    QSignalSpy asked(&shown.page, &handbook::MeasuresPage::visitAsked);
    shown.page.showMeasure(u"toe-tapping"_s);
    shown.tabs().setCurrentIndex(2);
    QVERIFY(shown.uses().isVisible());
    QCOMPARE(shown.uses().model()->index(0, 0).data().toString(), u"12-Jan-2026"_s);
    QCOMPARE(shown.uses().model()->index(0, 1).data().toString(),
             u"\u2068HALDEN\u2069, \u2068Mirrit\u2069"_s);
    QTest::keyClick(&shown.uses(), Qt::Key_Return);
    QCOMPARE(asked.size(), 1);
    QCOMPARE(asked.first().at(1).value<records::VisitId>(), visit);
}

void TestMeasuresPage::withoutVisitsThePageSaysSo()
{
    Shown shown;
    shown.page.showMeasure(u"toe-tapping"_s);
    shown.tabs().setCurrentIndex(2);
    QVERIFY(!shown.uses().isVisible());
}

void TestMeasuresPage::escapeClearsThenLeaves()
{
    Shown shown;
    QVERIFY(QTest::qWaitForWindowActive(&shown.page));
    QSignalSpy left(&shown.page, &handbook::MeasuresPage::left);
    shown.search().setFocus();
    QTest::keyClicks(&shown.search(), u"berg"_s);
    QTest::keyClick(&shown.search(), Qt::Key_Escape);
    QVERIFY(shown.search().text().isEmpty());
    QCOMPARE(left.size(), 0);
    QTest::keyClick(&shown.search(), Qt::Key_Escape);
    QCOMPARE(left.size(), 1);
}

HOUSE_TEST(TestMeasuresPage)

} // namespace test_measures_page

#include "test_measures_page.moc"
