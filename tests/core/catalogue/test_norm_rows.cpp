#include "core/catalogue/entries.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_norm_rows
{

using namespace catalogue;

Catalogue book()
{
    Catalogue read = examples::catalogue();
    read.sources.push_back({u"paper"_s, u"Paper 2001"_s, {}, u"Paper"_s});
    return read;
}

QJsonObject with(QJsonObject row, const QJsonObject& changes)
{
    for (auto change = changes.begin(); change != changes.end(); ++change) {
        if (change.value().isNull())
            row.remove(change.key());
        else
            row.insert(change.key(), change.value());
    }
    return row;
}

QJsonObject normRow()
{
    return {{u"id"_s, u"n"_s},
            {u"measure"_s, u"nine-hole-peg"_s},
            {u"sex"_s, u"female"_s},
            {u"population"_s, u"parkinson"_s},
            {u"ageLow"_s, 60},
            {u"populationWords"_s, u"people"_s},
            {u"ageHigh"_s, 69},
            {u"side"_s, u"dominant"_s},
            {u"mean"_s, 20.5},
            {u"condition"_s, u"medication=on"_s},
            {u"sd"_s, 2.5},
            {u"protocol"_s, u"two trials"_s},
            {u"rule"_s, u"mean"_s},
            {u"meanLow"_s, 19},
            {u"meanHigh"_s, 22},
            {u"rangeLow"_s, 15},
            {u"rangeHigh"_s, 26},
            {u"rangeWords"_s, u"5th to 95th percentile"_s},
            {u"n"_s, 40},
            {u"nOf"_s, u"study"_s},
            {u"source"_s, u"paper"_s},
            {u"checked"_s, u"memory"_s},
            {u"note"_s, u"Few."_s}};
}

QJsonObject equationRow()
{
    return {{u"id"_s, u"e"_s},         {u"measure"_s, u"six-minute-walk"_s},
            {u"intercept"_s, -309},    {u"populationWords"_s, u"people"_s},
            {u"perYear"_s, -5.02},     {u"perCm"_s, 7.57},
            {u"perKg"_s, -1.76},       {u"lowerLimitBelow"_s, 153},
            {u"checked"_s, u"read"_s}, {u"lowerLimitChecked"_s, u"memory"_s},
            {u"source"_s, u"paper"_s}};
}

QJsonObject bandRow()
{
    return {{u"id"_s, u"b"_s},        {u"measure"_s, u"berg-balance"_s},   {u"series"_s, u"s"_s},
            {u"kind"_s, u"risk"_s},   {u"populationWords"_s, u"people"_s}, {u"high"_s, 45},
            {u"words"_s, u"falls"_s}, {u"highIncluded"_s, u"yes"_s},       {u"sensitivity"_s, 0.8},
            {u"specificity"_s, 0.7},  {u"source"_s, u"paper"_s},           {u"checked"_s, u"read"_s}};
}

template <class Row, class Make>
QString faultOf(const QJsonObject& row, Make make)
{
    const Catalogue known = book();
    Fields fields(row, u"file line 2"_s);
    const Row read = make(fields, known);
    Q_UNUSED(read)
    const auto error = fields.error();
    return error ? error->what.english() : QString();
}

class NormRowsTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldArrives();
    void aBrokenRowIsRefusedWithPlaceIdAndField_data();
    void aBrokenRowIsRefusedWithPlaceIdAndField();
    void anEndBelongsToABandAsItSays();
};

void NormRowsTest::everyFieldArrives()
{
    const Catalogue known = book();
    Fields ofNorm(normRow(), u"file"_s);
    const Norm norm = normFrom(ofNorm, known);
    QVERIFY(!ofNorm.error());
    const Requirement on{u"medication"_s, {u"on"_s}};
    const Whom whom{u"parkinson"_s, u"people"_s, NormSex::Female, 60, 69, u"dominant"_s, on, u"two trials"_s};
    QCOMPARE(norm.whom, whom);
    QCOMPARE(norm.mean, 20.5);
    QCOMPARE(norm.sd, 2.5);
    QCOMPARE(norm.meanLow, 19.0);
    QCOMPARE(norm.rangeHigh, 26.0);
    QCOMPARE(norm.rangeWords, u"5th to 95th percentile"_s);
    QCOMPARE(norm.rule, TrialRule::Mean);
    const Origin origin{40, u"paper"_s, Checked::Memory, u"Few."_s, true};
    QCOMPARE(norm.origin, origin);

    Fields ofEquation(equationRow(), u"file"_s);
    const Equation equation = equationFrom(ofEquation, known);
    QVERIFY(!ofEquation.error());
    QCOMPARE(equation.predicted(70, 175, 80), 523.55);
    QCOMPARE(equation.lowerLimitBelow, 153.0);
    QCOMPARE(equation.lowerLimitChecked, Checked::Memory);
    QVERIFY(equation.whom.sex == NormSex::Any && !equation.whom.ageLow);

    Fields ofBand(bandRow(), u"file"_s);
    const Band band = bandFrom(ofBand, known);
    QVERIFY(!ofBand.error());
    QCOMPARE(band.kind, BandKind::Risk);
    QCOMPARE(band.sensitivity, 0.8);
    QVERIFY(band.contains(45) && !band.contains(46));
}

