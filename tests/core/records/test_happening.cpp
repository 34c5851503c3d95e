#include "core/records/happening.h"

#include "core/records/check.h"
#include "core/records/patient.h"
#include "core/records/target.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <limits>

using namespace Qt::StringLiterals;

namespace test_happening
{

using records::Happening;
using records::HappeningKind;
using records::Injury;
using records::Side;
using records::Target;

const QDate today(2026, 3, 12);
const base::Phrasebook english;

records::Patient ida()
{
    records::Patient patient;
    patient.family = u"Halden"_s;
    patient.born = QDate(1951, 3, 4);
    return patient;
}

Happening happening(HappeningKind kind, QDate from, std::optional<QDate> until = {})
{
    Happening made;
    made.id = {u"a"_s};
    made.version = 1;
    made.kind = kind;
    made.from = from;
    made.until = until;
    return made;
}

Happening fall(Injury injury = Injury::NotStated)
{
    Happening made = happening(HappeningKind::Fall, {2026, 2, 1});
    made.injury = injury;
    return made;
}

Target walk(double metres)
{
    Target target;
    target.measure = u"six-minute-walk"_s;
    target.value = metres;
    target.agreedOn = QDate(2026, 2, 1);
    return target;
}

QString saidOf(const std::optional<base::Error>& wrong)
{
    return wrong ? wrong->what.english() : QString();
}

class TestHappening : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyKindHasItsOwnCodeAndWords()
    {
        QStringList words;
        for (int i = 0; i <= int(HappeningKind::Other); ++i) {
            const auto kind = HappeningKind(i);
            QCOMPARE(records::happeningKindFromCode(code(kind)), std::optional(kind));
            words += records::written(kind, english);
        }
        QCOMPARE(words.removeDuplicates(), 0);
        QCOMPARE(words.size(), 11);
        QCOMPARE(records::happeningKindFromCode(u"Fall"_s), std::nullopt);
        for (const Injury injury : {Injury::NotStated, Injury::Yes, Injury::No})
            QCOMPARE(records::injuryFromCode(code(injury)), std::optional(injury));
        QCOMPARE(records::injuryFromCode(u"maybe"_s), std::nullopt);
    }

    void itIsToldInWords()
    {
        QCOMPARE(records::kindWords(fall(), english), u"fall"_s);
        QCOMPARE(records::kindWords(fall(Injury::Yes), english), u"fall with injury"_s);
        QCOMPARE(records::kindWords(fall(Injury::No), english), u"fall without injury"_s);
        QCOMPARE(records::daysInWords(fall(), english), u"01-Feb-2026"_s);
        QCOMPARE(records::daysInWords(
                     happening(HappeningKind::TherapyBlock, {2026, 1, 5}, QDate(2026, 2, 20)), english),
                 u"05-Jan-2026 to 20-Feb-2026"_s);
    }

    void whatIsAllowedIsTaken()
    {
        std::vector<Happening> all = {fall(), fall(Injury::Yes), fall(Injury::No)};
        all.push_back(happening(HappeningKind::Relapse, today, today));
        all.push_back(happening(HappeningKind::Surgery, {1951, 3, 4}, today));
        all.back().words = u"hip\nleft"_s;
        all.push_back(happening(HappeningKind::Other, today));
        all.back().words = u"moved house"_s;
        for (const Happening& each : all)
            QCOMPARE(saidOf(records::wrongWith(each, ida(), today)), QString());
    }

