#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

#include <cmath>

using namespace Qt::StringLiterals;

namespace test_change
{

using findings_file::Cells;
using findings_file::walk;
using program::Place;

/// A row of patient T-1 with every condition recorded.
Cells row(const QString& population, const QString& date, const QString& measure, const QString& value,
          const Cells& changed = {})
{
    Cells cells = walk({{u"population"_s, population},
                        {u"date"_s, date},
                        {u"measure"_s, measure},
                        {u"value"_s, value},
                        {u"aid"_s, u"none"_s},
                        {u"orthosis"_s, u"none"_s},
                        {u"footwear"_s, u"own-shoes"_s},
                        {u"assistance"_s, u"none"_s},
                        {u"start"_s, u"moving"_s},
                        {u"distance_m"_s, u"10"_s},
                        {u"medication"_s, u"on"_s}});
    for (const auto& [column, cell] : changed)
        cells[column] = cell;
    return cells;
}

const QString first = u"2024-01-10"_s;
const QString second = u"2024-03-01"_s;

/// Two visits of one measure and what the program says of them.
QJsonObject changed(const QString& population, const QString& measure, const QString& before,
                    const QString& after, const Cells& cellsAfter = {})
{
    const Place place;
    Cells earlier = row(population, first, measure, before);
    Cells now = row(population, second, measure, after, cellsAfter);
    for (Cells* cells : {&earlier, &now}) {
        if ((*cells)[u"value"_s].isEmpty())
            (*cells)[u"state"_s] = u"unable"_s;
    }
    if (place.import({earlier, now}).code != 0)
        return {};
    return place.change(u"T-1"_s, measure, u"previous"_s,
                        now[u"side"_s].isEmpty() ? u"none"_s : now[u"side"_s]);
}

class TestChange : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theCaseloadListsWhoChanged();
    void theSummarySaysWhatIsNew();
    void verdictsFollowThePublishedThresholds_data();
    void verdictsFollowThePublishedThresholds();
    void everyObjectHasEveryField();
    void previousAndBaselineAreHeldApart();
    void theOrderOfImportChangesNothing();
    void aConditionThatDiffersIsNotComparable();
    void aConditionThatWasNotRecordedIsNotComparable();
    void whatCouldNotShowStandsBesideTheVerdict();
    void becomingUnableAndAbleAreEvents();
    void wordsAndGradesHaveNoDifference();
    void withoutAnErrorTheOwnScatterJudges();
    void aReversalIsToldBesideTheTrend();
    void aFirstVisitHasNothingToCompareWith();
    void withoutJsonItIsATableForReading();
    void anUnknownPatientIsAnError();
};

