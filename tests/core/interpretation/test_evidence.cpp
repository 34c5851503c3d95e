#include "core/interpretation/evidence.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;
using catalogue::Answers;
using interpretation::Circumstances;
using interpretation::Evidence;

namespace
{

const QString speed = u"gait-speed-comfortable"_s;

QString used(const catalogue::Catalogue& book, const QString& measure, const Circumstances& here,
             Answers answers = Answers::Error)
{
    const Evidence found = interpretation::evidence(book, measure, answers, here);
    return found.used ? found.used->id : QString();
}

QString used(const QString& measure, const Circumstances& here, Answers answers = Answers::Error)
{
    static const catalogue::Catalogue book = examples::catalogue();
    return used(book, measure, here, answers);
}

/// A catalogue with these rows only.
catalogue::Catalogue with(std::vector<catalogue::Threshold> rows)
{
    catalogue::Catalogue book = examples::catalogue();
    book.thresholds = std::move(rows);
    return book;
}

catalogue::Threshold row(const QString& id, int n, const QString& population = u"stroke"_s)
{
    return examples::threshold(id, speed, population, 0.2, u"hosoi"_s, n);
}

} // namespace

class TestEvidence : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aRowOfThePatientsPopulationIsUsed();
    void aBroaderPopulationServesWhereThereIsNoOwn();
    void aNeighbourOrNarrowerPopulationNeverDoes();
    void withoutAPopulationNothingFits();
    void theBandFollowsTheReferenceLevel_data();
    void theBandFollowsTheReferenceLevel();
    void aBandAsksForAKnownLevel();
    void aHandFitsItselfOnly();
    void medicationFitsUnlessRecordedOtherwise();
    void errorAndImportanceAreNeverMixed();
    void readComesBeforeMemoryThenRetestThenNumber();
    void whatFitsButIsNotUsedIsNamed();
};

void TestEvidence::aRowOfThePatientsPopulationIsUsed()
{
    QCOMPARE(used(speed, {u"parkinson"_s, {}, {}, {}}), u"speed-pd"_s);
}

void TestEvidence::aBroaderPopulationServesWhereThereIsNoOwn()
{
    QCOMPARE(used(u"timed-up-and-go"_s, {u"stroke-chronic"_s, {}, {}, {}}), u"up-stroke"_s);
    const auto book = with({row(u"wide"_s, 900, u"mixed-neurological"_s), row(u"near"_s, 5, u"stroke"_s)});
    QCOMPARE(used(book, speed, {u"stroke-chronic"_s, {}, {}, {}}), u"near"_s);
    QCOMPARE(used(book, speed, {u"parkinson"_s, {}, {}, {}}), u"wide"_s);
}

void TestEvidence::aNeighbourOrNarrowerPopulationNeverDoes()
{
    QCOMPARE(used(u"six-minute-walk"_s, {u"stroke-chronic"_s, {}, {}, {}}), QString());
    QCOMPARE(used(u"six-minute-walk"_s, {u"stroke"_s, {}, {}, {}}), QString());
    QCOMPARE(used(u"six-minute-walk"_s, {u"stroke-subacute"_s, {}, {}, {}}), u"six-stroke"_s);
}

void TestEvidence::withoutAPopulationNothingFits()
{
    QCOMPARE(used(speed, {}), QString());
    QCOMPARE(used(speed, {u"unknown"_s, {}, {}, {}}), QString());
}

void TestEvidence::theBandFollowsTheReferenceLevel_data()
{
    QTest::addColumn<QString>("measure");
    QTest::addColumn<QString>("population");
    QTest::addColumn<QString>("bandOf");
    QTest::addColumn<double>("level");
    QTest::addColumn<QString>("id");
    const QString berg = u"berg-balance"_s;
    // Donoghue & Stokes 2009: 0–24, 25–34, 35–44, 45–56, both ends included.
    for (const auto& [level, id] : {std::pair(0.0, "berg-older-0"), std::pair(24.0, "berg-older-0"),
                                    std::pair(25.0, "berg-older-25"), std::pair(34.0, "berg-older-25"),
                                    std::pair(35.0, "berg-older-35"), std::pair(44.0, "berg-older-35"),
                                    std::pair(45.0, "berg-older-45"), std::pair(56.0, "berg-older-45")})
        QTest::addRow("Berg %g", level)
            << berg << u"older-adults"_s << berg << level << QString::fromLatin1(id);
    // Hosoi 2023: below 0.4, 0.4 to below 0.8, from 0.8 m/s, for speed and for time.
    for (const auto& [level, id] :
         {std::pair(0.39, "speed-stroke-0"), std::pair(0.1 + 0.3, "speed-stroke-0.4"),
          std::pair(0.79, "speed-stroke-0.4"), std::pair(0.8, "speed-stroke-0.8"),
          std::pair(1.4, "speed-stroke-0.8")})
        QTest::addRow("speed %g", level) << speed << u"stroke"_s << speed << level << QString::fromLatin1(id);
    QTest::newRow("time by speed") << u"ten-metre-walk-time-comfortable"_s << u"stroke"_s << speed << 0.5
                                   << u"walk-stroke-0.4"_s;
}