    void whatIsWrongIsSaid_data()
    {
        QTest::addColumn<Happening>("wrong");
        QTest::addColumn<QString>("said");
        const auto first = u"First day of the event: a day from 01-Jan-1880 to today."_s;
        const auto relapse = HappeningKind::Relapse;
        const auto row = [](const char* name, const Happening& wrong, const QString& said) {
            QTest::newRow(name) << wrong << said;
        };
        row("no day", happening(relapse, {}), first);
        row("tomorrow", happening(relapse, today.addDays(1)), first);
        row("long ago", happening(relapse, {1879, 12, 31}), first);
        row("before birth", happening(relapse, {1951, 3, 3}),
            u"First day of the event: not before the birth date."_s);
        row("into the future", happening(relapse, today, today.addDays(1)),
            u"Last day of the event: a day from 01-Jan-1880 to today."_s);
        row("no last day", happening(relapse, today, QDate()),
            u"Last day of the event: a day from 01-Jan-1880 to today."_s);
        row("ends before it begins", happening(relapse, {2026, 2, 2}, QDate(2026, 2, 1)),
            u"Last day of the event: not before the first."_s);
        Happening made = happening(relapse, today);
        made.injury = Injury::No;
        row("injured by a relapse", made, u"Injury: stated of a fall alone."_s);
        row("other than what", happening(HappeningKind::Other, today),
            u"An event of another kind needs words that say what happened."_s);
        made = fall();
        made.words = u"fell\u202e"_s;
        row("a control", made,
            u"Words on the event: character 5 is an invisible control character (U+202E); type the text anew."_s);
        made.words = QString(4'001, u'x');
        row("too many words", made, u"Words on the event: at most 4000 characters."_s);
        made = fall();
        made.takenBackFor = QString(501, u'x');
        row("too long a reason", made, u"Reason: at most 500 characters."_s);
    }

    void whatIsWrongIsSaid()
    {
        QFETCH(Happening, wrong);
        QFETCH(QString, said);
        QCOMPARE(saidOf(records::wrongWith(wrong, ida(), today)), said);
    }

    void theNewestVersionCountsUnlessItWasTakenBack()
    {
        Happening first = fall();
        Happening second = first;
        second.version = 2;
        second.from = QDate(2026, 1, 1);
        Happening other = happening(HappeningKind::Relapse, {2026, 1, 20});
        other.id = {u"b"_s};
        Happening gone = other;
        gone.version = 2;
        gone.takenBackFor = u"another patient's"_s;
        QCOMPARE(records::newest({second, first, other, gone}), (std::vector{second, gone}));
        QCOMPARE(records::current({gone, first, other, second}), std::vector{second});
        QCOMPARE(records::current({other, first}), (std::vector{other, first}));
        QVERIFY(records::current(std::vector<Happening>()).empty());
    }

    void theNewestTargetOfAMeasureAndSideStands()
    {
        Target peg = walk(20);
        peg.measure = u"nine-hole-peg"_s;
        peg.side = Side::Left;
        Target right = peg;
        right.side = Side::Right;
        Target dropped = walk(400);
        dropped.droppedFor = u"moved"_s;
        const std::vector all{walk(400), peg, dropped, right};
        QCOMPARE(records::newest(all), (std::vector{dropped, peg, right}));
        QCOMPARE(records::newestOf(all, u"six-minute-walk"_s, Side::None), &all[2]);
        QCOMPARE(records::newestOf(all, u"nine-hole-peg"_s, Side::None), nullptr);
    }

    void aTargetIsHeldAgainstTheCatalogue_data()
    {
        QTest::addColumn<Target>("target");
        QTest::addColumn<QString>("said");
        const auto row = [](const char* name, const Target& target, const QString& said = {}) {
            QTest::newRow(name) << target << said;
        };
        const auto of = [](const QString& measure, double value, Side side = Side::None) {
            Target target = walk(value);
            target.measure = measure;
            target.side = side;
            return target;
        };
        row("a number", walk(400));
        row("a time on a side", of(u"nine-hole-peg"_s, 20.5, Side::Left));
        row("a step of a grade", of(u"finger-nose"_s, 1, Side::Right));
        row("between two steps", of(u"finger-nose"_s, 1.5, Side::Right),
            u"Finger to nose: 0 to 4, whole numbers."_s);
        row("beyond the scale", walk(1'001), u"6-minute walk distance: 0 to 1000 m, whole numbers."_s);
        row("no number", walk(std::numeric_limits<double>::quiet_NaN()),
            u"6-minute walk distance: 0 to 1000 m, whole numbers."_s);
        row("no measure", of(u"no-such"_s, 1), u"“no-such” is not a measure of the catalogue."_s);
        row("no side", of(u"nine-hole-peg"_s, 20), u"Nine-hole peg test is recorded right or left."_s);
        row("a side too many", of(u"six-minute-walk"_s, 400, Side::Left),
            u"6-minute walk distance is recorded once, without a side."_s);
        row("words", of(u"pronator-drift"_s, 1, Side::Left),
            u"Pronator drift is answered in words, so it can have no target."_s);
        row("no better end", of(u"cadence"_s, 100),
            u"Cadence: neither end is better, so it can have no target."_s);
        Target target = walk(400);
        target.agreedOn = today.addDays(1);
        row("agreed tomorrow", target, u"Day the target was agreed: a day from 01-Jan-1880 to today."_s);
        const auto day = u"Day of the target: from the day it was agreed to ten years later."_s;
        target = walk(400);
        target.by = target.agreedOn;
        row("by the same day", target);
        target.by = QDate(2036, 2, 1);
        row("by ten years later", target);
        target.by = QDate(2036, 2, 2);
        row("by later than that", target, day);
        target.by = QDate(2026, 1, 31);
        row("by an earlier day", target, day);
        target.by = QDate();
        row("by no day", target, day);
        target = walk(400);
        target.words = u"to the \x1b[31mharbour"_s;
        row("a control", target,
            u"Words on the target: character 8 is an invisible control character (U+001B); type the text anew."_s);
        target = walk(400);
        target.droppedFor = QString(501, u'x');
        row("too long a reason", target, u"Reason: at most 500 characters."_s);
    }

    void aTargetIsHeldAgainstTheCatalogue()
    {
        QFETCH(Target, target);
        QFETCH(QString, said);
        QCOMPARE(saidOf(records::wrongWith(target, ida(), examples::catalogue(), today)), said);
    }
};

HOUSE_TEST(TestHappening)

} // namespace test_happening

#include "test_happening.moc"