void TestChange::verdictsFollowThePublishedThresholds_data()
{
    QTest::addColumn<QString>("population");
    QTest::addColumn<QString>("measure");
    QTest::addColumn<QString>("before");
    QTest::addColumn<QString>("after");
    QTest::addColumn<double>("threshold");
    QTest::addColumn<QString>("source");
    QTest::addColumn<QString>("verdict");
    const auto add = [](const char* name, const QString& population, const QString& measure,
                        const QString& before, const QString& after, double threshold, const QString& source,
                        const QString& verdict) {
        QTest::newRow(name) << population << measure << before << after << threshold << source << verdict;
    };
    const QString tug = u"timed-up-and-go"_s;
    const QString speed = u"gait-speed-comfortable"_s;
    const QString berg = u"berg-balance"_s;
    // Huang et al. 2011, Phys Ther 91:114: 3.5 s, read, before Steffen & Seney's 11 s from memory.
    add("slower beyond error", u"parkinson"_s, tug, u"12.0"_s, u"15.6"_s, 3.5, u"10.2522/ptj.20090126"_s,
        u"worse"_s);
    add("equal to the threshold", u"parkinson"_s, tug, u"12.0"_s, u"15.5"_s, 3.5, u"Huang"_s,
        u"within-error"_s);
    add("faster beyond error", u"parkinson"_s, tug, u"15.6"_s, u"12.0"_s, 3.5, u"Huang"_s, u"better"_s);
    // Fulk & Echternach 2008: MDC90 0.36 m/s in people without a helper; at 95 % 0.36 · 1.959964 / 1.644854.
    add("0.18 m/s after a stroke", u"stroke-subacute"_s, speed, u"0.62"_s, u"0.80"_s, 0.428966,
        u"Fulk & Echternach"_s, u"within-error"_s);
    add("0.43 m/s after a stroke", u"stroke-subacute"_s, speed, u"0.62"_s, u"1.05"_s, 0.428966,
        u"Fulk & Echternach"_s, u"better"_s);
    // Ries et al. 2009, Phys Ther 89:569: MDC90 4.09 s, from memory, said so.
    add("a value from memory", u"alzheimer"_s, tug, u"12.0"_s, u"15.0"_s, 4.873536, u"from memory"_s,
        u"within-error"_s);
    // 0.23 of the mean of both times (PMID 38924934): 0.23 · 6.5 s.
    add("a timed walk in multiple sclerosis", u"multiple-sclerosis"_s, u"timed-25-foot-walk"_s, u"6.0"_s,
        u"7.0"_s, 1.495, u"38924934"_s, u"within-error"_s);
    // Donoghue & Stokes 2009, J Rehabil Med 41:343: 7 points from 25 to 34, 5 from 35 to 44.
    add("Berg from 34", u"older-adults"_s, berg, u"34"_s, u"28"_s, 7, u"Donoghue & Stokes"_s,
        u"within-error"_s);
    add("Berg from 35", u"older-adults"_s, berg, u"35"_s, u"29"_s, 5, u"Donoghue & Stokes"_s, u"worse"_s);
}

void TestChange::verdictsFollowThePublishedThresholds()
{
    QFETCH(QString, population);
    QFETCH(QString, measure);
    QFETCH(QString, before);
    QFETCH(QString, after);
    QFETCH(double, threshold);
    QFETCH(QString, source);
    QFETCH(QString, verdict);
    const QJsonObject change = changed(population, measure, before, after);
    QCOMPARE(change[u"verdict"_s].toString(), verdict);
    QVERIFY2(std::abs(change[u"threshold"_s].toDouble() - threshold) < 1e-6,
             qPrintable(QString::number(change[u"threshold"_s].toDouble(), 'g', 12)));
    QVERIFY2(change[u"thresholdSource"_s].toString().contains(source),
             qPrintable(change[u"thresholdSource"_s].toString()));
    QVERIFY(!change[u"why"_s].toString().isEmpty());
    QVERIFY(std::abs(change[u"difference"_s].toDouble() - (after.toDouble() - before.toDouble())) < 1e-9);
}

void TestChange::everyObjectHasEveryField()
{
    const QJsonObject change = changed(u"parkinson"_s, u"timed-up-and-go"_s, u"12.0"_s, u"15.6"_s);
    QStringList keys = {u"measure"_s,
                        u"side"_s,
                        u"date"_s,
                        u"value"_s,
                        u"unit"_s,
                        u"against"_s,
                        u"againstDate"_s,
                        u"againstValue"_s,
                        u"difference"_s,
                        u"threshold"_s,
                        u"thresholdSource"_s,
                        u"verdict"_s,
                        u"why"_s,
                        u"cannotShow"_s,
                        u"state"_s,
                        u"againstState"_s,
                        u"visit"_s,
                        u"againstVisit"_s,
                        u"strength"_s,
                        u"z"_s,
                        u"probabilityBeyondZero"_s,
                        u"probabilityBeyondImportant"_s,
                        u"runStart"_s,
                        u"trend"_s,
                        u"reversal"_s,
                        u"tier"_s,
                        u"steps"_s,
                        u"ownScatter"_s,
                        u"rule"_s};
    keys.sort();
    QCOMPARE(change.keys(), keys);
    QCOMPARE(change[u"unit"_s].toString(), u"s"_s);
    QCOMPARE(change[u"side"_s].toString(), u"none"_s);
    QCOMPARE(change[u"date"_s].toString(), second);
    QCOMPARE(change[u"againstDate"_s].toString(), first);
    QCOMPARE(change[u"value"_s].toDouble(), 15.6);
    QCOMPARE(change[u"againstValue"_s].toDouble(), 12.0);
    QCOMPARE(change[u"difference"_s].toDouble(), 3.6);
    QCOMPARE(change[u"visit"_s].toString(), u"signed"_s);
    QCOMPARE(change[u"againstVisit"_s].toString(), u"signed"_s);
}

