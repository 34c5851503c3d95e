#include "core/letters/composer.h"
#include "tests/core/letters/letter_material.h"
#include "tests/support/test_support.h"
#include "tests/support/whole_text.h"

namespace test_whole_pages
{

using namespace letter_material;

records::Finding timed(const QString& measure, const std::vector<double>& trials, Side side = Side::None)
{
    records::Finding made = finding(measure, Quantity{trials.front(), Unit::Second}, side);
    for (const double trial : trials)
        made.trials.push_back(trial);
    made.value = Quantity{trials.back(), Unit::Second};
    return made;
}

/// A visit with something in every room of the letter; `step` is how far its results have moved.
records::Visit visitOf(const QString& id, QDate day, int step, const QString& medication)
{
    records::Finding nose = finding(u"finger-nose"_s, Grade{1}, Side::Right);
    nose.signs = {u"intention-tremor"_s};
    nose.note = u"Slow to begin."_s;
    std::vector<records::Finding> findings = {
        nose,
        finding(u"finger-nose"_s, Grade{std::min(4, 1 + step)}, Side::Left),
        finding(u"pronator-drift"_s, values::Choice{step > 0 ? u"pronation"_s : u"none"_s}, Side::Right),
        finding(u"pronator-drift"_s, Missing{values::Absence::NotAttempted, u"shoulder pain"_s}, Side::Left),
        timed(u"nine-hole-peg"_s, {28.4 + step, 27.6 + step}, Side::Right),
        step < 2 ? timed(u"nine-hole-peg"_s, {40.2, 41.0 + 9 * step}, Side::Left)
                 : finding(u"nine-hole-peg"_s, examples::unable(u"could not grasp"_s), Side::Left),
        timed(u"romberg-eyes-closed"_s, {30.0 - 12 * step}),
        finding(u"turn-180-steps"_s, Quantity{5.0 + 2 * step, Unit::Steps}),
        finding(u"tandem-steps"_s, Quantity{8.0 - 3 * step, Unit::Steps}),
        finding(u"gait-speed-comfortable"_s, Quantity{0.95 - 0.16 * step, Unit::MetrePerSecond}),
        timed(u"timed-up-and-go"_s, {12.4 + 4 * step}),
        timed(u"timed-25-foot-walk"_s, {6.1 + step}),
        finding(u"six-minute-walk"_s, Quantity{400.0 - 60 * step, Unit::Metre}),
        finding(u"cadence"_s, Quantity{104.0 - 3 * step, Unit::StepsPerMinute}),
        finding(u"berg-balance"_s, Quantity{50.0 - 6 * step, Unit::Score}),
        finding(u"sara"_s, step == 1 ? values::Value(Missing{values::Absence::Refused, u"tired"_s})
                                     : values::Value(Quantity{7.5 + 2 * step, Unit::Score}))};
    records::Visit visit =
        examples::visit(id, day, std::move(findings),
                        {{u"aid"_s, u"stick"_s}, {u"medication"_s, medication}, {u"distance_m"_s, u"10"_s}});
    visit.form = u"examination"_s;
    return visit;
}

/// A letter in which nothing is left empty, about the last of four visits: it was amended, and the medicine
/// was another at the second.
Draft full()
{
    Draft made = material();
    made.patient.diagnosis = u"Parkinson disease"_s;
    made.patient.onset = QDate(2019, 5, 14);
    made.patient.allergies = u"Penicillin: rash"_s;
    made.patient.dominantHand = records::Hand::Left;
    made.visits = {visitOf(u"z"_s, QDate(2025, 9, 12), 0, u"on"_s),
                   visitOf(u"a"_s, QDate(2025, 12, 12), 1, u"off"_s), visitOf(u"y"_s, march, 1, u"on"_s),
                   visitOf(u"b"_s, june, 2, u"on"_s)};
    made.visits.back().amendmentReason = u"Side of the peg test corrected"_s;
    made.visits.back().signedAt = june.addDays(2).startOfDay(Qt::UTC);
    records::Letter& letter = made.letter;
    letter.to = u"Dr. Oda Veld\nHill Practice"_s;
    letter.copiesTo = u"Dr. Oda Veld\nMirrit Halden\nPhysiotherapy"_s;
    letter.question = u"Is the fall risk new?"_s;
    letter.actions = u"- Review the medicines\n- See the home"_s;
    letter.history = u"Two near falls in the kitchen."_s;
    letter.medicines = u"Levodopa 100 mg, four a day"_s;
    letter.interpretation = u"Worse on the **left**."_s;
    letter.plan = u"Six weeks of balance training"_s;
    letter.safetyNet = u"Any fall with injury: call the same day"_s;
    letter.leftOut = {u"cadence"_s, u"nine-hole-peg/right"_s};
    made.happenings = {{{u"h"_s},
                        1,
                        {},
                        records::HappeningKind::Fall,
                        QDate(2026, 5, 2),
                        {},
                        records::Injury::Yes,
                        u"On the stairs"_s,
                        {},
                        u"A. Tester"_s,
                        march.startOfDay(Qt::UTC)}};
    records::Target target;
    target.measure = u"six-minute-walk"_s;
    target.value = 350;
    target.by = june;
    target.words = u"To the harbour and back"_s;
    target.agreedOn = march;
    made.targets = {target};
    made.isAsked = true;
    made.today = june.addDays(3);
    return made;
}

Draft signedOff(Draft made)
{
    made.clinic.isDemo = false;
    made.letter.state = records::LetterState::Signed;
    made.letter.author = {u"Dr. Ina Fern"_s, u"Neurologist"_s, {}};
    made.letter.signedAt = QDateTime(june.addDays(3), QTime(9, 30), Qt::UTC);
    made.letter.reference = made.visits.front().id;
    made.replaced = june.addDays(2);
    made.figures = {{u"Gait speed"_s, {120, 40}, {}, {}}};
    made.logo = Figure{{}, {30, 10}, {}, {}};
    return made;
}

/// The pages of each kind of letter from the first word to the last: as a draft in which nothing is empty, as
/// it is signed, and of a first visit about which nothing was written.
class TestWholePages : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aPageIsAsItWasRead_data()
    {
        QTest::addColumn<QString>("kind");
        QTest::addColumn<QString>("state");
        for (const QString& kind :
             {u"referral"_s, u"progress"_s, u"discharge"_s, u"plain"_s, u"handover"_s}) {
            for (const QString& state : {u"draft"_s, u"signed"_s, u"first"_s})
                QTest::addRow("%s %s", qPrintable(kind), qPrintable(state)) << kind << state;
        }
    }

    void aPageIsAsItWasRead()
    {
        QFETCH(QString, kind);
        QFETCH(QString, state);
        Draft made = state == u"signed" ? signedOff(full()) : full();
        if (state == u"first") {
            made.visits = {made.visits.back()};
            made.visits.front().author = {};
            made.patient = examples::patient({});
            made.clinic = {};
            made.letter = {};
            made.letter.visit = {u"b"_s};
            made.happenings.clear();
            made.targets.clear();
            made.isAsked = false;
        }
        made.letter.kind = kind;
        made.letter.hasAnnex = kind == u"referral";
        const Composer composer(made.made(), kindOf(kind, kinds({})), book(), {});
        const Composition page =
            composer.composed(kind == u"progress" ? composer.rows() / 2 : composer.rows());
        const QString text =
            QStringList{page.title, page.identity, page.footer, page.draftMark, page.demoMark, page.body}
                .join(u'\n')
                .replace(u"</"_s, u"\n</"_s);
        const QString other = whole_text::otherThanRead(u"page-%1-%2.html"_s.arg(kind, state), text);
        QVERIFY2(other.isEmpty(), qPrintable(other));
    }
};

HOUSE_TEST(TestWholePages)

} // namespace test_whole_pages

#include "test_whole_pages.moc"
