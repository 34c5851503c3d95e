#include "app/own/own_error.h"

#include "app/own/own_edits.h"
#include "app/own/own_error_report.h"
#include "app/own/own_error_words.h"
#include "app/own/threshold_draft.h"
#include "core/paper/pages.h"
#include "core/telling/row_words.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <cmath>

using namespace Qt::StringLiterals;

namespace test_own_error
{

using clinic_desk::book;
using own::OwnError;
using own::StudySource;

OwnError of(const statistics::Repeats& repeats, bool isLog = false,
            const QString& measure = u"nine-hole-peg"_s)
{
    OwnError error;
    error.source = StudySource::MarkedVisits;
    error.population = *book().population(u"stroke-chronic"_s);
    error.results.fewestDays = 5;
    error.results.mostDays = 14;
    error.measure = *book().measure(measure);
    error.side = error.measure.hasSides ? records::Side::Right : records::Side::None;
    error.results.repeats = repeats;
    error.results.leftOut = 3;
    error.results.from = QDate(2026, 1, 12);
    error.results.to = QDate(2026, 3, 3);
    error.isLog = isLog;
    return own::worked(error);
}

/// Data set A of Weir 2005, J Strength Cond Res 19:231-40.
statistics::Repeats weir()
{
    return {{146, 140}, {148, 152}, {170, 152}, {90, 99}, {157, 145}, {156, 153}, {176, 167}, {205, 218}};
}

/// Invented; the error grows with the level.
statistics::Repeats growing(int people)
{
    statistics::Repeats repeats;
    for (int person = 0; person < people; ++person) {
        const double level = 15 + 2 * person;
        repeats.push_back({level, level * (person % 2 == 0 ? 1.08 : 0.94)});
    }
    return repeats;
}

QString shown(const OwnError& error, const QString& name)
{
    for (const own::StudyRow& row : own::studyRows(error)) {
        if (row.name.startsWith(name))
            return row.value;
    }
    return {};
}

const records::Clinic clinic{u"Clinic of Invented Vale"_s, {}, {}, true};
const QDate day(2026, 3, 12);

class TestOwnError : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// SEM 7.6 as Weir prints it; the rest follows from his mean squares (tests/app/console).
    void weirsExampleIsShown()
    {
        const OwnError error = of(weir());
        QCOMPARE(shown(error, u"SEM"_s), u"7.557"_s);
        QCOMPARE(shown(error, u"MDC95"_s), u"20.946"_s);
        QCOMPARE(shown(error, u"ICC(1,1)"_s), u"0.950"_s);
        QCOMPARE(shown(error, u"ICC(3,1)"_s), u"0.947"_s);
        QCOMPARE(shown(error, u"People"_s), u"8"_s);
        QCOMPARE(shown(error, u"Left out"_s), u"3"_s);
        QCOMPARE(shown(error, u"Mean of trial 1"_s), u"156.000"_s);
        QCOMPARE(shown(error, u"Bias"_s), u"2.750"_s);
    }

    void fewPeopleAreCalledFew()
    {
        QVERIFY(!own::mayStandIn(of(weir())));
        QVERIFY(own::studyRemarks(of(weir())).last().startsWith(u"Fewer than 20 people"_s));
        QVERIFY(!own::mayStandIn(of(growing(19))));
        QVERIFY(own::mayStandIn(of(growing(20))));
    }

    /// What differs within an hour says nothing of what differs from one month to the next.
    void repeatsWithinOneSessionMakeNoThreshold()
    {
        OwnError within = of(growing(24));
        within.source = StudySource::Trials;
        QVERIFY(within.study);
        QVERIFY(!own::mayStandIn(within));
        QVERIFY(own::sourceLine(within).startsWith(u"Within-session repeats"_s));
        QVERIFY(own::studyRemarks(within).last().startsWith(u"Within-session repeats"_s));
    }