void TestChange::previousAndBaselineAreHeldApart()
{
    const Place place;
    const QString measure = u"timed-up-and-go"_s;
    QCOMPARE(place
                 .import({row(u"parkinson"_s, first, measure, u"12"_s),
                          row(u"parkinson"_s, second, measure, u"14"_s),
                          row(u"parkinson"_s, u"2024-05-01"_s, measure, u"16"_s)})
                 .code,
             0);
    QCOMPARE(place.changes(u"T-1"_s).size(), 2);
    QCOMPARE(place.change(u"T-1"_s, measure, u"previous"_s)[u"verdict"_s].toString(), u"within-error"_s);
    const QJsonObject baseline = place.change(u"T-1"_s, measure, u"baseline"_s);
    QCOMPARE(baseline[u"againstDate"_s].toString(), first);
    QCOMPARE(baseline[u"verdict"_s].toString(), u"worse"_s);
}

void TestChange::theOrderOfImportChangesNothing()
{
    const QString tug = u"timed-up-and-go"_s;
    std::vector<Cells> rows;
    for (const auto& [date, seconds] :
         {std::pair(u"2024-01-10"_s, u"12.0"_s), std::pair(u"2024-03-01"_s, u"15.7"_s),
          std::pair(u"2024-05-01"_s, u"15.8"_s), std::pair(u"2024-07-01"_s, u"16.1"_s)})
        rows.push_back(row(u"parkinson"_s, date, tug, seconds));
    const Place together;
    QCOMPARE(together.import(rows).code, 0);
    const Place apart;
    for (const size_t next : {size_t(2), size_t(0), size_t(3), size_t(1)})
        QCOMPARE(apart.import({rows[next]}).code, 0);
    for (const QString& against : {u"previous"_s, u"baseline"_s}) {
        const QJsonObject change = together.change(u"T-1"_s, tug, against);
        QVERIFY(!change.isEmpty());
        QCOMPARE(apart.change(u"T-1"_s, tug, against), change);
    }
    const QJsonObject baseline = together.change(u"T-1"_s, tug, u"baseline"_s);
    // Huang et al. 2011: 3.5 s. Beyond it at three visits running, over more than the interval.
    QCOMPARE(baseline[u"strength"_s].toString(), u"confirmed"_s);
    QCOMPARE(baseline[u"rule"_s][u"name"_s].toString(), u"confirmed"_s);
    QVERIFY(baseline[u"rule"_s][u"falseFlagRate"_s].toDouble() < 0.05);
    QCOMPARE(baseline[u"runStart"_s].toString(), u"2024-01-10"_s);
    QCOMPARE(baseline[u"trend"_s][u"n"_s].toInt(), 4);
    QVERIFY(std::abs(baseline[u"trend"_s][u"p"_s].toDouble() - 1.0 / 12) < 1e-9);
    QVERIFY(std::abs(baseline[u"z"_s].toDouble() - 4.1 / (3.5 / 1.959964)) < 0.05);
}

void TestChange::aConditionThatDiffersIsNotComparable()
{
    const QJsonObject change =
        changed(u"parkinson"_s, u"timed-up-and-go"_s, u"12"_s, u"18"_s, {{u"aid"_s, u"stick"_s}});
    QCOMPARE(change[u"verdict"_s].toString(), u"not-comparable"_s);
    QVERIFY2(change[u"why"_s].toString().contains(u"aid"_s, Qt::CaseInsensitive),
             qPrintable(change[u"why"_s].toString()));
    QVERIFY(change[u"threshold"_s].isNull());
}

