#include "core/records/whole_record.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_whole_record
{

using examples::finding;
using records::Extent;
using records::WholeRecord;

const QString walk = u"timed-up-and-go"_s;
const QString scale = u"berg-balance"_s;
const QDate march(2026, 3, 12);
const QDate june(2026, 6, 12);

/// A walk in March, a scale in June, a fall in between, and what was said of each.
WholeRecord record()
{
    WholeRecord made;
    made.patient = examples::patient({});
    made.patient.choices = {{walk, u"up-stroke"_s, {}, {}, {}}, {scale, u"berg-pd"_s, {}, {}, {}}};
    made.patient.declared = {{walk, {u"march"_s}, {u"june"_s}, false, {}, {}, {}}};
    made.visits = {
        examples::visit(u"march"_s, march, {finding(walk, values::Quantity{12, values::Unit::Second})}),
        examples::visit(u"june"_s, june,
                        {finding(walk, values::Quantity{11, values::Unit::Second}),
                         finding(scale, values::Quantity{40, values::Unit::Score})})};
    records::Happening block;
    block.id = {u"block"_s};
    block.kind = records::HappeningKind::TherapyBlock;
    block.from = {2026, 4, 1};
    block.until = QDate(2026, 5, 1);
    made.happenings = {block};
    for (const records::Visit& visit : made.visits)
        made.asked.push_back({visit.series, {}, {}});
    for (const auto& [measure, day] : {std::pair(walk, march), std::pair(scale, june)}) {
        records::Target target;
        target.measure = measure;
        target.agreedOn = day;
        made.targets.push_back(target);
    }
    return made;
}

/// "march june · block · march june · timed-up-and-go · …": what is left of the record.
QString left(const Extent& extent, WholeRecord whole = record())
{
    const auto kept = records::within(std::move(whole), extent);
    if (!kept)
        return u"nothing"_s;
    QStringList parts(6);
    for (const records::Visit& visit : kept->visits)
        parts[0] += u' ' + visit.series.text + u' ' + QString::number(visit.findings.size());
    for (const records::Happening& happening : kept->happenings)
        parts[1] += u' ' + happening.id.text;
    for (const records::Asked& asked : kept->asked)
        parts[2] += u' ' + asked.visit.text;
    for (const records::Target& target : kept->targets)
        parts[3] += u' ' + target.measure;
    for (const records::EvidenceChoice& choice : kept->patient.choices)
        parts[4] += u' ' + choice.measure;
    for (const records::DeclaredEqual& word : kept->patient.declared)
        parts[5] += u' ' + word.measure;
    return parts.join(u" ·"_s).trimmed();
}

Extent days(std::optional<QDate> from, std::optional<QDate> until)
{
    Extent extent;
    extent.from = from;
    extent.until = until;
    return extent;
}

Extent of(const QStringList& measures)
{
    Extent extent;
    extent.measures = measures;
    return extent;
}

class TestWholeRecord : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void withoutLimitsAllOfItIsMeant();
    void daysTakeWhatLiesInThem();
    void aSpanThatReachesInIsTaken();
    void measuresTakeTheirVisitsTargetsAndWords();
    void whereNothingLiesInTheExtentThereIsNoRecord();
};

void TestWholeRecord::withoutLimitsAllOfItIsMeant()
{
    QCOMPARE(records::within(record(), {}), std::optional(record()));
    WholeRecord bare;
    bare.patient = examples::patient({});
    QCOMPARE(records::within(bare, {}), std::optional(bare));
}

void TestWholeRecord::daysTakeWhatLiesInThem()
{
    const QString inJune = u"june 2 · · june · berg-balance · timed-up-and-go berg-balance ·"_s;
    QCOMPARE(left(days(june, {})), inJune);
    QCOMPARE(left(days(june, june)), inJune);
    QCOMPARE(left(days({}, march)),
             u"march 1 · · march · timed-up-and-go · timed-up-and-go berg-balance ·"_s);
    QCOMPARE(left(days(march, june)), left({}));
}

void TestWholeRecord::aSpanThatReachesInIsTaken()
{
    const QString blockAlone = u"· block · · · timed-up-and-go berg-balance ·"_s;
    QCOMPARE(left(days(QDate(2026, 5, 1), QDate(2026, 5, 31))), blockAlone);
    QCOMPARE(left(days(march.addDays(1), QDate(2026, 4, 1))), blockAlone);
    QCOMPARE(left(days(QDate(2026, 5, 2), QDate(2026, 5, 31))), u"nothing"_s);
    QCOMPARE(left(days(march.addDays(1), QDate(2026, 3, 31))), u"nothing"_s);
}

void TestWholeRecord::measuresTakeTheirVisitsTargetsAndWords()
{
    QCOMPARE(left(of({scale})), u"june 1 · block · june · berg-balance · berg-balance ·"_s);
    QCOMPARE(left(of({walk})),
             u"march 1 june 1 · block · march june · timed-up-and-go · timed-up-and-go · timed-up-and-go"_s);
}

void TestWholeRecord::whereNothingLiesInTheExtentThereIsNoRecord()
{
    QCOMPARE(left(of({u"finger-nose"_s})), u"nothing"_s); // the block alone tells nothing of that test
    WholeRecord aimed = record();
    aimed.visits.clear();
    QCOMPARE(left(of({scale}), aimed), u"· block · · berg-balance · berg-balance ·"_s);
}

HOUSE_TEST(TestWholeRecord)

} // namespace test_whole_record

#include "test_whole_record.moc"
