#include "app/visits/visit_draft.h"

#include "tests/app/visits/examination_desk.h"
#include "tests/support/test_support.h"

#include <QFile>

using namespace Qt::StringLiterals;

namespace test_visit_draft
{

using records::Finding;
using visits::Entry;
using visits::Place;
using visits::VisitDraft;

const Place tapping{u"finger-tapping"_s, records::Side::Right};

Entry grade(int step)
{
    Entry entry;
    entry.value = values::Grade{step};
    return entry;
}

/// A clinic with one open visit, and its draft.
struct Writing {
    desk::Desk desk;
    VisitDraft draft{*desk.session};

    Writing()
    {
        desk.startVisit(QDate(2026, 3, 4));
        draft.open(desk.session->focus().visit);
    }
    /// As another reader of the file sees it.
    std::optional<Finding> inFile(const Place& place)
    {
        const auto clock = [] { return QDateTime(QDate(2026, 3, 4), QTime(9, 30), Qt::UTC); };
        const auto opened =
            session::Session::open(desk.path(), desk::book(), {u"reader"_s, clock}, records::Opening::ToRead);
        const auto& again = *opened;
        again->choosePatient(desk.session->patientInFocus().id);
        const Finding* found = again->visitInFocus()->finding(place.measure, place.side);
        return found == nullptr ? std::nullopt : std::optional(*found);
    }
};

class TestVisitDraft : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsEnteredIsStoredAtOnce()
    {
        Writing writing;
        QVERIFY(writing.draft.enter(tapping, grade(2)));
        QVERIFY(writing.inFile(tapping)->value == values::Value(values::Grade{2}));
        QVERIFY(writing.draft.giveNote(tapping, u"slower at the end"_s, session::Typing::Anew));
        QVERIFY(writing.draft.giveSigns(tapping, {u"halts"_s}));
        QVERIFY(writing.draft.enter(tapping, grade(3)));
        const auto stored = writing.inFile(tapping);
        QVERIFY(stored->value == values::Value(values::Grade{3}));
        QCOMPARE(stored->note, u"slower at the end"_s);
        QCOMPARE(stored->signs, QStringList{u"halts"_s});
    }

    void whatFollowsFromAnUnsteadyHoldIsSaidAndTakenBack()
    {
        const Place hold{u"romberg-eyes-open"_s, records::Side::None};
        const Place sign{u"romberg-sign"_s, records::Side::None};
        const auto held = [](double seconds) {
            Entry entry;
            entry.value = values::Quantity{seconds, values::Unit::Second};
            entry.trials = {seconds};
            return entry;
        };
        Writing writing;
        QVERIFY(writing.draft.enter(hold, held(12)));
        QVERIFY(writing.draft.sayWhatFollows(hold.measure));
        QVERIFY(writing.inFile(sign)->value == values::Value(values::Choice{u"unsteady-eyes-open"_s}));
        QVERIFY(writing.draft.enter(hold, held(60)));
        QVERIFY(writing.draft.sayWhatFollows(hold.measure));
        QVERIFY(!writing.inFile(sign));
        // What someone has said themselves stays.
        Entry negative;
        negative.value = values::Choice{u"negative"_s};
        QVERIFY(writing.draft.enter(sign, negative));
        QVERIFY(writing.draft.enter(hold, held(12)));
        QVERIFY(writing.draft.sayWhatFollows(hold.measure));
        QVERIFY(writing.inFile(sign)->value == negative.value);
        negative.value = values::Choice{u"unsteady-eyes-open"_s};
        QVERIFY(writing.draft.enter(sign, negative));
        QVERIFY(writing.draft.enter(hold, held(60)));
        QVERIFY(writing.draft.sayWhatFollows(hold.measure));
        QVERIFY(writing.inFile(sign)->value == negative.value);
    }

    void clearingKeepsWhatStandsBesideTheValue()
    {
        Writing writing;
        QVERIFY(writing.draft.enter(tapping, grade(2)));
        QVERIFY(writing.draft.clear(tapping));
        QVERIFY(!writing.inFile(tapping));
        QVERIFY(writing.draft.enter(tapping, grade(2)));
        QVERIFY(writing.draft.giveNote(tapping, u"pain"_s, session::Typing::Anew));
        QVERIFY(writing.draft.clear(tapping));
        QCOMPARE(writing.inFile(tapping)->note, u"pain"_s);
        QVERIFY(!values::isDone(writing.inFile(tapping)->value));
    }