/// Steffen & Seney 2008, Phys Ther 88:733: 5 points on the Berg scale of 56.
void TestChange::whatCouldNotShowStandsBesideTheVerdict()
{
    const QJsonObject near = changed(u"parkinson"_s, u"berg-balance"_s, u"54"_s, u"55"_s);
    QCOMPARE(near[u"verdict"_s].toString(), u"within-error"_s);
    QCOMPARE(near[u"cannotShow"_s].toArray(), QJsonArray{u"better"_s});
    const QJsonObject low = changed(u"parkinson"_s, u"berg-balance"_s, u"3"_s, u"4"_s);
    QCOMPARE(low[u"cannotShow"_s].toArray(), QJsonArray{u"worse"_s});
    const QJsonObject middle = changed(u"parkinson"_s, u"berg-balance"_s, u"30"_s, u"31"_s);
    QCOMPARE(middle[u"cannotShow"_s].toArray(), QJsonArray());
}

void TestChange::aConditionThatWasNotRecordedIsNotComparable()
{
    const QJsonObject change =
        changed(u"parkinson"_s, u"timed-up-and-go"_s, u"12"_s, u"18"_s, {{u"footwear"_s, u""_s}});
    QCOMPARE(change[u"verdict"_s].toString(), u"not-comparable"_s);
    QVERIFY2(change[u"why"_s].toString().contains(u"not recorded"_s),
             qPrintable(change[u"why"_s].toString()));
}

void TestChange::becomingUnableAndAbleAreEvents()
{
    const QJsonObject unable = changed(u"parkinson"_s, u"timed-up-and-go"_s, u"12"_s, u""_s);
    QCOMPARE(unable[u"verdict"_s].toString(), u"became-unable"_s);
    QVERIFY(unable[u"value"_s].isNull());
    QCOMPARE(unable[u"state"_s].toString(), u"unable"_s);
    QVERIFY(unable[u"difference"_s].isNull());
    QVERIFY(unable[u"threshold"_s].isNull());
    const QJsonObject able = changed(u"parkinson"_s, u"timed-up-and-go"_s, u""_s, u"12"_s);
    QCOMPARE(able[u"verdict"_s].toString(), u"became-able"_s);
    QCOMPARE(able[u"againstState"_s].toString(), u"unable"_s);
    QVERIFY(able[u"againstValue"_s].isNull());
}

void TestChange::wordsAndGradesHaveNoDifference()
{
    const QJsonObject word = changed(u"other"_s, u"romberg-sign"_s, u"negative"_s, u"positive"_s);
    QCOMPARE(word[u"value"_s].toString(), u"positive"_s);
    QCOMPARE(word[u"againstValue"_s].toString(), u"negative"_s);
    QVERIFY(word[u"difference"_s].isNull());
    QCOMPARE(word[u"verdict"_s].toString(), u"changed"_s);
    QCOMPARE(word[u"tier"_s].toString(), u"direction"_s);
    QVERIFY(word[u"steps"_s].isNull());
    const QJsonObject grade = changed(u"other"_s, u"sit-to-stand-observed"_s, u"1"_s, u"2"_s);
    QCOMPARE(grade[u"value"_s].toDouble(), 2.0);
    QVERIFY(grade[u"difference"_s].isNull());
    QCOMPARE(grade[u"verdict"_s].toString(), u"step-worse"_s);
    QCOMPARE(grade[u"steps"_s].toInt(), 1);
    QCOMPARE(grade[u"strength"_s].toString(), u"seen-once"_s);
    QCOMPARE(grade[u"unit"_s].toString(), QString());
}