    void peopleOfEveryPopulationMakeNoThreshold()
    {
        OwnError mixed = of(growing(24));
        mixed.population = {};
        QVERIFY(!own::mayStandIn(mixed));
        QVERIFY(own::sourceLine(mixed).contains(u"people of every population"_s));
        QVERIFY(own::studyRemarks(mixed).last().contains(u"choose one for a threshold"_s));
    }

    /// Nobody said of a file who the people were, how many days lay between, or what was expected of them.
    void ofAFileNothingIsFilledIn()
    {
        OwnError file = of(growing(24));
        file.source = StudySource::File;
        file.population = {};
        file.file = u"pegs.csv"_s;
        QVERIFY(own::mayStandIn(file));
        const catalogue::Threshold row = own::asThreshold(file, clinic, day).first;
        QCOMPARE(row.population, QString());
        QCOMPARE(row.populationWords, QString());
        QCOMPARE(row.interval, QString());
        QVERIFY(!row.daysLow && !row.daysHigh);
    }

    /// Words on the screen's language decide nothing: days and kind of interval are typed.
    void ofMarkedVisitsTheIntervalIsTyped()
    {
        OwnError marked = of(growing(24));
        marked.source = StudySource::MarkedVisits;
        marked.results.fewestDays = 1;
        marked.results.mostDays = 9;
        const catalogue::Threshold row = own::asThreshold(marked, clinic, day).first;
        QVERIFY(row.repeats == catalogue::Repeats::BetweenDays);
        QCOMPARE(row.daysLow, 1.0);
        QCOMPARE(row.daysHigh, 9.0);
        QCOMPARE(row.interval, QString());
        QCOMPARE(telling::intervalWords(row, {}), u"1 to 9 days"_s);
    }

    void anIntervalThatIsNotDefinedIsSaid()
    {
        const OwnError odd = of({{3, 3}, {5, 0}});
        const auto rows = own::studyRows(odd);
        const auto agreement = std::ranges::find(rows, u"ICC(2,1)"_s, &own::StudyRow::name);
        QVERIFY(agreement != rows.end());
        QCOMPARE(agreement->interval, u"not defined"_s);
        QVERIFY(!own::tableHtml(odd).contains(u"nan"_s));
    }

    void valuesOfAnotherMeasureMakeNoThreshold()
    {
        auto repeats = growing(24);
        QVERIFY(own::mayStandIn(of(repeats)));
        repeats.back() = {301, 290}; // the peg test ends at 300 s
        QVERIFY(!own::mayStandIn(of(repeats)));
        QVERIFY(own::studyRemarks(of(repeats)).last().contains(u"another test or unit"_s));
    }

    void growthOffersTheLogScale()
    {
        const OwnError measured = of(growing(24));
        QVERIFY(measured.grows && measured.mayLog);
        QVERIFY(own::studyRemarks(measured).first().contains(u"The error grows with the level"_s));

        const OwnError onLogs = of(growing(24), true);
        QVERIFY(onLogs.isLog);
        const QString ratio = QString::number(std::exp(onLogs.study->mdc95.value), 'f', 3);
        QVERIFY(own::studyRemarks(onLogs).join(u' ').contains(u"more than %1 times"_s.arg(ratio)));
    }

    void withoutLogarithmsTheScaleStays()
    {
        auto repeats = growing(24);
        repeats.front() = {0, 0.1};
        const OwnError error = of(repeats, true);
        QVERIFY(!error.isLog);
        QVERIFY(error.study);
    }

    void whatMakesNoStudyIsSaid()
    {
        OwnError none = of({});
        none.source = StudySource::Trials;
        QVERIFY(!none.study);
        QVERIFY(own::whyNone(none).contains(u"two or more trials"_s));
        none.source = StudySource::MarkedVisits;
        QVERIFY(own::whyNone(none).contains(u"No change expected"_s));
        QVERIFY(own::whyNone(of({{2, 2}, {2, 2}})).contains(u"values that differ"_s));
        QVERIFY(own::agreementPoints(none).points.empty());
    }

