#include "core/catalogue/reader.h"

#include "tests/support/test_support.h"

#include <QDir>
#include <QTemporaryDir>

using namespace Qt::StringLiterals;

namespace test_reader
{

/// A copy of the shipped catalogue's smallest sound part, to be broken one line at a time.
class Folder
{
public:
    Folder()
    {
        write(u"sections.json"_s, R"([{"id": "balance", "title": "Balance"}])");
        write(u"conditions.json"_s, R"([
            {"id": "footwear", "title": "Footwear", "kind": "open", "options": [{"key": "socks", "title": "Socks"}]},
            {"id": "medication", "title": "Medication", "kind": "open", "options": [{"key": "on", "title": "On"}]},
            {"id": "foam", "title": "Foam", "kind": "open", "ofTest": true},
            {"id": "stable", "title": "Stable", "kind": "open", "ofOneVisit": true},
            {"id": "height", "title": "Height", "kind": "number", "unit": "cm", "lowest": 20, "highest": 80}])");
        write(u"populations.json"_s, R"([{"id": "wide", "title": "Wide"},
            {"id": "narrow", "title": "Narrow", "broader": "wide"}])");
        write(u"sources.json"_s, R"([{"id": "paper", "reference": "Paper 2001", "shortForm": "Paper"}])");
        write(u"measures/balance.json"_s, measures());
        write(u"thresholds/balance.csv"_s, thresholds());
        write(u"forms/form.json"_s,
              R"([{"id": "all", "title": "All",
 "sections": [{"title": "Balance", "measures": ["stance", "sign", "sway"]}], "expected": ["stance"]}])");
    }

    static QByteArray measures()
    {
        return R"([
{"id": "stance", "title": "Stance", "section": "balance", "kind": "duration", "unit": "s", "sides": true,
 "better": "higher", "lowest": 0, "highest": 60, "step": 0.1, "cap": 60, "trials": 2, "rule": "mean",
 "watchFor": ["arms"], "how": "Stand.", "unableMeans": "Falls.", "caution": "Stay near.",
 "purpose": "To see.", "position": "Standing.", "equipment": "A clock.",
 "conditions": {"hard": ["footwear"], "ifEither": ["foam"], "hardFor": {"narrow": ["medication"]}}},
{"id": "sign", "title": "Sign", "section": "balance", "kind": "choice", "sides": false,
 "options": [{"key": "yes", "title": "Yes"}, {"key": "no", "title": "No"}], "purpose": "To see.", "how": "Look.", "position": "Seated.", "unableMeans": "Cannot."},
{"id": "sway", "title": "Sway", "section": "balance", "kind": "grade", "sides": false, "better": "lower",
 "lowest": 0, "highest": 2, "step": 1, "steps": ["none", "some", "much"], "purpose": "To see.", "how": "Look.", "position": "Seated.", "unableMeans": "Cannot."}
])";
    }

    static QByteArray thresholds()
    {
        return "id,measure,population,populationWords,answers,scale,improvement,decline,confidence,"
               "confidenceBasis,"
               "bandOf,bandLow,bandHigh,bandHighIncluded,sem,icc,n,repeats,interval,daysLow,daysHigh,rule,"
               "trials,"
               "protocol,design,"
               "hand,condition,source,checked,note\n"
               "a,stance,narrow,\"people, "
               "few\",error,absolute,2.5,3,0.95,stated,stance,0,10,yes,0.9,0.95,29,between-days,7 days,"
               "7,7,best,2,,test-retest,dominant,medication=on,paper,memory,Small.\n";
    }

    void write(const QString& file, const QByteArray& content) const
    {
        const QString path = m_folder.filePath(file);
        QDir().mkpath(QFileInfo(path).path());
        QFile opened(path);
        if (opened.open(QIODevice::WriteOnly))
            opened.write(content);
    }

    QString path() const { return m_folder.path(); }

private:
    QTemporaryDir m_folder;
};