/// Cerebellar ataxia, for which no error is published: after four earlier visits the patient's own scatter
/// judges.
void TestChange::withoutAnErrorTheOwnScatterJudges()
{
    const Place place;
    std::vector<Cells> rows;
    int month = 0;
    for (const auto* points : {"12", "12.5", "12", "11.5", "12", "12.5", "20"})
        rows.push_back(row(u"cerebellar-ataxia"_s, u"2024-0%1-10"_s.arg(++month), u"sara"_s,
                           QString::fromLatin1(points)));
    QCOMPARE(place.import(rows).code, 0);
    const QJsonObject change = place.change(u"T-1"_s, u"sara"_s, u"baseline"_s);
    QCOMPARE(change[u"tier"_s].toString(), u"own-scatter"_s);
    QCOMPARE(change[u"verdict"_s].toString(), u"worse"_s);
    QCOMPARE(change[u"strength"_s].toString(), u"seen-once"_s);
    QCOMPARE(change[u"ownScatter"_s][u"visits"_s].toInt(), 6);
    QVERIFY(change[u"ownScatter"_s][u"t"_s].toDouble() > change[u"ownScatter"_s][u"limit"_s].toDouble());
    QCOMPARE(change[u"rule"_s][u"name"_s].toString(), u"own-scatter"_s);
    QVERIFY(change[u"rule"_s][u"falseFlagRate"_s].toDouble() <= 0.05);
    QVERIFY(change[u"threshold"_s].isNull());
}

/// Berg, Parkinson, in quarters of a year: better than the first visit, and far below the best.
void TestChange::aReversalIsToldBesideTheTrend()
{
    const Place place;
    std::vector<Cells> rows;
    QDate day(2023, 1, 10);
    for (const auto* points : {"30", "34", "38", "42", "46", "46", "34", "30"}) {
        rows.push_back(
            row(u"parkinson"_s, day.toString(Qt::ISODate), u"berg-balance"_s, QString::fromLatin1(points)));
        day = day.addDays(91);
    }
    QCOMPARE(place.import(rows).code, 0);
    const QJsonObject change = place.change(u"T-1"_s, u"berg-balance"_s, u"baseline"_s);
    const QJsonObject reversal = change[u"reversal"_s].toObject();
    QCOMPARE(reversal[u"direction"_s].toString(), u"worse"_s);
    QVERIFY(reversal[u"z"_s].toDouble() < -reversal[u"bound"_s].toDouble());
    QCOMPARE(reversal[u"day"_s].toString(), day.addDays(-91).toString(Qt::ISODate));
    QCOMPARE(reversal[u"strength"_s].toString(), u"trend-seen-once"_s);
}

void TestChange::aFirstVisitHasNothingToCompareWith()
{
    const Place place;
    QCOMPARE(place.import({walk()}).code, 0);
    const program::Outcome shown =
        program::run({u"change"_s, place.records, u"--patient"_s, u"T-1"_s, u"--json"_s});
    QCOMPARE(shown.code, 0);
    QCOMPARE(shown.out, u"[\n]\n"_s);
}

void TestChange::withoutJsonItIsATableForReading()
{
    const Place place;
    QCOMPARE(place
                 .import({row(u"parkinson"_s, first, u"timed-up-and-go"_s, u"12"_s),
                          row(u"parkinson"_s, second, u"timed-up-and-go"_s, u"16"_s)})
                 .code,
             0);
    for (const QStringList& whose : {QStringList{u"--patient"_s, u"T-1"_s}, QStringList{u"--all"_s}}) {
        const program::Outcome shown = program::run(QStringList{u"change"_s, place.records} + whose);
        QCOMPARE(shown.code, 0);
        QVERIFY(shown.out.startsWith(u"AALTJE, Borre · born 04-Mar-1951 "_s));
        QVERIFY2(shown.out.contains(u"worse beyond error"_s), qPrintable(shown.out));
        QVERIFY2(shown.out.contains(u"Strength"_s) &&
                     shown.out.contains(u"seen once, confirmed if still so"_s),
                 qPrintable(shown.out));
        QCOMPARE(shown.err, QString());
    }
}

void TestChange::anUnknownPatientIsAnError()
{
    const Place place;
    QCOMPARE(place.import({walk()}).code, 0);
    const program::Outcome shown =
        program::run({u"change"_s, place.records, u"--patient"_s, u"T-7"_s, u"--json"_s});
    QCOMPARE(shown.code, 1);
    QCOMPARE(shown.out, QString());
    QCOMPARE(shown.err, u"No patient in these records has that record number.\n"_s);
}

