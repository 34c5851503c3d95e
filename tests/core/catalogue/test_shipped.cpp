#include "core/catalogue/audit.h"
#include "core/catalogue/reader.h"

#include "core/base/csv.h"

#include "tests/support/test_support.h"

#include <QFile>
#include <QRegularExpression>

using namespace Qt::StringLiterals;
using namespace catalogue;

namespace
{

using Row = std::map<QString, QString>;

/// The rows of an evidence table that lies beside the checkout; empty where it does not.
std::vector<Row> evidenceRows(const QString& name)
{
    QFile file(QStringLiteral(APLOMB_SOURCE_DIR "/../shared/evidence/") + name);
    if (!file.open(QIODevice::ReadOnly))
        return {};
    const auto cells = base::csvRows(file.readAll());
    std::vector<Row> rows;
    for (size_t index = 1; cells && index < cells->size(); ++index) {
        Row row;
        for (qsizetype column = 0; column < cells->front().cells.size(); ++column)
            row[cells->front().cells[column]] = (*cells)[index].cells.value(column);
        rows.push_back(row);
    }
    return rows;
}

std::optional<double> numberOf(const QString& written)
{
    bool isNumber = false;
    const double number = written.toDouble(&isNumber);
    return isNumber ? std::optional(number) : std::nullopt;
}

/// The number a cell begins with: "262" of "262 (two trials)"; none of ">0.90" and of a value on another
/// scale.
std::optional<double> leadingNumber(const QString& cell)
{
    static const QRegularExpression leading(u"^[0-9]+(\\.[0-9]+)?"_s);
    return cell.contains(u"log scale"_s) ? std::nullopt : numberOf(leading.match(cell).captured());
}

/// Every number written in the cells a threshold may come from.
std::vector<double> publishedNumbers(const Row& row)
{
    static const QRegularExpression number(u"[0-9]+(\\.[0-9]+)?"_s);
    std::vector<double> numbers;
    const QString cells = row.at(u"mdc"_s) + u' ' + row.at(u"mdc_percent"_s) + u' ' + row.at(u"mic"_s);
    for (auto found = number.globalMatch(cells); found.hasNext();)
        numbers.push_back(found.next().captured().toDouble());
    return numbers;
}

bool holds(const std::vector<double>& numbers, double number)
{
    return std::ranges::find(numbers, number) != numbers.end();
}

/// Whether the shipped threshold says what this row of the evidence says, to the last digit.
bool isRow(const Threshold& shipped, const Row& row, const Catalogue& shippedCatalogue)
{
    const std::vector<double> numbers = publishedNumbers(row);
    const auto percent = shipped.confidence ? std::optional(*shipped.confidence * 100) : std::nullopt;
    const auto count = shipped.n ? std::optional(double(*shipped.n)) : std::nullopt;
    const bool isPeople =
        shipped.populationWords == QString(row.at(u"population"_s)).replace(u">="_s, u"≥"_s);
    const QString doi = row.at(u"doi"_s);
    return shipped.measure == row.at(u"measure"_s) && isPeople && holds(numbers, shipped.improvement) &&
           holds(numbers, shipped.decline) && count == leadingNumber(row.at(u"n"_s)) &&
           (shipped.answers == Answers::Important || percent == numberOf(row.at(u"confidence"_s))) &&
           (shipped.answers == Answers::Important || shipped.sem == leadingNumber(row.at(u"sem"_s))) &&
           (shipped.answers == Answers::Important || shipped.icc == leadingNumber(row.at(u"icc"_s))) &&
           shipped.bandLow == numberOf(row.at(u"baseline_low"_s)) &&
           shipped.bandHigh == numberOf(row.at(u"baseline_high"_s)) &&
           (shipped.checked == Checked::Read) == (row.at(u"checked"_s) == u"read"_s) &&
           (doi.isEmpty() || doi == shippedCatalogue.source(shipped.source)->doi);
}

} // namespace

class ShippedTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void initTestCase();
    void hasNoFault();
    void namesEveryReleasedMeasureInItsList();
    void followsTheOrderOfTheExamination();
    void saysHowToBeSafeWhereSomeoneCanFall();
    void everyMeasureMindsTheMedicationOfParkinsonDisease();
    void holdsTheBandsOfDonoghueAndStokes();
    void holdsTheValuesOfSteffenAndSeney();
    void holdsTheSpeedBandsOfHosoi();
    void usesNoBroaderPopulationForMixedPeople();
    void eachThresholdEqualsTheEvidence();
    void eachMeasureEqualsTheEvidence();

private:
    const Threshold& threshold(const QString& id) const;

    Catalogue m_catalogue;
};

void ShippedTest::initTestCase()
{
    const auto read = readCatalogue(u":/catalogue"_s);
    QVERIFY2(read, read ? "" : qPrintable(read.error().what));
    m_catalogue = *read;
}

const Threshold& ShippedTest::threshold(const QString& id) const
{
    static const Threshold none;
    const auto found = std::ranges::find(m_catalogue.thresholds, id, &Threshold::id);
    return found == m_catalogue.thresholds.end() ? none : *found;
}

void ShippedTest::hasNoFault()
{
    const auto ids = releasedIds(u":/catalogue"_s);
    QVERIFY(ids);
    QCOMPARE(audit(m_catalogue, *ids), QStringList());
}

void ShippedTest::namesEveryReleasedMeasureInItsList()
{
    const auto ids = releasedIds(u":/catalogue"_s);
    QVERIFY(ids);
    for (const Measure& measure : m_catalogue.measures)
        QVERIFY2(ids->contains(measure.id), qPrintable(measure.id));
}

void ShippedTest::followsTheOrderOfTheExamination()
{
    QCOMPARE(m_catalogue.measures.size(), size_t(30));
    QCOMPARE(m_catalogue.measures.front().id, u"finger-tapping"_s);
    QCOMPARE(m_catalogue.measures.back().id, u"sara"_s);
    QStringList order;
    for (const Measure& measure : m_catalogue.measures)
        order += measure.id;
    QCOMPARE(m_catalogue.forms.front().measures(), order);
}

void ShippedTest::saysHowToBeSafeWhereSomeoneCanFall()
{
    const QStringList safe = {u"upper-limb-coordination"_s, u"lower-limb-coordination"_s};
    const QStringList asSeen = {u"gait-stance-width"_s, u"gait-stride-length"_s, u"gait-step-height"_s,
                                u"gait-arm-swing"_s};
    for (const Measure& measure : m_catalogue.measures) {
        if (!safe.contains(measure.section) && !asSeen.contains(measure.id))
            QVERIFY2(!measure.caution.isEmpty(), qPrintable(measure.id));
    }
}

void ShippedTest::everyMeasureMindsTheMedicationOfParkinsonDisease()
{
    const ConditionRule rule{u"medication"_s, Strictness::Hard, u"parkinson"_s};
    for (const Measure& measure : m_catalogue.measures)
        QVERIFY2(std::ranges::find(measure.conditions, rule) != measure.conditions.end(),
                 qPrintable(measure.id));
}

/// Donoghue & Stokes, J Rehabil Med 2009;41:343-6: 5, 7, 5 and 4 points for a reference of 0-24, 25-34,
/// 35-44, 45-56.
void ShippedTest::holdsTheBandsOfDonoghueAndStokes()
{
    const std::vector<std::array<double, 3>> bands = {{0, 24, 5}, {25, 34, 7}, {35, 44, 5}, {45, 56, 4}};
    for (const auto& [low, high, points] : bands) {
        const Threshold& row =
            threshold(u"berg-balance.older-adults.donoghue-stokes-2009.%1-to-%2"_s.arg(low).arg(high));
        QCOMPARE(row.bandLow, low);
        QCOMPARE(row.bandHigh, high);
        QVERIFY(row.bandHighIncluded);
        QCOMPARE(row.improvement, points);
        QCOMPARE(row.decline, points);
        QCOMPARE(row.confidence, 0.95);
    }
}