QString faultIn(const Folder& folder)
{
    const auto read = catalogue::readCatalogue(folder.path());
    return read ? QString() : read.error().what.english();
}

class ReaderTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldArrives();
    void aBrokenMeasureIsRefusedWithFileIdAndField_data();
    void aBrokenMeasureIsRefusedWithFileIdAndField();
    void aBrokenThresholdIsRefusedWithLineIdAndField_data();
    void aBrokenThresholdIsRefusedWithLineIdAndField();
    void aBrokenFileIsRefused_data();
    void aBrokenFileIsRefused();
    void aMissingFileIsRefused();
    void measuresFollowTheOrderOfTheSections();
    void nothingStandsOnWhatIsComputedTwice();
};

void ReaderTest::everyFieldArrives()
{
    const Folder folder;
    const auto read = catalogue::readCatalogue(folder.path());
    QVERIFY2(read, qPrintable(faultIn(folder)));

    const catalogue::Measure& stance = *read->measure(u"stance"_s);
    QCOMPARE(stance.unit, values::Unit::Second);
    QCOMPARE(stance.better, catalogue::Direction::HigherIsBetter);
    QCOMPARE(stance.trials, 2);
    QCOMPARE(stance.rule, catalogue::TrialRule::Mean);
    QCOMPARE(stance.cap, 60.0);
    QCOMPARE(stance.step, 0.1);
    QVERIFY(stance.hasSides);
    QCOMPARE(stance.watchFor, (std::vector<catalogue::Option>{{u"arms"_s, u"arms"_s}}));
    const std::vector<catalogue::ConditionRule> rules = {
        {u"footwear"_s, catalogue::Strictness::Hard, {}},
        {u"foam"_s, catalogue::Strictness::IfEither, {}},
        {u"medication"_s, catalogue::Strictness::Hard, u"narrow"_s}};
    QCOMPARE(stance.conditions, rules);
    QCOMPARE(stance.purpose, u"To see."_s);
    QCOMPARE(stance.position, u"Standing."_s);
    QCOMPARE(stance.equipment, u"A clock."_s);

    QCOMPARE(read->measure(u"sign"_s)->options.at(1), (catalogue::Option{u"no"_s, u"No"_s}));
    QCOMPARE(read->measure(u"sway"_s)->options.at(2), (catalogue::Option{u"2"_s, u"much"_s}));

    const catalogue::Condition& height = *read->condition(u"height"_s);
    QVERIFY(height.isNumber);
    QCOMPARE(height.unit, values::Unit::Centimetre);
    QCOMPARE(height.highest, 80.0);
    QVERIFY(!read->condition(u"footwear"_s)->isClosed);
    QVERIFY(!read->condition(u"footwear"_s)->isOfTest);
    QVERIFY(read->condition(u"foam"_s)->isOfTest);
    QVERIFY(read->condition(u"foam"_s)->options.empty());
    QVERIFY(!read->condition(u"footwear"_s)->isOfOneVisit);
    QVERIFY(read->condition(u"stable"_s)->isOfOneVisit);

    QCOMPARE(read->thresholds.size(), size_t(1));
    const catalogue::Threshold& row = read->thresholds.front();
    QCOMPARE(row.populationWords, u"people, few"_s);
    QCOMPARE(row.improvement, 2.5);
    QCOMPARE(row.decline, 3.0);
    QCOMPARE(row.confidence, 0.95);
    QCOMPARE(row.bandHigh, 10.0);
    QVERIFY(row.bandHighIncluded);
    QCOMPARE(row.sem, 0.9);
    QCOMPARE(row.icc, 0.95);
    QCOMPARE(row.n, 29);
    QVERIFY(row.repeats == catalogue::Repeats::BetweenDays);
    QCOMPARE(row.interval, u"7 days"_s);
    QVERIFY(row.rule == catalogue::TrialRule::Best);
    QCOMPARE(row.trials, 2);
    QCOMPARE(row.hand, u"dominant"_s);
    QCOMPARE(catalogue::written(row.condition), u"medication=on"_s);
    QCOMPARE(row.checked, catalogue::Checked::Memory);
    QVERIFY(read->isWithin(u"narrow"_s, u"wide"_s));
    QVERIFY(!read->isWithin(u"wide"_s, u"narrow"_s));
}

