#include "app/changes/arrangement.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_arrangement
{

using changes::Asked;
using changes::Group;
using changes::Line;
using changes::Order;
using changes::Row;
using judging::OutcomeKind;

Row row(const QString& measure, const QString& section, OutcomeKind kind)
{
    Row made;
    made.measure = measure;
    made.sectionId = section.toLower();
    made.section = section;
    made.occasion.finding.measure = measure.toLower();
    made.outcome.kind = kind;
    return made;
}

std::vector<Row> sample()
{
    return {row(u"Tapping"_s, u"Arms"_s, OutcomeKind::AsBefore),
            row(u"Nose"_s, u"Arms"_s, OutcomeKind::Worse), row(u"Shin"_s, u"Legs"_s, OutcomeKind::AsBefore),
            row(u"Walk"_s, u"Legs"_s, OutcomeKind::NotCompared),
            row(u"Rise"_s, u"Legs"_s, OutcomeKind::First)};
}

const std::vector<size_t> weights = {1, 0, 2, 4, 3};

/// "Nose", "[2 tests …]", "(Arms)"
QStringList told(const std::vector<Row>& rows, const Asked& asked)
{
    QStringList lines;
    for (const Line& line : changes::arranged(rows, weights, asked)) {
        lines += line.kind == Line::Kind::Row     ? rows[line.row].measure
                 : line.kind == Line::Kind::Title ? u"(%1)"_s.arg(line.words)
                                                  : u"[%1]"_s.arg(line.words);
    }
    return lines;
}

class TestArrangement : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void byWeightWhatIsAsBeforeIsOneLine();
    void bySectionEachHasItsOwn();
    void aGroupIsNotFolded();
    void whatIsTypedFindsTitleAndSection();
    void measuresCanBeAskedFor();
    void everyRowIsInOneGroup();
};

void TestArrangement::byWeightWhatIsAsBeforeIsOneLine()
{
    Asked asked;
    QCOMPARE(told(sample(), asked),
             (QStringList{u"Nose"_s, u"[2 tests as before: Arms 1, Legs 1]"_s, u"Rise"_s, u"Walk"_s}));
    asked.open = {u"all"_s};
    QCOMPARE(told(sample(), asked), (QStringList{u"Nose"_s, u"[2 tests as before: Arms 1, Legs 1]"_s,
                                                 u"Tapping"_s, u"Shin"_s, u"Rise"_s, u"Walk"_s}));
}

void TestArrangement::bySectionEachHasItsOwn()
{
    Asked asked;
    asked.order = Order::Section;
    QCOMPARE(told(sample(), asked), (QStringList{u"(Arms)"_s, u"Nose"_s, u"[1 test as before]"_s, u"(Legs)"_s,
                                                 u"Walk"_s, u"Rise"_s, u"[1 test as before]"_s}));
    asked.open = {u"legs"_s};
    QCOMPARE(told(sample(), asked).mid(6), (QStringList{u"[1 test as before]"_s, u"Shin"_s}));
}

void TestArrangement::aGroupIsNotFolded()
{
    Asked asked;
    asked.group = Group::AsBefore;
    QCOMPARE(told(sample(), asked), (QStringList{u"Tapping"_s, u"Shin"_s}));
    asked.group = Group::First;
    QCOMPARE(told(sample(), asked), QStringList{u"Rise"_s});
    asked.group = Group::Better;
    QVERIFY(told(sample(), asked).isEmpty());
}

void TestArrangement::whatIsTypedFindsTitleAndSection()
{
    Asked asked;
    asked.typed = u"TAP"_s;
    QCOMPARE(told(sample(), asked), QStringList{u"Tapping"_s});
    asked.typed = u"legs"_s;
    QCOMPARE(told(sample(), asked), (QStringList{u"Shin"_s, u"Rise"_s, u"Walk"_s}));
}

void TestArrangement::measuresCanBeAskedFor()
{
    Asked asked;
    asked.measures = {u"shin"_s, u"nose"_s};
    QCOMPARE(told(sample(), asked), (QStringList{u"Nose"_s, u"Shin"_s}));
}

void TestArrangement::everyRowIsInOneGroup()
{
    const auto rows = sample();
    qsizetype together = 0;
    for (const Group group : changes::groups) {
        if (group != Group::All)
            together += changes::countOf(rows, group);
    }
    QCOMPARE(together, changes::countOf(rows, Group::All));
}

HOUSE_TEST(TestArrangement)

} // namespace test_arrangement

#include "test_arrangement.moc"
