#include "core/storage/visits.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_withdrawing
{

using base::ErrorKind;
using clinic_desk::Desk;

const QString wrongPerson = u"wrong person"_s;

/// A patient with a signed visit in each of three months, the last in focus.
struct ThreeVisits : Desk {
    std::vector<records::VisitId> ids;

    ThreeVisits()
    {
        session->choosePatient(add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        for (const auto& [month, grade] : {std::pair(1, 1), std::pair(2, 4), std::pair(3, 2)})
            ids.push_back(addVisit(QDate(2026, month, 2), true, grade));
    }

    size_t visitsOfThePass() const
    {
        size_t count = 0;
        const auto passed =
            session->eachPatient([&](const records::Patient&, const std::vector<records::Visit>& visits) {
                count += visits.size();
            });
        return passed ? count : 99;
    }
};

/// A visit entered in error, as every screen meets it.
class TestWithdrawing : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itCountsNoMoreAndStaysReadable()
    {
        ThreeVisits desk;
        QCOMPARE(desk.session->changes().front().previous->reference.visit, desk.ids[1]);
        QSignalSpy changed(desk.session.get(), &session::Session::visitsChanged);
        QVERIFY(desk.session->withdrawVisit(desk.ids[1], wrongPerson));
        QCOMPARE(changed.size(), 1);
        QCOMPARE(desk.session->visits().size(), size_t(2));
        QCOMPARE(desk.session->onRecord().size(), size_t(3));
        QCOMPARE(desk.visitsOfThePass(), size_t(2));
        QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[1])); // in sight, as it is
        QCOMPARE(desk.session->visitInFocus()->findings.size(), size_t(1));
        QVERIFY(desk.session->changes().empty());
        desk.session->chooseVisit(desk.ids[2]);
        QCOMPARE(desk.session->changes().front().previous->reference.visit, desk.ids[0]);
    }

    void itIsNoReferenceAnyMore()
    {
        ThreeVisits desk;
        desk.session->chooseReference(desk.ids[1]);
        QVERIFY(desk.session->withdrawVisit(desk.ids[1], wrongPerson));
        desk.session->chooseVisit(desk.ids[2]);
        QVERIFY(!desk.session->focus().reference);
        desk.session->chooseReference(desk.ids[1]);
        QVERIFY(!desk.session->focus().reference);
        desk.session->moveReference(-1); // over it
        QCOMPARE(desk.session->focus().reference, std::optional(desk.ids[0]));
        desk.session->moveReference(1);
        QVERIFY(!desk.session->focus().reference);
    }

    void theLineOfThisVisitReachesItStepByStep()
    {
        ThreeVisits desk;
        QVERIFY(desk.session->withdrawVisit(desk.ids[1], wrongPerson));
        desk.session->chooseVisit(desk.ids[2]);
        desk.session->moveVisit(-1);
        QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[1]));
        desk.session->moveVisit(-1);
        QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[0]));
    }

    void openingThePatientShowsTheNewestThatCounts()
    {
        ThreeVisits desk;
        QVERIFY(desk.session->withdrawVisit(desk.ids[2], wrongPerson));
        desk.session->choosePatient(*desk.session->focus().patient);
        QCOMPARE(desk.session->focus().visit, std::optional(desk.ids[1]));
    }

    void theOnlyVisitIsStillShown()
    {
        Desk desk;
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        const auto only = desk.addVisit(QDate(2026, 3, 2));
        QVERIFY(desk.session->withdrawVisit(only, wrongPerson));
        desk.session->choosePatient(*desk.session->focus().patient);
        QCOMPARE(desk.session->focus().visit, std::optional(only));
        QVERIFY(desk.session->visits().empty());
    }

    void itsConditionsAreNotCarriedForward()
    {
        Desk desk;
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        const auto visit = desk.session->startVisit(QDate(2026, 3, 2));
        QVERIFY(desk.session->saveConditions(visit->id, {{u"aid"_s, u"walker"_s}}, true));
        QVERIFY(desk.session->signVisit(visit->id, *desk.answers.signer));
        QVERIFY(desk.session->withdrawVisit(visit->id, wrongPerson));
        QVERIFY(desk.session->startVisit(clinic_desk::today)->conditions.isEmpty());
    }

    void undoDoesNotReachIt()
    {
        ThreeVisits desk;
        QVERIFY(desk.session->withdrawVisit(desk.ids[2], wrongPerson));
        QVERIFY(desk.session->edits().last().empty());
        QVERIFY(desk.session->undo());
        QVERIFY(desk.session->visitInFocus()->withdrawn);
    }

    void itIsDoneInTheNameOfThePersonAtTheKeyboard()
    {
        ThreeVisits desk;
        desk.session->setPerson({u"B. Keys"_s, u"neurologist"_s, u"N-2"_s});
        const auto withdrawn = desk.session->withdrawVisit(desk.ids[2], wrongPerson);
        QCOMPARE(withdrawn->withdrawn->author, desk.session->person());
    }
};

HOUSE_TEST(TestWithdrawing)

} // namespace test_withdrawing

#include "test_withdrawing.moc"