void ReaderTest::aBrokenMeasureIsRefusedWithFileIdAndField_data()
{
    QTest::addColumn<QByteArray>("before");
    QTest::addColumn<QByteArray>("after");
    QTest::addColumn<QString>("fault");
    const auto row = [](const char* name, const char* before, const char* after, const QString& fault) {
        QTest::newRow(name) << QByteArray(before) << QByteArray(after)
                            << u"measures/balance.json: stance: "_s + fault + u'.';
    };
    row("unknown unit", R"("unit": "s")", R"("unit": "sec")", u"unknown unit “sec”"_s);
    row("wrong type", R"("lowest": 0, "highest": 60)", R"("lowest": "0", "highest": 60)",
        u"“lowest” is not a number"_s);
    row("missing field", R"("title": "Stance", )", "", u"“title” is missing"_s);
    row("unknown field", R"("trials": 2)", R"("trials": 2, "trails": 2)", u"unknown field “trails”"_s);
    row("empty text", R"("how": "Stand.")", R"("how": " ")", u"“how” is empty"_s);
    row("unknown section", R"("section": "balance", "kind": "duration")",
        R"("section": "legs", "kind": "duration")", u"unknown section “legs”"_s);
    row("unknown kind", R"("kind": "duration")", R"("kind": "time")",
        u"“kind” is “time” but may only be grade, choice, count, duration, distance, speed, rate, score"_s);
    row("unknown direction", R"("better": "higher")", R"("better": "up")",
        u"“better” is “up” but may only be higher, lower, neither"_s);
    row("no direction", R"("better": "higher", )", "", u"“better” is missing"_s);
    row("no purpose", R"("purpose": "To see.", )", "", u"“purpose” is missing"_s);
    row("no position", R"("position": "Standing.", )", "", u"“position” is missing"_s);
    row("unknown condition", R"("hard": ["footwear"])", R"("hard": ["hat"])",
        u"“conditions”: unknown condition “hat”"_s);
    row("condition twice", R"("hard": ["footwear"])", R"("hard": ["footwear"], "soft": ["footwear"])",
        u"“conditions” names “footwear” twice"_s);
    row("unknown strictness", R"("hard": ["footwear"])", R"("harsh": ["footwear"])",
        u"conditions: unknown field “harsh”"_s);
    row("unknown population", R"("narrow": ["medication"])", R"("thin": ["medication"])",
        u"“hardFor”: unknown population “thin”"_s);
    row("range upside down", R"("lowest": 0, "highest": 60)", R"("lowest": 60, "highest": 0)",
        u"“lowest” is not below “highest”"_s);
    row("step of nothing", R"("step": 0.1)", R"("step": 0)", u"“step” is not above 0"_s);
    row("no range", R"("highest": 60, )", "", u"“lowest”, “highest” and “step” are needed"_s);
    row("cap beyond the range", R"("cap": 60)", R"("cap": 61)", u"“cap” lies above “highest”"_s);
    row("half a trial", R"("trials": 2)", R"("trials": 1.5)",
        u"“trials” is not a whole number of at least 1"_s);
    row("trials without a rule", R"("rule": "mean")", R"("rule": "single")",
        u"“trials” and “rule” do not fit each other"_s);
    row("text instead of a list", R"("watchFor": ["arms"])", R"("watchFor": "arms")",
        u"“watchFor” is not a list"_s);
    row("number in a list of texts", R"("watchFor": ["arms"])", R"("watchFor": [3])",
        u"“watchFor” holds something that is not a text"_s);
    row("word instead of yes or no", R"("sides": true)", R"("sides": "both")",
        u"“sides” is not true or false"_s);
}