void NormRowsTest::aBrokenRowIsRefusedWithPlaceIdAndField_data()
{
    QTest::addColumn<QString>("table");
    QTest::addColumn<QJsonObject>("changes");
    QTest::addColumn<QString>("fault");
    const auto row = [](const char* name, const QString& table, const QJsonObject& changes,
                        const QString& fault) {
        QTest::newRow(name) << table << changes << u"file line 2: %1: %2."_s.arg(table.left(1), fault);
    };
    const QString n = u"norm"_s;
    const QString e = u"equation"_s;
    const QString b = u"band"_s;
    row("unknown measure", n, {{u"measure"_s, u"hop"_s}}, u"“measure”: unknown id “hop”"_s);
    row("a grade", n, {{u"measure"_s, u"finger-nose"_s}}, u"“measure”: “finger-nose” has no numbers"_s);
    row("nobody named", n, {{u"populationWords"_s, QJsonValue()}}, u"“populationWords” is missing"_s);
    row("unknown population", n, {{u"population"_s, u"x"_s}}, u"“population”: unknown id “x”"_s);
    row("unknown sex", n, {{u"sex"_s, u"woman"_s}}, u"“sex” is “woman” but may only be female, male"_s);
    row("ages turned", n, {{u"ageLow"_s, 70}}, u"“ageLow” lies above “ageHigh”"_s);
    row("half a year", n, {{u"ageLow"_s, 60.5}}, u"“ageLow” is not a whole number of at least 1"_s);
    row("unknown condition", n, {{u"condition"_s, u"hat=on"_s}}, u"“condition”: unknown id “hat”"_s);
    row("half a condition", n, {{u"condition"_s, u"medication"_s}},
        u"“condition” is not written as medication=on"_s);
    row("people of nowhere", n, {{u"nOf"_s, QJsonValue()}}, u"“nOf” is missing"_s);
    row("nobody's study", n, {{u"n"_s, QJsonValue()}}, u"“nOf” is given without “n”"_s);
    row("unknown source", n, {{u"source"_s, u"x"_s}}, u"“source”: unknown id “x”"_s);
    row("neither read nor recalled", n, {{u"checked"_s, u"maybe"_s}},
        u"“checked” is “maybe” but may only be read, memory"_s);
    row("no spread", n, {{u"sd"_s, 0}}, u"“sd” stands without a mean or is not above 0"_s);
    row("half an interval", n, {{u"meanHigh"_s, QJsonValue()}},
        u"“mean”, “meanLow” and “meanHigh” do not fit each other"_s);
    row("range turned", n, {{u"rangeHigh"_s, 14}}, u"the lower end of the range is not below the upper"_s);
    row("range without words", n, {{u"rangeWords"_s, QJsonValue()}},
        u"“rangeWords” and the range do not fit each other"_s);
    row("unknown field", n, {{u"median"_s, 3}}, u"unknown field “median”"_s);
    row("no intercept", e, {{u"intercept"_s, QJsonValue()}}, u"“intercept” is missing"_s);
    row("limit above", e, {{u"lowerLimitBelow"_s, -1}}, u"“lowerLimitBelow” is not above 0"_s);
    row("limit of nowhere", e, {{u"lowerLimitChecked"_s, QJsonValue()}}, u"“lowerLimitChecked” is missing"_s);
    row("no end", b, {{u"high"_s, QJsonValue()}}, u"the band has no end"_s);
    row("a cut-off with two ends", b, {{u"low"_s, 3}}, u"a cut-off has one end"_s);
    row("more than all", b, {{u"sensitivity"_s, 1.2}}, u"“sensitivity” is not between 0 and 1"_s);
    row("a level that predicts", b, {{u"kind"_s, u"level"_s}},
        u"a named level has no “sensitivity” and no “specificity”"_s);
    row("perhaps included", b, {{u"highIncluded"_s, u"perhaps"_s}},
        u"“highIncluded” is “perhaps” but may only be yes, no"_s);
}

void NormRowsTest::aBrokenRowIsRefusedWithPlaceIdAndField()
{
    QFETCH(QString, table);
    QFETCH(QJsonObject, changes);
    QFETCH(QString, fault);
    if (table == u"norm"_s)
        QCOMPARE(faultOf<Norm>(with(normRow(), changes), normFrom), fault);
    else if (table == u"equation"_s)
        QCOMPARE(faultOf<Equation>(with(equationRow(), changes), equationFrom), fault);
    else
        QCOMPARE(faultOf<Band>(with(bandRow(), changes), bandFrom), fault);
}

void NormRowsTest::anEndBelongsToABandAsItSays()
{
    Band band;
    band.low = 0.4;
    band.high = 0.8;
    QVERIFY(band.contains(0.4) && !band.contains(0.8) && !band.contains(0.39) && band.contains(0.1 + 0.3));
    band.lowIncluded = false;
    band.highIncluded = true;
    QVERIFY(!band.contains(0.4) && band.contains(0.8) && !band.contains(0.81));
    band.low.reset();
    QVERIFY(band.contains(-1));
}

HOUSE_TEST(NormRowsTest)

} // namespace test_norm_rows

#include "test_norm_rows.moc"