/// Steffen & Seney, Phys Ther 2008;88:733-46, 37 people a week apart, MDC95 as in the abstract.
void ShippedTest::holdsTheValuesOfSteffenAndSeney()
{
    const std::map<QString, double> published = {{u"berg-balance"_s, 5},
                                                 {u"six-minute-walk"_s, 82},
                                                 {u"gait-speed-comfortable"_s, 0.18},
                                                 {u"sharpened-romberg-eyes-closed"_s, 19}};
    for (const auto& [measure, number] : published) {
        const Threshold& row = threshold(measure + u".parkinson.steffen-2008"_s);
        QCOMPARE(row.improvement, number);
        QCOMPARE(row.confidence, 0.95);
        QCOMPARE(row.n, 37);
        QCOMPARE(row.checked, Checked::Read);
    }
    QCOMPARE(threshold(u"timed-up-and-go.parkinson.steffen-2008"_s).checked, Checked::Memory);
}

/// Hosoi et al., Front Neurol 2023;14:1219505: below 0.4, 0.4 to 0.8 and above 0.8 m/s of comfortable speed,
/// which band the times too.
void ShippedTest::holdsTheSpeedBandsOfHosoi()
{
    const std::vector<std::tuple<QString, double, double, int>> bands = {
        {u"below-0.4"_s, 0.05, 5.25, 19}, {u"0.4-to-0.8"_s, 0.11, 2.83, 29}, {u"from-0.8"_s, 0.21, 1.58, 36}};
    for (const auto& [band, speed, time, people] : bands) {
        const Threshold& ofSpeed = threshold(u"gait-speed-comfortable.stroke.hosoi-2023."_s + band);
        const Threshold& ofTime = threshold(u"ten-metre-walk-time-comfortable.stroke.hosoi-2023."_s + band);
        QCOMPARE(ofSpeed.improvement, speed);
        QCOMPARE(ofTime.improvement, time);
        QCOMPARE(ofSpeed.n, people);
        QCOMPARE(ofTime.n, people);
        QCOMPARE(ofTime.bandOf, u"gait-speed-comfortable"_s);
        QVERIFY(!ofSpeed.bandHighIncluded);
    }
}

void ShippedTest::usesNoBroaderPopulationForMixedPeople()
{
    for (const Population& population : m_catalogue.populations) {
        QVERIFY(population.id == u"mixed-neurological"_s ||
                !m_catalogue.isWithin(population.id, u"mixed-neurological"_s));
    }
    QVERIFY(m_catalogue.isWithin(u"stroke-chronic"_s, u"stroke"_s));
    QVERIFY(!m_catalogue.isWithin(u"stroke-chronic"_s, u"stroke-subacute"_s));
}

void ShippedTest::eachThresholdEqualsTheEvidence()
{
    const std::vector<Row> rows = evidenceRows(u"thresholds.csv"_s);
    if (rows.empty())
        QSKIP("The evidence does not lie beside this checkout.");
    for (const Threshold& shipped : m_catalogue.thresholds) {
        const auto is = [&](const Row& row) { return isRow(shipped, row, m_catalogue); };
        QVERIFY2(std::ranges::any_of(rows, is), qPrintable(shipped.id));
    }
}

void ShippedTest::eachMeasureEqualsTheEvidence()
{
    const std::vector<Row> rows = evidenceRows(u"measures.csv"_s);
    if (rows.empty())
        QSKIP("The evidence does not lie beside this checkout.");
    for (const Measure& shipped : m_catalogue.measures) {
        const auto row =
            std::ranges::find_if(rows, [&](const Row& one) { return one.at(u"id"_s) == shipped.id; });
        QVERIFY2(row != rows.end(), qPrintable(shipped.id));
        QCOMPARE(shipped.title, row->at(u"title"_s));
        QCOMPARE(shipped.shortForm, row->at(u"short_form"_s));
        QCOMPARE(values::code(shipped.unit), row->at(u"unit"_s));
        QCOMPARE(shipped.hasSides, row->at(u"sides"_s) == u"right+left"_s);
        const QString better = shipped.better == Direction::HigherIsBetter  ? u"higher"_s
                               : shipped.better == Direction::LowerIsBetter ? u"lower"_s
                                                                            : QString();
        QCOMPARE(better, row->at(u"better"_s));
        QCOMPARE(shipped.lowest, numberOf(row->at(u"lowest"_s)));
        QCOMPARE(shipped.highest, numberOf(row->at(u"highest"_s)));
        QCOMPARE(shipped.step, numberOf(row->at(u"step"_s)));
    }
}

QTEST_MAIN(ShippedTest)
#include "test_shipped.moc"