    void thePlotHoldsDifferencesAgainstMeans()
    {
        const auto plot = own::agreementPoints(of(weir()));
        QCOMPARE(plot.points.size(), size_t(8));
        QCOMPARE(plot.points.front(), QPointF(143, 6));
        QCOMPARE(plot.middle, 2.75);
        QVERIFY(*plot.lower < plot.middle && plot.middle < *plot.upper);
        QVERIFY(plot.spoken.contains(u"8 people"_s));

        const auto three = own::agreementPoints(of({{1, 2, 3}, {4, 4, 7}}));
        QCOMPARE(three.points.size(), size_t(6));
        QCOMPARE(three.points.front(), QPointF(2, -1));
        QVERIFY(!three.lower);
    }

    void theThresholdIsOneOfTheClinicsOwn_data()
    {
        QTest::addColumn<bool>("isLog");
        QTest::newRow("as measured") << false;
        QTest::newRow("on the log scale") << true;
    }

    /// What the editor and the reader of catalogues ask of a threshold.
    void theThresholdIsOneOfTheClinicsOwn()
    {
        QFETCH(bool, isLog);
        const OwnError error = of(growing(24), isLog);
        const auto [row, source] = own::asThreshold(error, clinic, day);
        const auto draft = own::newThreshold(row, source);
        QVERIFY(draft.isNew);
        const auto check = own::checked(draft, book(), {});
        QVERIFY(check.wrong.empty());

        const auto own = own::with({}, check.row, check.source, book());
        const auto read = catalogue::ownFrom(catalogue::written(own), u"own"_s, book());
        QVERIFY2(read, read ? "" : qPrintable(read.error().what.english()));
        const catalogue::Threshold& kept = read->thresholds.front();
        QCOMPARE(kept.scale, isLog ? catalogue::Scale::Log : catalogue::Scale::Absolute);
        QVERIFY(std::abs(kept.improvement / error.study->mdc95.value - 1) < 1e-3);
        QCOMPARE(kept.n, std::optional(24));
        QCOMPARE(kept.population, u"stroke-chronic"_s);
        QCOMPARE(kept.daysLow, std::optional(5.0));
        QCOMPARE(kept.daysHigh, std::optional(14.0));
        QVERIFY(read->sources.front().reference.contains(u"Clinic of Invented Vale, own error study"_s));
    }

    void theReportIsOnePage_data()
    {
        QTest::addColumn<statistics::Repeats>("repeats");
        QTest::addColumn<bool>("isLog");
        QTest::newRow("two trials") << growing(24) << false;
        QTest::newRow("two trials on the log scale") << growing(12) << true;
        QTest::newRow("ten trials") << statistics::Repeats{{1, 2, 3, 4, 5, 6, 7, 8, 9, 10},
                                                           {2, 2, 3, 5, 5, 6, 7, 9, 9, 11}}
                                    << false;
    }

    void theReportIsOnePage()
    {
        QFETCH(statistics::Repeats, repeats);
        QFETCH(bool, isLog);
        const OwnError error = of(repeats, isLog);
        const auto pdf = paper::pdf(own::report(error, clinic, day));
        QVERIFY(pdf);
        const QStringList pages = PdfFile(*pdf).pages();
        QCOMPARE(pages.size(), 1);
        const QString page = pages.first().simplified();
        for (const QString& words :
             {u"Clinic of Invented Vale"_s, error.measure.title, u"12-Jan-2026 to 03-Mar-2026"_s,
              u"right side"_s, u"Shrout & Fleiss 1979"_s, u"McGraw & Wong 1996"_s, u"Weir 2005"_s,
              u"Bland & Altman 1986"_s, u"Bland & Altman 1999"_s, u"This report decides nothing."_s,
              u"Page 1 of 1"_s, u"DEMO"_s, shown(error, u"MDC95"_s), shown(error, u"ICC(2,1)"_s)})
            QVERIFY2(page.contains(words), qPrintable(words + u" is not in: "_s + page));
    }
};

HOUSE_TEST(TestOwnError)

} // namespace test_own_error

#include "test_own_error.moc"