void TestEvidence::theBandFollowsTheReferenceLevel()
{
    QFETCH(QString, measure);
    QFETCH(QString, population);
    QFETCH(QString, bandOf);
    QFETCH(double, level);
    QTEST(used(measure, {population, {}, {{bandOf, level}}, {}}), "id");
}

void TestEvidence::aBandAsksForAKnownLevel()
{
    QCOMPARE(used(u"berg-balance"_s, {u"older-adults"_s, {}, {}, {}}), QString());
    QCOMPARE(used(u"berg-balance"_s, {u"older-adults"_s, {}, {{u"berg-balance"_s, 24.5}}, {}}), QString());
}

void TestEvidence::aHandFitsItselfOnly()
{
    const QString peg = u"nine-hole-peg"_s;
    QCOMPARE(used(peg, {u"multiple-sclerosis"_s, u"dominant"_s, {}, {}}), u"peg-ms-dominant"_s);
    QCOMPARE(used(peg, {u"multiple-sclerosis"_s, u"non-dominant"_s, {}, {}}), u"peg-ms-non-dominant"_s);
    QCOMPARE(used(peg, {u"multiple-sclerosis"_s, {}, {}, {}}), QString());
}

void TestEvidence::medicationFitsUnlessRecordedOtherwise()
{
    auto onMedication = row(u"on"_s, 88, u"parkinson"_s);
    onMedication.condition = u"medication=on"_s;
    const auto book = with({onMedication});
    const auto usedWith = [&](const QString& medication) {
        return used(book, speed, {u"parkinson"_s, {}, {}, {{u"medication"_s, medication}}});
    };
    QCOMPARE(usedWith(u"ON"_s), u"on"_s);
    QCOMPARE(usedWith({}), u"on"_s);
    QCOMPARE(usedWith(u"off"_s), QString());
}

void TestEvidence::errorAndImportanceAreNeverMixed()
{
    const Circumstances here = {u"stroke-subacute"_s, {}, {{speed, 0.9}}, {}};
    QCOMPARE(used(speed, here, Answers::Important), u"speed-important"_s);
    QCOMPARE(used(speed, here, Answers::Error), u"speed-stroke-0.8"_s);
}

void TestEvidence::readComesBeforeMemoryThenRetestThenNumber()
{
    auto memory = row(u"a-memory"_s, 500);
    memory.checked = catalogue::Checked::Memory;
    auto raters = row(u"b-raters"_s, 400);
    raters.design = catalogue::Design::BetweenRaters;
    auto small = row(u"c-small"_s, 20);
    small.n.reset();
    const auto large = row(u"d-large"_s, 30);
    const auto twin = row(u"e-twin"_s, 30);
    const Circumstances here = {u"stroke"_s, {}, {}, {}};
    std::vector<catalogue::Threshold> rows = {memory, raters, small, twin, large};
    QStringList order;
    while (!rows.empty()) {
        order += used(with(rows), speed, here);
        std::erase_if(rows, [&](const catalogue::Threshold& each) { return each.id == order.last(); });
    }
    QCOMPARE(order, (QStringList{u"d-large"_s, u"e-twin"_s, u"c-small"_s, u"b-raters"_s, u"a-memory"_s}));
}

void TestEvidence::whatFitsButIsNotUsedIsNamed()
{
    const auto book = with(
        {row(u"small"_s, 3), row(u"other"_s, 50, u"parkinson"_s), row(u"large"_s, 30), row(u"mid"_s, 9)});
    const Evidence found = interpretation::evidence(book, speed, Answers::Error, {u"stroke"_s, {}, {}, {}});
    QCOMPARE(found.used->id, u"large"_s);
    QCOMPARE(found.notUsed.size(), 2U);
    QCOMPARE(found.notUsed[0].id, u"mid"_s);
    QCOMPARE(found.notUsed[1].id, u"small"_s);
}

QTEST_MAIN(TestEvidence)
#include "test_evidence.moc"