void ReaderTest::aBrokenMeasureIsRefusedWithFileIdAndField()
{
    QFETCH(QByteArray, before);
    QFETCH(QByteArray, after);
    QFETCH(QString, fault);
    const Folder folder;
    QByteArray measures = Folder::measures();
    QVERIFY(measures.contains(before));
    folder.write(u"measures/balance.json"_s,
                 measures.replace(measures.indexOf(before), before.size(), after));
    QCOMPARE(faultIn(folder), fault);
}

void ReaderTest::aBrokenThresholdIsRefusedWithLineIdAndField_data()
{
    QTest::addColumn<QByteArray>("before");
    QTest::addColumn<QByteArray>("after");
    QTest::addColumn<QString>("fault");
    const auto row = [](const char* name, const char* before, const char* after, const QString& fault) {
        QTest::newRow(name) << QByteArray(before) << QByteArray(after)
                            << u"thresholds/balance.csv line 2: a: "_s + fault + u'.';
    };
    row("bad number", ",2.5,", ",2.5 s,", u"“improvement” is not a number"_s);
    row("decimal comma", ",2.5,", ",\"2,5\",", u"“improvement” is not a number"_s);
    row("not a number at all", ",2.5,", ",nan,", u"“improvement” is not a number"_s);
    row("no number", ",2.5,", ",,", u"“improvement” is missing"_s);
    row("negative", ",2.5,", ",-2.5,", u"“improvement” is not above 0"_s);
    row("unknown measure", "a,stance", "a,trance", u"“measure”: unknown id “trance”"_s);
    row("unknown population", ",narrow,", ",thin,", u"“population”: unknown id “thin”"_s);
    row("unknown source", ",paper,", ",pamphlet,", u"“source”: unknown id “pamphlet”"_s);
    row("unknown band", "stated,stance", "stated,trance", u"“bandOf”: unknown id “trance”"_s);
    row("band without a measure", "stated,stance", "stated,",
        u"“bandOf” and the ends of the band do not fit each other"_s);
    row("band upside down", ",0,10,", ",10,0,", u"“bandLow” is not below “bandHigh”"_s);
    row("unknown scale", ",absolute,", ",relative,",
        u"“scale” is “relative” but may only be absolute, percent-of-reference, proportional-to-mean, log"_s);
    row("confidence in percent", ",0.95,stated", ",95,stated",
        u"“confidence” is not between 0.5 and 0.999"_s);
    row("no confidence", ",0.95,stated", ",,stated",
        u"“confidenceBasis” must be stated, inferred or assumed beside a “confidence”, and empirical without one"_s);
    row("important change with confidence", "error", "important",
        u"an important change has no “confidence”"_s);
    row("correlation above one", ",0.95,29", ",1.95,29", u"“icc” is not between 0 and 1"_s);
    row("half a person", ",29,", ",29.5,", u"“n” is not a whole number of at least 1"_s);
    row("unknown condition", "medication=on", "mood=on", u"“condition”: unknown id “mood”"_s);
    row("malformed condition", "medication=on", "medication",
        u"“condition” is not written as medication=on"_s);
    row("condition without a word", "medication=on", "medication=on|",
        u"“condition” is not written as medication=on"_s);
    row("interval that its days deny", "between-days", "within-day",
        u"“repeats” and “daysHigh” do not fit each other"_s);
    row("interval in prose", "between-days", "two visits",
        u"“repeats” is “two visits” but may only be within-day, between-days"_s);
    row("trials in prose", ",best,2,", ",better of two,2,",
        u"“rule” is “better of two” but may only be single, mean, best"_s);
    row("trials without a rule", ",best,2,", ",,2,", u"“rule” and “trials” do not fit each other"_s);
    row("best of one", ",best,2,", ",best,1,", u"“rule” and “trials” do not fit each other"_s);
    row("basis of no kind", ",stated,stance", ",usual,stance",
        u"“confidenceBasis” is “usual” but may only be stated, inferred, assumed, empirical"_s);
    row("unknown hand", ",dominant,", ",left,", u"“hand” is “left” but may only be dominant, non-dominant"_s);
    row("neither read nor recalled", ",memory,", ",,", u"“checked” is missing"_s);
}

