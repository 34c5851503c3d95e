#include "core/letters/service_page.h"

#include "core/paper/pages.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QTextDocument>

using namespace Qt::StringLiterals;

namespace test_service_page
{

using judging::ServiceReport;
using judging::ServiceRow;
using statistics::Quartiles;

const judging::Period spring{QDate(2026, 3, 1), QDate(2026, 5, 31)};

records::Clinic clinic()
{
    return {u"Invented <Clinic>"_s, {}, {}};
}

ServiceRow walks()
{
    return {u"parkinson"_s,
            u"six-minute-walk"_s,
            records::Side::None,
            44,
            Quartiles{225, 350, 475},
            Quartiles{226, 351.5, 476},
            40,
            6,
            {},
            {},
            5};
}

ServiceReport report()
{
    ServiceRow grade;
    grade.measure = u"finger-nose"_s;
    grade.side = records::Side::Left;
    grade.patients = 9;
    grade.first = Quartiles{1, 2, 3};
    grade.latest = Quartiles{1, 1, 3};
    ServiceRow few;
    few.population = u"parkinson"_s;
    few.measure = u"nine-hole-peg"_s;
    few.side = records::Side::Right;
    ServiceRow otherSide = few;
    otherSide.side = records::Side::Left;
    return {spring,
            false,
            judging::ServiceCounts{60, 150, 140, 10, 120, 90, 50, Quartiles{1, 3.5, 9}, 40, 12},
            {walks(), few, otherSide, grade}};
}

letters::Composition pageOf(const ServiceReport& report, const records::Clinic& clinic)
{
    return letters::servicePage(report, clinic, QDate(2026, 6, 2), examples::catalogue(), {});
}

/// What stands on it, one line a paragraph.
QStringList linesOf(const ServiceReport& report)
{
    QTextDocument page;
    page.setHtml(pageOf(report, clinic()).body);
    QStringList lines = page.toPlainText().split(u'\n');
    for (QString& line : lines)
        line = line.trimmed();
    return lines;
}

class TestServicePage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itSaysOfWhomAndWhen()
    {
        const letters::Composition page = pageOf(report(), clinic());
        QCOMPARE(page.title, u"Service report"_s);
        QVERIFY(page.identity.contains(u"Service report · 01-Mar-2026 to 31-May-2026"_s));
        QVERIFY(page.footer.contains(u"decide nothing"_s));
        QVERIFY(page.footer.endsWith(
            u"Two reports whose periods differ by days can show one person when subtracted."_s));
        QVERIFY(page.draftMark.isEmpty() && page.demoMark.isEmpty());
        const QStringList lines = linesOf(report());
        for (const QString& line : {u"Invented <Clinic>"_s, u"Period 01-Mar-2026 to 31-May-2026"_s,
                                    u"Made on 02-Jun-2026"_s, u"60"_s, u"150"_s, u"3.5 (1 to 9)"_s})
            QVERIFY2(lines.contains(line), qPrintable(line));
    }

    void aRowTellsFirstAndLatestAndBothShares()
    {
        const QStringList lines = linesOf(report());
        const qsizetype at = lines.indexOf(u"6-minute walk distance (m)"_s);
        QVERIFY2(at > 0, qPrintable(lines.join(u'\n')));
        QCOMPARE(lines.mid(at, 9),
                 (QStringList{u"6-minute walk distance (m)"_s, u"44"_s, u"350 (225 to 475)"_s,
                              u"352 (226 to 476)"_s, u"6 of 40 (15 %)"_s, u"fewer than 5"_s, u"2.0 of 40"_s,
                              u"fewer than 5"_s, u"5"_s}));
    }

    void gradesAreNotJudged()
    {
        const QStringList lines = linesOf(report());
        QVERIFY(lines.contains(u"Population not stated"_s));
        const qsizetype at = lines.indexOf(u"Finger to nose, left (grade)"_s);
        QCOMPARE(lines.mid(at + 1, 6),
                 (QStringList{u"9"_s, u"2 (1 to 3)"_s, u"1 (1 to 3)"_s, u"–"_s, u"–"_s, u"–"_s}));
    }

    void whoIsDueIsToldOfThoseWithAnInterval()
    {
        const QString label = u"Patients due or overdue on the last day, of those with a review interval"_s;
        const auto told = [&](const judging::Counted& due, const judging::Counted& withInterval) {
            ServiceReport some = report();
            some.counts->due = due;
            some.counts->withInterval = withInterval;
            const QStringList lines = linesOf(some);
            return lines.value(lines.indexOf(label) + 1);
        };
        QCOMPARE(told(12, 40), u"12 of 40 (30 %)"_s);
        QCOMPARE(told({}, 40), u"fewer than 5"_s);
        QCOMPARE(told({}, {}), u"fewer than 5"_s);
    }

    void whereTooFewHaveALetterNoDaysAreTold()
    {
        ServiceReport some = report();
        const QString told = u"3.5 (1 to 9)"_s;
        QVERIFY(linesOf(some).contains(told));
        QVERIFY(!linesOf(some).join(u' ').contains(u"patients were seen in this period"_s));
        const qsizetype at = linesOf(some).indexOf(told);
        some.counts->daysToLetter = {};
        QCOMPARE(linesOf(some).value(at), u"letters about fewer than 5 patients"_s);
        some.rows.front().latest = {};
        const QStringList lines = linesOf(some);
        const qsizetype row = lines.indexOf(u"6-minute walk distance (m)"_s);
        QCOMPARE(lines.mid(row + 1, 3), (QStringList{u"44"_s, u"350 (225 to 475)"_s, u"–"_s}));
    }

    void testsOfAFewAreCountedOnce()
    {
        QVERIFY(linesOf(report()).contains(u"1 test with two results of fewer than 5 patients"_s));
    }

    void aPeriodOfNobodyOrAFewSaysSo()
    {
        const QStringList none = linesOf({spring, true, {}, {}});
        QVERIFY(none.contains(u"No visit that counts lies in this period."_s));
        QVERIFY(!none.contains(u"Patients seen"_s));
        const QStringList few = linesOf({spring, false, {}, {}});
        QVERIFY(!few.contains(u"Patients seen"_s));
        QVERIFY(few.join(u' ').contains(u"Fewer than 5 patients were seen in this period"_s));
    }

    void aDemoClinicIsMarked()
    {
        records::Clinic demo = clinic();
        demo.isDemo = true;
        QCOMPARE(pageOf(report(), demo).demoMark, u"DEMO – invented patients"_s);
    }

    void aLongTableRepeatsItsHead()
    {
        ServiceReport full = report();
        full.rows.assign(60, walks());
        const auto bytes = paper::pdf(pageOf(full, clinic()));
        QVERIFY(bytes);
        const QStringList pages = PdfFile(*bytes).pages();
        QVERIFY(pages.size() > 1);
        for (const QString& page : pages)
            QVERIFY(page.contains(u"Service report"_s) && page.contains(u"decide nothing"_s));
        QVERIFY(pages[1].contains(u"Latest"_s));
        QCOMPARE(pages.join(QString()).count(u"6 of 40"_s), 60);
    }
};

HOUSE_TEST(TestServicePage)

} // namespace test_service_page

#include "test_service_page.moc"
