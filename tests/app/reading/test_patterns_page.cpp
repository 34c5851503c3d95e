#include "app/reading/patterns_page.h"

#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QClipboard>
#include <QMimeData>
#include <QPushButton>
#include <QSignalSpy>
#include <QTextBrowser>

using namespace Qt::StringLiterals;

namespace test_patterns_page
{

using clinic_desk::Desk;
using clinic_desk::today;
using reading::PatternsPage;

struct Shown {
    Desk desk;
    records::VisitId draft;
    std::unique_ptr<PatternsPage> page;

    Shown()
    {
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        draft = desk.addVisit(today, false);
        page = std::make_unique<PatternsPage>(*desk.session, desk.answers, nullptr);
        page->resize(1000, 600);
        page->show();
    }
    void find(const QString& measure, const values::Value& value) const
    {
        records::Finding finding;
        finding.measure = measure;
        finding.value = value;
        QVERIFY(desk.session->saveFinding(draft, finding));
    }
    QTextBrowser* text() const { return page->findChild<QTextBrowser*>(u"patternText"_s); }
    QString of(const QString& title) const
    {
        return text()->toPlainText().section(title + u'\n', 1).section(u"\n\n"_s, 0, 0);
    }
};

class TestPatternsPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void withoutTheNeededTestsOnlyThatIsSaid()
    {
        const Shown shown;
        const QString words = shown.text()->toPlainText();
        QCOMPARE(words.count(u"not tested: "_s), 10);
        QVERIFY(!words.contains(u"Supports it"_s));
        QVERIFY(words.contains(u"Vestibular\nnot tested: Romberg sign; Nystagmus"_s));
    }

    void whatSupportsAndContradictsStandsSideBySide()
    {
        const Shown shown;
        shown.find(u"romberg-sign"_s, values::Choice{u"positive"_s});
        shown.find(u"nystagmus"_s, values::Choice{u"upbeat-or-downbeat"_s});
        const QString words = shown.text()->toPlainText();
        const QString vestibular = words.section(u"Vestibular"_s, 1).section(u"Extrapyramidal"_s, 0, 0);
        const qsizetype supports = vestibular.indexOf(u"Romberg sign: "_s);
        const qsizetype contradicts = vestibular.indexOf(u"Nystagmus: Upbeat or downbeat"_s);
        QVERIFY2(supports > 0 && contradicts > supports, qPrintable(vestibular));
        QVERIFY(vestibular.contains(u"McGee 2018"_s) && vestibular.contains(u"NICE NG127"_s));
        QVERIFY(vestibular.indexOf(u"Trunk and posture"_s) > contradicts); // not tested
        // Neither a score nor a verdict: no number but those of sources.
        for (const char* word : {"probab", "likely", "%", "score", "diagnosed"})
            QVERIFY2(!words.contains(QLatin1String(word), Qt::CaseInsensitive), word);
    }

    void aFindingLeadsToItsTest()
    {
        const Shown shown;
        shown.find(u"romberg-sign"_s, values::Choice{u"positive"_s});
        QVERIFY(shown.text()->toHtml().contains(u"href=\"finding:romberg-sign\""_s));
        QSignalSpy asked(shown.page.get(), &PatternsPage::measureAsked);
        Q_EMIT shown.text()->anchorClicked(QUrl(u"finding:gait-step-height/left"_s));
        QCOMPARE(asked.front().front().toString(), u"gait-step-height"_s);
    }

    void allOfItIsCopiedAndKeptAsPages()
    {
        Shown shown;
        shown.find(u"romberg-sign"_s, values::Choice{u"positive"_s});
        shown.page->findChild<QPushButton*>(u"patternsCopy"_s)->click();
        QCOMPARE(QApplication::clipboard()->text(), shown.text()->toPlainText());
        QVERIFY(QApplication::clipboard()->mimeData()->hasHtml());
        shown.desk.answers.file = shown.desk.folder.filePath(u"patterns.pdf"_s);
        shown.page->findChild<QPushButton*>(u"patternsPdf"_s)->click();
        QCOMPARE(shown.desk.answers.suggested, QStringList{u"patterns-2026-03-12.pdf"_s});
        QFile pdf(*shown.desk.answers.file);
        QVERIFY(pdf.open(QIODevice::ReadOnly));
        QVERIFY(pdf.read(5) == "%PDF-");
        QCOMPARE(shown.desk.answers.told, QStringList());
    }

    void withoutAVisitItSaysSo()
    {
        Desk desk;
        PatternsPage page(*desk.session, desk.answers, nullptr);
        page.show();
        QVERIFY(!page.findChild<QTextBrowser*>(u"patternText"_s)->isVisible());
    }
};

HOUSE_TEST(TestPatternsPage)

} // namespace test_patterns_page

#include "test_patterns_page.moc"
