#include "app/charts/trend_points.h"

#include "app/console/change_json.h"
#include "core/catalogue/reader.h"
#include "core/judging/change.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <QJsonObject>

#include <set>

using namespace Qt::StringLiterals;

namespace test_one_judgement
{

using catalogue::Answers;
using catalogue::Direction;
using catalogue::Scale;
using records::Side;
using values::Quantity;

const catalogue::Catalogue& book()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

/// Two visits of one number each, a quarter of a year apart, that differ by a hundredth of the scale.
std::vector<records::Visit> twoVisits(const catalogue::Measure& measure, double level)
{
    std::vector<records::Visit> visits;
    const double width = *measure.highest - *measure.lowest;
    for (const auto& [id, day, share] : {std::tuple(u"a"_s, QDate(2026, 1, 12), level),
                                         std::tuple(u"b"_s, QDate(2026, 4, 13), level + 0.01)}) {
        visits.push_back(examples::visit(
            id, day,
            {examples::finding(measure.id, Quantity{*measure.lowest + share * width, measure.unit},
                               measure.hasSides ? Side::Right : Side::None)}));
        for (const catalogue::ConditionRule& rule : measure.conditions) {
            const catalogue::Condition* condition = book().condition(rule.condition);
            const bool hasOptions = condition != nullptr && !condition->options.empty();
            visits.back().conditions[rule.condition] = hasOptions ? condition->options.front().key : u"10"_s;
        }
    }
    return visits;
}

/// The threshold of a result is the same in the change, in JSON and around the points of its chart.
class TestOneJudgement : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void chartAndJsonDrawTheThresholdOfTheChange_data();
    void chartAndJsonDrawTheThresholdOfTheChange();
};

void TestOneJudgement::chartAndJsonDrawTheThresholdOfTheChange_data()
{
    QTest::addColumn<QString>("measure");
    QTest::addColumn<QString>("population");
    QTest::addColumn<double>("level");
    std::set<std::pair<QString, QString>> pairs;
    for (const catalogue::Threshold& row : book().thresholds) {
        const catalogue::Measure* measure = book().measure(row.measure);
        if (row.answers == Answers::Error && measure != nullptr && measure->lowest && measure->highest)
            pairs.emplace(row.measure, row.population);
    }
    QVERIFY(pairs.size() > 40);
    for (const auto& [measure, population] : pairs) {
        for (const double level : {0.1, 0.5})
            QTest::addRow("%s, %s, %.1f", qPrintable(measure), qPrintable(population), level)
                << measure << population << level;
    }
}

void TestOneJudgement::chartAndJsonDrawTheThresholdOfTheChange()
{
    QFETCH(QString, measure);
    QFETCH(QString, population);
    QFETCH(double, level);
    const auto visits = twoVisits(*book().measure(measure), level);
    records::Patient patient = examples::patient(population);
    patient.dominantHand = records::Hand::Right;
    const auto changes = judging::changesAt(visits[1].id, {}, visits, patient, book());
    const auto change = std::ranges::find(changes, measure, &judging::Change::measure);
    QVERIFY(change != changes.end() && change->baseline);
    const judging::Comparison& held = *change->baseline;
    const auto points = charts::trendPoints({measure, {}, visits[1].id, {}}, visits, patient, book(), {});
    const charts::TrendLine& line = points.lines.at(0);
    QCOMPARE(line.entries.at(1).verdict, std::optional(held.verdict));
    QCOMPARE(line.limits.has_value(), held.threshold.has_value());

    for (const auto& each : console::changeJson({patient, visits, {}}, book(), {})) {
        const QJsonObject object = each.toObject();
        if (object[u"measure"_s] != measure || !held.threshold)
            continue;
        const double limit = held.threshold->limitFor(*held.difference, points.better);
        QVERIFY(qAbs(object[u"threshold"_s].toDouble() - limit) < 1e-8);
        QCOMPARE(object[u"cannotShow"_s].toArray().contains(u"better"_s), held.cannotShow.better);
        QCOMPARE(object[u"cannotShow"_s].toArray().contains(u"worse"_s), held.cannotShow.worse);
    }
    if (!held.threshold || held.threshold->row.scale == Scale::ProportionalToMean)
        return; // solved for the later value, see TestTrendPoints
    const double sign = points.better == Direction::HigherIsBetter ? 1 : -1;
    QCOMPARE(line.limits->improved.has_value(), !held.cannotShow.better);
    QCOMPARE(line.limits->declined.has_value(), !held.cannotShow.worse);
    const double reference = line.limits->reference;
    if (line.limits->improved)
        QVERIFY(qAbs(*line.limits->improved - reference - sign * held.threshold->improvement) < 1e-8);
    if (line.limits->declined)
        QVERIFY(qAbs(*line.limits->declined - reference + sign * held.threshold->decline) < 1e-8);
}

HOUSE_TEST(TestOneJudgement)

} // namespace test_one_judgement

#include "test_one_judgement.moc"