    void aRefusedTextBringsBackWhatWasThereBefore()
    {
        Writing writing;
        QVERIFY(writing.draft.enter(tapping, grade(1)));
        const std::optional<Finding> before = *writing.draft.stored(tapping);
        QVERIFY(writing.draft.enter(tapping, grade(4)));
        QVERIFY(writing.draft.takeBack(tapping, before));
        QVERIFY(writing.inFile(tapping)->value == values::Value(values::Grade{1}));
        QVERIFY(writing.draft.takeBack(tapping, std::nullopt));
        QVERIFY(!writing.inFile(tapping));
    }

    void aStateWaitsForItsReasonUntilAValueIsEntered()
    {
        Writing writing;
        writing.draft.await(tapping, values::Absence::NotAttempted);
        QVERIFY(writing.draft.awaited(tapping));
        QVERIFY(!writing.inFile(tapping));
        Entry entry;
        entry.value = values::Missing{values::Absence::NotAttempted, u"cast"_s};
        QVERIFY(writing.draft.enter(tapping, entry));
        QVERIFY(!writing.draft.awaited(tapping));
        QVERIFY(writing.draft.giveReason(tapping, u"cast on the wrist"_s, session::Typing::Further));
        QCOMPARE(std::get<values::Missing>(writing.inFile(tapping)->value).reason, u"cast on the wrist"_s);
    }

    void aNoteThatCannotBeStoredIsHeldUntilItIs()
    {
        Writing writing;
        const QString endless(100'000, u'x');
        QVERIFY(!writing.draft.giveNote(tapping, endless, session::Typing::Anew));
        QCOMPARE(writing.draft.heldNotes().at(tapping), endless);
        QVERIFY(!writing.inFile(tapping));
        QVERIFY(writing.draft.giveNote(tapping, u"short"_s, session::Typing::Further));
        QVERIFY(writing.draft.heldNotes().empty());
        QCOMPARE(writing.inFile(tapping)->note, u"short"_s);
    }

    void refusedTextsWaitForTheirVisit()
    {
        Writing writing;
        const auto first = writing.draft.id();
        writing.draft.holdTexts(tapping, {u"12x"_s});
        writing.desk.startVisit(QDate(2026, 3, 3));
        writing.draft.open(writing.desk.session->focus().visit);
        QVERIFY(writing.draft.takeHeldTexts().empty());
        writing.draft.open(first);
        QCOMPARE(writing.draft.takeHeldTexts().at(tapping), QStringList{u"12x"_s});
        QVERIFY(writing.draft.takeHeldTexts().empty());
    }

    void anExceptionHoldsOnBothSides()
    {
        Writing writing;
        QVERIFY(writing.draft.giveException(tapping.measure, u"medication"_s, u"off"_s));
        for (const records::Side side : {records::Side::Right, records::Side::Left})
            QCOMPARE(writing.inFile({tapping.measure, side})->exceptions.value(u"medication"_s), u"off"_s);
        QVERIFY(writing.draft.giveException(tapping.measure, u"medication"_s, {}));
        QVERIFY(!writing.inFile(tapping));
    }

    void aSignedVisitIsLeftAsItIs()
    {
        Writing writing;
        QVERIFY(writing.draft.enter(tapping, grade(2)));
        QVERIFY(
            writing.desk.session->signVisit(*writing.draft.id(), {u"A. Moor"_s, u"neurologist"_s, u"N-1"_s}));
        QVERIFY(writing.draft.isReadOnly());
        QVERIFY(writing.draft.enter(tapping, grade(4)));
        QVERIFY(writing.draft.clear(tapping));
        QVERIFY(writing.draft.giveNote(tapping, u"later"_s, session::Typing::Anew));
        QVERIFY(writing.draft.takeBack(tapping, std::nullopt));
        QVERIFY(writing.draft.confirmConditions());
        QVERIFY(writing.draft.giveConditions({{u"aid"_s, u"stick"_s}}));
        QVERIFY(writing.inFile(tapping)->value == values::Value(values::Grade{2}));
        QVERIFY(writing.inFile(tapping)->note.isEmpty());
        QVERIFY(writing.desk.session->visitInFocus()->conditions.isEmpty());
    }
};

HOUSE_TEST(TestVisitDraft)

} // namespace test_visit_draft

#include "test_visit_draft.moc"