void ReaderTest::aBrokenThresholdIsRefusedWithLineIdAndField()
{
    QFETCH(QByteArray, before);
    QFETCH(QByteArray, after);
    QFETCH(QString, fault);
    const Folder folder;
    QByteArray rows = Folder::thresholds();
    const auto at = rows.indexOf(before, rows.indexOf('\n'));
    QVERIFY(at > 0);
    folder.write(u"thresholds/balance.csv"_s, rows.replace(at, before.size(), after));
    QCOMPARE(faultIn(folder), fault);
}

void ReaderTest::aBrokenFileIsRefused_data()
{
    QTest::addColumn<QString>("file");
    QTest::addColumn<QByteArray>("content");
    QTest::addColumn<QString>("fault");
    const auto row = [](const char* name, const QString& file, const QByteArray& content,
                        const QString& fault) { QTest::newRow(name) << file << content << fault; };
    row("cut off", u"sections.json"_s, "[{\"id\": \"balance\",\n \"titl",
        u"sections.json: line 2 is not sound JSON (unterminated string)."_s);
    row("empty", u"sections.json"_s, "", u"sections.json: line 1 is not sound JSON (illegal value)."_s);
    row("nested too deeply", u"sections.json"_s, QByteArray(100'000, '['),
        u"sections.json: line 1 is not sound JSON (too deeply nested document)."_s);
    row("not a list", u"sections.json"_s, R"({"id": "balance"})",
        u"sections.json: the file does not hold a list."_s);
    row("list of texts", u"sections.json"_s, R"(["balance"])",
        u"sections.json: the list holds something that is not an object."_s);
    row("field given twice", u"sections.json"_s, R"([{"id": "balance", "title": "A", "\u0069d": "b"}])",
        u"sections.json: the field “id” is given twice in one entry."_s);
    row("larger than 2 MB", u"sections.json"_s, QByteArray(2'000'001, ' '),
        u"sections.json: the file is larger than 2 MB."_s);
    row("id given twice", u"populations.json"_s,
        R"([{"id": "wide", "title": "A"}, {"id": "wide", "title": "B"}])",
        u"populations.json: wide: the id stands twice."_s);
    row("population in a circle", u"populations.json"_s,
        R"([{"id": "wide", "title": "A", "broader": "wide"}])",
        u"populations.json: wide: “broader”: no population “wide” stands before this one."_s);
    row("closed without words", u"conditions.json"_s,
        R"([{"id": "start", "title": "Start", "kind": "closed"}])",
        u"conditions.json: start: “options” is missing."_s);
    row("option without a title", u"conditions.json"_s,
        R"([{"id": "start", "title": "Start", "kind": "closed", "options": [{"key": "static"}]}])",
        u"conditions.json: start: options: “title” is missing."_s);
    row("unknown measure in a form", u"forms/form.json"_s,
        R"([{"id": "all", "title": "All", "sections": [{"title": "Balance", "measures": ["leap"]}]}])",
        u"forms/form.json: all: “measures”: unknown measure “leap”."_s);
    row("grade without all its steps", u"measures/balance.json"_s,
        Folder::measures().replace(R"("some", "much")", R"("much")"),
        u"measures/balance.json: sway: “steps” does not name every step from lowest to highest."_s);
    row("grade in halves", u"measures/balance.json"_s,
        Folder::measures().replace(R"("step": 1, "steps": ["none", "some", "much"])", R"("step": 0.5)"),
        u"measures/balance.json: sway: a grade has whole steps."_s);
    row("grade of a thousand million steps", u"measures/balance.json"_s,
        Folder::measures().replace(R"("highest": 2)", R"("highest": 1e300)"),
        u"measures/balance.json: sway: “steps” does not name every step from lowest to highest."_s);
    row("no form", u"forms/form.json"_s, "[]", u"forms: there is no form."_s);
    row("wrong columns", u"thresholds/balance.csv"_s, "id,measure\n",
        u"thresholds/balance.csv: the first line does not name the columns "
        u"id,measure,population,populationWords,answers,scale,improvement,decline,confidence,confidenceBasis,"
        u"bandOf,"
        u"bandLow,bandHigh,bandHighIncluded,sem,icc,n,repeats,interval,daysLow,daysHigh,rule,trials,"
        "protocol,design,hand,condition,source,checked,note."_s);
    row("short row", u"thresholds/balance.csv"_s, Folder::thresholds() + "b,stance\n",
        u"thresholds/balance.csv line 3: the row has 2 cells, not 30."_s);
    row("quotation never closed", u"thresholds/balance.csv"_s, Folder::thresholds() + "\"b",
        u"thresholds/balance.csv: Line 3, column 1: a quotation is opened and never closed."_s);
}

void ReaderTest::aBrokenFileIsRefused()
{
    QFETCH(QString, file);
    QFETCH(QByteArray, content);
    QFETCH(QString, fault);
    const Folder folder;
    folder.write(file, content);
    QCOMPARE(faultIn(folder), fault);
}

void ReaderTest::aMissingFileIsRefused()
{
    const Folder folder;
    QVERIFY(QFile::remove(folder.path() + u"/sources.json"_s));
    QCOMPARE(faultIn(folder), u"sources.json: the file cannot be opened."_s);
    QCOMPARE(catalogue::readCatalogue(folder.path() + u"/none"_s).error().kind, base::ErrorKind::NotFound);
}

void ReaderTest::measuresFollowTheOrderOfTheSections()
{
    const Folder folder;
    folder.write(u"sections.json"_s,
                 R"([{"id": "arms", "title": "Arms"}, {"id": "balance", "title": "Balance"}])");
    folder.write(u"measures/later.json"_s,
                 R"([{"id": "tap", "title": "Tap", "section": "arms", "kind": "grade",
        "sides": true, "better": "lower", "lowest": 0, "highest": 4, "step": 1, "purpose": "To see.",
        "how": "Tap.", "position": "Seated.", "unableMeans": "No."}])");
    const auto read = catalogue::readCatalogue(folder.path());
    QVERIFY2(read, qPrintable(faultIn(folder)));
    QCOMPARE(read->measures.front().id, u"tap"_s);
    QCOMPARE(read->measures.back().id, u"sway"_s);
}

