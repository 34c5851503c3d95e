#include "core/paper/fitting.h"

#include "core/paper/pages.h"
#include "core/paper/paper.h"
#include "tests/core/letters/letter_material.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

#include <QRegularExpression>

namespace test_fitting
{

using namespace letter_material;

catalogue::Catalogue manyGrades(int count)
{
    catalogue::Catalogue made = book();
    for (int i = 0; i < count; ++i) {
        catalogue::Measure grade = *made.measure(u"finger-nose"_s);
        grade.id = u"grade-%1"_s.arg(i);
        grade.title = u"Grade number %1"_s.arg(i);
        made.measures.push_back(grade);
        made.forms.front().sections.front().measures += grade.id;
    }
    return made;
}

Draft abnormalIn(int count)
{
    Draft letter = material();
    letter.letter.hasAnnex = false;
    for (int i = 0; i < count; ++i) {
        for (const Side side : {Side::Right, Side::Left})
            letter.visits.back().findings.push_back(finding(u"grade-%1"_s.arg(i), Grade{2}, side));
    }
    return letter;
}

letters::Composition fittedOf(const Draft& letter, const catalogue::Catalogue& catalogue)
{
    return paper::fitted({letter.made(), kindOf(u"progress"_s, kinds({})), catalogue, {}});
}

class TestFitting : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aLetterThatFitsIsWholeAndHasOnePage()
    {
        const Draft letter = abnormalIn(0);
        const Composition made = fittedOf(letter, book());
        QCOMPARE(paper::Paper(made).pages(), 1);
        QVERIFY(!made.body.contains(u"told in the annex"_s));
    }

    void fortyAbnormalFindingsLeaveOnePageAndNoneIsLost()
    {
        const catalogue::Catalogue catalogue = manyGrades(40);
        const Composition made = fittedOf(abnormalIn(40), catalogue);
        const paper::Paper laidOut(made);
        QCOMPARE(laidOut.pagesOfLetter(), 1);
        QVERIFY(laidOut.pages() > 1);
        const QStringList pages = PdfFile(*paper::pdf(made)).pages();
        const QString first = pages.front().simplified();
        const QString all = pages.join(u' ').simplified();
        int shown = 0; // in the table, or named as annexed
        for (int i = 0; i < 40; ++i) {
            const QString title = u"Grade number %1"_s.arg(i);
            const qsizetype place = first.indexOf(QRegularExpression(title + u"(?!\\d)"_s));
            shown += int(place >= 0);
            QVERIFY2(all.contains(QRegularExpression(title + u"(?!\\d)"_s)), qPrintable(title));
        }
        QVERIFY2(shown > 11 && shown < 40, qPrintable(QString::number(shown)));
        static const QRegularExpression counted(u"told in the annex: .*: (\\d+) tests"_s);
        QCOMPARE(counted.match(first).captured(1).toInt() + shown, 40);
        // One row more would not fit.
        const Composer composer(abnormalIn(40).made(), kindOf(u"progress"_s, kinds({})), catalogue, {});
        const qsizetype rows = made.body.count(u"<tr>"_s);
        for (size_t more = 0; more <= composer.rows(); ++more) {
            const Composition tried = composer.composed(more);
            const qsizetype there = tried.body.count(u"<tr>"_s);
            if (there > rows)
                QVERIFY(paper::Paper(tried).pagesOfLetter() > 1);
        }
    }

    /// Two of thirty questions answered yes stand in full, the others in one line.
    void thirtyAnsweredQuestionsLeaveOnePage()
    {
        catalogue::Catalogue catalogue = manyGrades(40);
        Draft letter = abnormalIn(40);
        for (int i = 0; i < 30; ++i) {
            catalogue::RedFlag flag;
            flag.id = u"flag-%1"_s.arg(i, 2, 10, QChar(u'0'));
            flag.inShort = u"question number %1"_s.arg(i);
            catalogue.redFlags.push_back(flag);
            letter.visits.back().redFlags[flag.id] = {false, {}};
        }
        for (const char* yes : {"flag-03", "flag-21"})
            letter.visits.back().redFlags[QString::fromLatin1(yes)] = {
                true, records::Acknowledgement{u"told to the stroke team, who saw the patient at once"_s,
                                               june, QTime(14, 20)}};
        const paper::Paper laidOut(fittedOf(letter, catalogue));
        QCOMPARE(laidOut.pagesOfLetter(), 1);
        const QString first = PdfFile(*paper::pdf(laidOut.composition())).pages().front().simplified();
        QVERIFY(first.contains(u"Red flag question number 3: yes (told to the stroke team"_s));
        QVERIFY(first.contains(u"Red flag question number 21: yes (told to the stroke team"_s));
        QVERIFY(first.contains(u"Red flags: 28 others asked, none present."_s));
    }

    void anUrgentHandOverFillsHalfAPage()
    {
        const Kind handover = kindOf(u"handover"_s, kinds({}));
        for (const int findings : {0, 3, 40}) {
            for (const records::PaperSize size : {records::PaperSize::A4, records::PaperSize::Letter}) {
                Draft letter = abnormalIn(findings);
                letter.clinic.paper = size;
                letter.letter.question = u"Cannot stand since this morning: to be seen today?"_s;
                letter.letter.actions = u"Stroke unit: to be seen today"_s;
                const Composition made = paper::fitted({letter.made(), handover, manyGrades(40), {}});
                const paper::Paper laidOut(made);
                QVERIFY2(laidOut.filled() <= 0.5, qPrintable(QString::number(laidOut.filled())));
                QCOMPARE(made.body.contains(u"not told here"_s), findings == 40);
            }
        }
        Draft wordy = abnormalIn(40);
        wordy.letter.history = u"What led to it takes a line.\n"_s.repeated(15);
        const paper::Paper whole(paper::fitted({wordy.made(), handover, manyGrades(40), {}}));
        QVERIFY(whole.filled() > 0.5 && whole.filled() <= 1); // their own words are never cut
    }

    void whatCannotFitKeepsAllItsRows()
    {
        Draft letter = abnormalIn(0);
        letter.letter.history = u"A long history.\n"_s.repeated(120);
        const Composition made = fittedOf(letter, book());
        QVERIFY(paper::Paper(made).filled() > 1);
        QVERIFY(!made.body.contains(u"told in the annex"_s));
    }

    void theAnnexBeginsAPage()
    {
        Draft letter = abnormalIn(0);
        letter.letter.hasAnnex = true;
        const QStringList pages = PdfFile(*paper::pdf(fittedOf(letter, book()))).pages();
        QVERIFY(pages.size() >= 2);
        QVERIFY(!pages[0].contains(u"Annex: all findings"_s));
        QVERIFY(pages[1].contains(u"Annex: all findings"_s));
    }
};

HOUSE_TEST(TestFitting)

} // namespace test_fitting

#include "test_fitting.moc"
