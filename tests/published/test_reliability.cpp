#include "core/statistics/reliability.h"
#include "tests/support/test_support.h"

#include <cmath>

namespace test_reliability
{

using namespace statistics;

void near(double actual, double expected, double tolerance)
{
    QVERIFY2(
        std::abs(actual - expected) <= tolerance,
        qPrintable(QStringLiteral("%1 is not %2 ± %3").arg(actual, 0, 'g', 10).arg(expected).arg(tolerance)));
}

/// Six targets rated by four judges. Shrout & Fleiss 1979, Psychol Bull 86:420-8.
const Repeats shroutFleiss = {{9, 2, 5, 8}, {6, 1, 3, 2},  {8, 4, 6, 8},
                              {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};

/// Data set A: eight subjects, two trials. Weir 2005, J Strength Cond Res 19:231-40.
const Repeats weir = {{146, 140}, {148, 152}, {170, 152}, {90, 99},
                      {157, 145}, {156, 153}, {176, 167}, {205, 218}};

/// Peak expiratory flow (l/min) of 17 subjects, Wright and mini meter, two readings each. Bland & Altman
/// 1986, Lancet i:307-10.
const std::vector<double> wright1 = {494, 395, 516, 434, 476, 557, 413, 442, 650,
                                     433, 417, 656, 267, 478, 178, 423, 427};
const std::vector<double> wright2 = {490, 397, 512, 401, 470, 611, 415, 431, 638,
                                     429, 420, 633, 275, 492, 165, 372, 421};
const std::vector<double> mini1 = {512, 430, 520, 428, 500, 600, 364, 380, 658,
                                   445, 432, 626, 260, 477, 259, 350, 451};
const std::vector<double> mini2 = {525, 415, 508, 444, 500, 625, 460, 390, 642,
                                   432, 420, 605, 227, 467, 268, 370, 443};

Repeats paired(const std::vector<double>& first, const std::vector<double>& second)
{
    Repeats rows;
    for (size_t i = 0; i < first.size(); ++i)
        rows.push_back({first[i], second[i]});
    return rows;
}

class TestPublishedReliability : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void sixIntraclassCorrelationsOfShroutAndFleiss();
    void meanSquaresOfShroutAndFleiss();
    void standardErrorAndDetectableChangeOfWeir();
    void trueScoreAndRepeatScoreErrorsOfWeir();
    void limitsOfAgreementOfBlandAndAltman();
    void repeatabilityOfBlandAndAltmansMeters();
    void publishedPairsOfErrorAndDetectableChange_data();
    void publishedPairsOfErrorAndDetectableChange();
    void detectableChangeInPercentGivesTheGrandMean();
    void reliableChangeOfAPrintedExample();
    void practiceAdjustedChange();
    void trueScoreOfKelley();
};

void TestPublishedReliability::meanSquaresOfShroutAndFleiss()
{
    // Published to two decimals, recomputed from the data to five.
    const auto squares = meanSquares(shroutFleiss);
    QVERIFY(squares);
    QCOMPARE(squares->subjects, 6);
    QCOMPARE(squares->trials, 4);
    near(squares->betweenSubjects, 11.24167, 5e-6);
    near(squares->betweenTrials, 32.48611, 5e-6);
    near(squares->withinSubjects, 6.26389, 5e-6);
    near(squares->error, 1.01944, 5e-6);
}

void TestPublishedReliability::sixIntraclassCorrelationsOfShroutAndFleiss()
{
    const auto icc = intraclassCorrelations(*meanSquares(shroutFleiss));
    QVERIFY(icc);
    // As printed in the paper's table 4.
    near(icc->icc11, .17, .005);
    near(icc->icc21, .29, .005);
    near(icc->icc31, .71, .005);
    near(icc->icc1k, .44, .005);
    near(icc->icc2k, .62, .005);
    near(icc->icc3k, .91, .005);
    // The same data computed to five decimals.
    near(icc->icc11, 0.16574, 5e-6);
    near(icc->icc21, 0.28976, 5e-6);
    near(icc->icc31, 0.71484, 5e-6);
    near(icc->icc1k, 0.44280, 5e-6);
    near(icc->icc2k, 0.62005, 5e-6);
    near(icc->icc3k, 0.90932, 5e-6);
}

void TestPublishedReliability::standardErrorAndDetectableChangeOfWeir()
{
    const auto squares = meanSquares(weir);
    QVERIFY(squares);
    near(squares->betweenSubjects, 2098.53571, 5e-6);
    near(squares->betweenTrials, 30.25, 5e-6);
    near(squares->error, 57.10714, 5e-6);
    const auto icc = intraclassCorrelations(*squares);
    QVERIFY(icc);
    near(icc->icc11, .95005, 5e-6);
    near(icc->icc21, .94998, 5e-6);
    near(icc->icc31, .94702, 5e-6);

    const double standardError = std::sqrt(squares->error);
    near(standardError, 7.6, .05); // Weir 2005, p. 236
    near(*minimalDetectableChange(standardError, .95), 20.9467, 5e-4);
    near(*minimalDetectableChange(standardError, .95), 21, .5); // as the paper rounds it (memory)
}

void TestPublishedReliability::trueScoreAndRepeatScoreErrorsOfWeir()
{
    // SEE = SD · √(ICC (1 − ICC)) and SEP = SD · √(1 − ICC²), p. 236; both follow from the SEM. ICC(3,1),
    // pooled SD.
    const double icc = intraclassCorrelations(*meanSquares(weir))->icc31;
    const double standardError = *standardErrorOfMeasurement(31.74875, icc);
    near(standardError * std::sqrt(icc), 7.1, .05);
    near(standardError * std::sqrt(1 + icc), 10.2, .05);
}

void TestPublishedReliability::limitsOfAgreementOfBlandAndAltman()
{
    const auto agreement = limitsOfAgreement(wright1, mini1, 2);
    QVERIFY(agreement);
    QCOMPARE(agreement->pairs, 17);
    near(agreement->bias, -2.1, .05);              // published
    near(agreement->bias, -2.11765, 5e-6);         // computed
    near(agreement->standardDeviation, 38.8, .05); // published
    near(agreement->standardDeviation, 38.76513, 5e-6);
    near(agreement->lower, -79.7, .1); // published (memory), from the rounded mean and deviation
    near(agreement->upper, 75.5, .1);
    near(agreement->lower, -79.65, 5e-3); // computed
    near(agreement->upper, 75.41, 5e-3);

    const auto exact = limitsOfAgreement(wright1, mini1, 1.96);
    QVERIFY(exact);
    near(exact->lower, -78.097, 5e-4);
    near(exact->upper, 73.862, 5e-4);
}

void TestPublishedReliability::repeatabilityOfBlandAndAltmansMeters()
{
    const auto wright = meanSquares(paired(wright1, wright2));
    const auto mini = meanSquares(paired(mini1, mini2));
    QVERIFY(wright && mini);
    const double within = std::sqrt(wright->withinSubjects);
    near(within, 15.3067, 5e-5);
    near(*minimalDetectableChange(within, .95), 42.428, 1e-3);
    near(2 * std::sqrt(2.0) * within, 43.2, .1); // twice the SD of differences about zero (memory)
    const auto wrightIcc = intraclassCorrelations(*wright);
    const auto miniIcc = intraclassCorrelations(*mini);
    near(wrightIcc->icc11, .9832, 5e-5);
    near(wrightIcc->icc31, .9830, 5e-5);
    near(miniIcc->icc11, .9685, 5e-5);
    near(miniIcc->icc31, .9669, 5e-5);
}

void TestPublishedReliability::publishedPairsOfErrorAndDetectableChange_data()
{
    QTest::addColumn<double>("standardError");
    QTest::addColumn<double>("confidence");
    QTest::addColumn<double>("published");
    QTest::addColumn<double>(
        "rounding"); // of the published pair: half a unit of each last place, carried through
    QTest::newRow("two-minute walk, 15.3 to 42.5") << 15.3 << .95 << 42.5 << .2;
    QTest::newRow("1.16 to 3.2") << 1.16 << .95 << 3.2 << .065;
    QTest::newRow("0.71 to 1.9, truncated in print") << .71 << .95 << 1.9 << .1;
    QTest::newRow("0.98 to 2.7") << .98 << .95 << 2.7 << .065;
    QTest::newRow("0.9 to 2.5") << .9 << .95 << 2.5 << .19;
    QTest::newRow("8.7 to 24.1") << 8.7 << .95 << 24.1 << .19;
    QTest::newRow("90 %, 1.2 to 2.9") << 1.2 << .90 << 2.9 << .17;
    QTest::newRow("90 %, 1.7 to 4") << 1.7 << .90 << 4.0 << .5;
    QTest::newRow("90 %, 0.08 to 0.19") << .08 << .90 << .19 << .017;
    QTest::newRow("90 %, 0.09 to 0.21") << .09 << .90 << .21 << .017;
    QTest::newRow("90 %, 28 to 65") << 28.0 << .90 << 65.0 << 1.7;
}

void TestPublishedReliability::publishedPairsOfErrorAndDetectableChange()
{
    QFETCH(double, standardError);
    QFETCH(double, confidence);
    QFETCH(double, published);
    QFETCH(double, rounding);
    near(*minimalDetectableChange(standardError, confidence), published, rounding);
}

void TestPublishedReliability::detectableChangeInPercentGivesTheGrandMean()
{
    // Timed up and go in Parkinson's disease: MDC 3.5 s and ICC .80 are printed with MDC% 29.8, so the mean
    // is 11.7 s.
    const double standardError = 3.5 / *minimalDetectableChange(1, .95);
    const double deviation = standardError / std::sqrt(1 - .80);
    near(*minimalDetectableChange(*standardErrorOfMeasurement(deviation, .80), .95) / .298, 11.7, .05);
}

void TestPublishedReliability::reliableChangeOfAPrintedExample()
{
    // SEM 3.07, 24 before, 35 after: standard error of the difference 4.34, limit 8.51, so 11 is reliable.
    // Jacobson & Truax 1991, J Consult Clin Psychol 59:12 (formula).
    near(*minimalDetectableChange(3.07, .95), 8.51, .005);
    near(*minimalDetectableChange(3.07, .95), 8.50961, 5e-4);
    near(*reliableChangeIndex(24, 35, 3.07), 2.5336, 5e-5);
    near((35 - 24) / *reliableChangeIndex(24, 35, 3.07), 4.34164, 5e-6);
}

void TestPublishedReliability::practiceAdjustedChange()
{
    // Formulas of Chelune 1993, Neuropsychology 7:41, and Iverson 2001 (memory); the numbers are derived,
    // none are published.
    const double first = *standardErrorOfMeasurement(10, .80);
    const double second = *standardErrorOfMeasurement(11, .80);
    near(first, 4.47214, 5e-6);
    near(second, 4.91935, 5e-6);
    const double index = *practiceAdjustedChangeIndex(48, 60, 52 - 50, first, second);
    near(index, 1.50414, 5e-6);
    near((60 - 48 - 2) / index, 6.64831, 1e-5);
    // 90 % band around the practice effect of 2: −8.9365 … 12.9365, with z to three decimals.
    near(2 + *normalQuantile(.90) * 6.64831, 12.9365, 2e-3);
}

void TestPublishedReliability::trueScoreOfKelley()
{
    // r .48 and mean 105. The page that prints 95.4 for 85 prints 123.2 for 145; 0.48 · 40 + 105 is 124.2.
    near(*estimatedTrueScore(85, 105, .48), 95.4, 1e-9);
    near(*estimatedTrueScore(145, 105, .48), 124.2, 1e-9);
}

HOUSE_TEST(TestPublishedReliability)

} // namespace test_reliability

#include "test_reliability.moc"
