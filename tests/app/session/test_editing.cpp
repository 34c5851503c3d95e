#include "core/records/visit.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_editing
{

using clinic_desk::Desk;
using session::Typing;

struct AtDraft : Desk {
    records::VisitId draft;

    AtDraft()
    {
        session->choosePatient(add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        draft = session->startVisit(clinic_desk::today)->id;
    }
    QString aid() const { return records::recorded(session->visitInFocus()->conditions, u"aid"_s); }
};

records::Finding tapping(int grade, records::Side side = records::Side::Right)
{
    records::Finding finding;
    finding.measure = u"toe-tapping"_s;
    finding.side = side;
    finding.value = values::Grade{grade};
    return finding;
}

class TestEditing : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void conditionsAreTakenBackInTheirTurn();
    void confirmingIsTakenBackToo();
    void savingTheSameConditionsIsNoEdit();
    void aGroupIsNamedWhole();
};

void TestEditing::conditionsAreTakenBackInTheirTurn()
{
    AtDraft desk;
    QVERIFY(desk.session->saveConditions(desk.draft, {{u"aid"_s, u"stick"_s}}, true));
    QVERIFY(desk.session->saveFinding(desk.draft, tapping(2)));
    QVERIFY(desk.session->saveConditions(desk.draft, {{u"aid"_s, u"rollator"_s}}, true));
    QVERIFY(desk.session->undo());
    QCOMPARE(desk.aid(), u"stick"_s);
    QVERIFY(desk.session->undo());
    QVERIFY(desk.session->visitInFocus()->findings.empty());
    QCOMPARE(desk.aid(), u"stick"_s);
    QVERIFY(desk.session->undo());
    QCOMPARE(desk.aid(), QString());
    QVERIFY(desk.session->edits().last().empty());
    for (int step = 0; step < 3; ++step)
        QVERIFY(desk.session->redo());
    QCOMPARE(desk.aid(), u"rollator"_s);
    QCOMPARE(desk.session->visitInFocus()->findings, std::vector{tapping(2)});
}

void TestEditing::confirmingIsTakenBackToo()
{
    AtDraft desk;
    QVERIFY(desk.session->saveConditions(desk.draft, {{u"aid"_s, u"stick"_s}}, false));
    QVERIFY(desk.session->saveConditions(desk.draft, {{u"aid"_s, u"stick"_s}}, true));
    QVERIFY(desk.session->undo());
    QVERIFY(!desk.session->visitInFocus()->conditionsConfirmed);
    QCOMPARE(desk.aid(), u"stick"_s);
}

void TestEditing::savingTheSameConditionsIsNoEdit()
{
    AtDraft desk;
    QVERIFY(desk.session->saveConditions(desk.draft, {}, false));
    QVERIFY(desk.session->edits().last().empty());
}

void TestEditing::aGroupIsNamedWhole()
{
    AtDraft desk;
    QVERIFY(desk.session->saveFindings(desk.draft, {tapping(0), tapping(0, records::Side::Left)}));
    QVERIFY(desk.session->saveFinding(desk.draft, tapping(1)));
    QCOMPARE(desk.session->edits().last().size(), size_t(1));
    QVERIFY(desk.session->undo());
    QCOMPARE(desk.session->edits().last().size(), size_t(2));
    QCOMPARE(desk.session->edits().last().front().side, records::Side::Right);
    QVERIFY(desk.session->undo());
    QCOMPARE(desk.session->edits().lastUndone().size(), size_t(2));
    QCOMPARE(desk.session->edits().lastUndone().front().side, records::Side::Right);
}

HOUSE_TEST(TestEditing)

} // namespace test_editing

#include "test_editing.moc"