void ReaderTest::nothingStandsOnWhatIsComputedTwice()
{
    const auto withParts = [](const QByteArray& ofSum, const QByteArray& ofTotal) {
        const QByteArray score = R"("section": "balance", "kind": "score", "sides": false, "better": "lower",
            "lowest": 0, "highest": 9, "step": 1, "purpose": "Adds.", "how": "Add.", "position": "Any.",
            "unableMeans": "Cannot.", "computed": {"rule": "sum-of-items", "parts": [")";
        QByteArray measures = Folder::measures().trimmed();
        measures.chop(1);
        return measures + R"(, {"id": "sum", "title": "Sum", )" + score + ofSum + R"("]}},
            {"id": "total", "title": "Total", )" +
               score + ofTotal + R"("]}}])";
    };
    const Folder folder;
    folder.write(u"measures/balance.json"_s, withParts("sway", "sum"));
    QCOMPARE(faultIn(folder), QString());
    folder.write(u"measures/balance.json"_s, withParts("total", "sum"));
    QVERIFY2(faultIn(folder).contains(u"is itself made of computed parts"_s), qPrintable(faultIn(folder)));
    folder.write(u"measures/balance.json"_s, withParts("sum", "sway"));
    QVERIFY2(faultIn(folder).contains(u"is itself made of computed parts"_s), qPrintable(faultIn(folder)));
}

HOUSE_TEST(ReaderTest)

} // namespace test_reader

#include "test_reader.moc"