/// `aplomb summary` in words and as data; two walks, the later beyond its limit.
void TestChange::theSummarySaysWhatIsNew()
{
    const Place place;
    const QString speed = u"gait-speed-comfortable"_s;
    QCOMPARE(place
                 .import({row(u"parkinson"_s, first, speed, u"1.20"_s),
                          row(u"parkinson"_s, second, speed, u"0.70"_s)})
                 .code,
             0);
    const program::Outcome said =
        program::run({u"summary"_s, place.records, u"--patient"_s, u"T-1"_s, u"--json"_s});
    QCOMPARE(said.code, 0);
    const QJsonObject whole = QJsonDocument::fromJson(said.out.toUtf8()).object();
    QCOMPARE(whole[u"visit"_s].toString(), second);
    const QJsonArray lines = whole[u"lines"_s].toArray();
    QCOMPARE(lines.size(), 1);
    const QJsonObject line = lines.first().toObject();
    QCOMPARE(line[u"kind"_s].toString(), u"worse"_s);
    QCOMPARE(line[u"measures"_s].toArray(), (QJsonArray{speed}));
    QCOMPARE(line[u"since"_s].toString(), second);
    QCOMPARE(line[u"text"_s].toString(),
             u"Worse: Seen once: Gait speed: comfortable pace: 1.20 → 0.70 m/s"_s);

    const program::Outcome words = program::run({u"summary"_s, place.records, u"--patient"_s, u"T-1"_s});
    QVERIFY2(words.out.contains(line[u"text"_s].toString()), qPrintable(words.out));
    QCOMPARE(program::run({u"summary"_s, place.records, u"--patient"_s, u"T-9"_s}).code, 1);
    QCOMPARE(program::run({u"summary"_s, place.records}).code, 2);
}

/// `aplomb caseload`: who is worse first; nothing where nothing changed; the second time from what is kept or
/// not, the same.
void TestChange::theCaseloadListsWhoChanged()
{
    const Place place;
    const QString speed = u"gait-speed-comfortable"_s;
    const Cells other = {{u"patient"_s, u"T-2"_s}, {u"family"_s, u"Aberle"_s}};
    QCOMPARE(place
                 .import({row(u"parkinson"_s, first, speed, u"1.20"_s),
                          row(u"parkinson"_s, second, speed, u"0.70"_s),
                          row(u"parkinson"_s, first, speed, u"1.20"_s, other),
                          row(u"parkinson"_s, second, speed, u"1.21"_s, other)})
                 .code,
             0);
    const auto listed = [&] { return program::run({u"caseload"_s, place.records, u"--json"_s}); };
    const QJsonArray all = QJsonDocument::fromJson(listed().out.toUtf8()).array();
    QCOMPARE(all.size(), 2);
    const QJsonObject worse = all[0].toObject();
    QCOMPARE(worse[u"patient"_s].toString(), u"T-1"_s);
    QCOMPARE(worse[u"lastVisit"_s].toString(), second);
    QVERIFY(worse[u"due"_s].isNull());
    QCOMPARE(worse[u"flags"_s].toInt(), 1);
    QVERIFY(std::abs(worse[u"expectedFalseFlags"_s].toDouble() - 0.05) < 1e-9);
    const QJsonObject strongest = worse[u"strongest"_s].toObject();
    QCOMPARE(strongest[u"measure"_s].toString(), speed);
    QCOMPARE(strongest[u"verdict"_s].toString(), u"worse"_s);
    QCOMPARE(strongest[u"strength"_s].toString(), u"seen-once"_s);
    QCOMPARE(strongest[u"since"_s].toString(), second);
    QVERIFY(all[1].toObject()[u"strongest"_s].isNull());
    QVERIFY(!worse[u"asOf"_s].toString().isEmpty());

    const program::Outcome words = program::run({u"caseload"_s, place.records});
    QVERIFY2(words.out.startsWith(u"T-1 · "_s), qPrintable(words.out));
    QVERIFY2(words.out.contains(u"worse, seen once: Gait speed: comfortable pace"_s), qPrintable(words.out));
}

HOUSE_TEST(TestChange)

} // namespace test_change

#include "test_change.moc"
