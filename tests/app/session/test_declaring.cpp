#include "app/session/session.h"

#include "core/judging/change.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QSignalSpy>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace test_declaring
{

using base::ErrorKind;
using clinic_desk::Desk;

const QString walk = u"ten-metre-walk-time-comfortable"_s;

const records::Conditions known = {{u"aid"_s, u"none"_s},           {u"orthosis"_s, u"none"_s},
                                   {u"footwear"_s, u"own-shoes"_s}, {u"assistance"_s, u"none"_s},
                                   {u"start"_s, u"moving"_s},       {u"distance_m"_s, u"10"_s},
                                   {u"surface"_s, u"hard-floor"_s}};

/// A patient who walked twice; nobody wrote down the aid of the first time.
struct Walked : Desk {
    records::Patient patient = add(u"Halden"_s, u"Ida"_s, QDate(1951, 3, 4), u"H-1"_s);
    records::VisitId first;
    records::VisitId second;

    Walked()
    {
        session->choosePatient(patient.id);
        records::Conditions withoutAid = known;
        withoutAid.remove(u"aid"_s);
        first = walked(QDate(2026, 2, 2), 14, withoutAid);
        second = walked(QDate(2026, 3, 2), 10, known, false);
    }

    records::VisitId walked(QDate day, double seconds, const records::Conditions& conditions,
                            bool isSigned = true)
    {
        records::Finding finding;
        finding.measure = walk;
        finding.value = values::Quantity{seconds, values::Unit::Second};
        const auto visit = session->startVisit(day);
        const bool isStored = visit && session->saveConditions(visit->id, conditions, true) &&
                              session->saveFinding(visit->id, finding) &&
                              (!isSigned || session->signVisit(visit->id, *answers.signer));
        return isStored ? visit->id : records::VisitId();
    }

    judging::Change change() const
    {
        const auto changes = session->changes();
        return *std::ranges::find(changes, walk, &judging::Change::measure);
    }
    judging::Verdict verdict() const { return change().previous->verdict; }
};

class TestDeclaring : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aDeclarationIsKeptAndJudgedByAtOnce()
    {
        Walked desk;
        QCOMPARE(desk.verdict(), judging::Verdict::NotComparable);
        const QSignalSpy judging(desk.session.get(), &session::Session::judgingChanged);
        const QSignalSpy focus(desk.session.get(), &session::Session::focusChanged);
        const quint64 before = desk.session->lastToken();
        QVERIFY(desk.session->declareEqual(walk, desk.first, desk.second, u"seen in the film"_s));
        QCOMPARE(judging.size(), 1);
        const auto fact = judging.front().front().value<session::Fact>();
        QCOMPARE(fact.patient, desk.patient.id);
        QVERIFY(fact.token > before && fact.token == desk.session->lastToken());
        QCOMPARE(focus.size(), 0);
        QCOMPARE(desk.verdict(), judging::Verdict::Better);
        const auto again = desk.openAgain();
        again->choosePatient(desk.patient.id);
        QCOMPARE(again->patientInFocus().declared, desk.session->patientInFocus().declared);
        QCOMPARE(again->patientInFocus().declared.back().reason, u"seen in the film"_s);
        QCOMPARE(again->patientInFocus().declared.back().who, u"A. Tester, physiotherapist, P-1"_s);
    }

    void whatIsTakenBackNoLongerCounts()
    {
        Walked desk;
        QVERIFY(desk.session->declareEqual(walk, desk.first, desk.second, u"seen in the film"_s));
        QCOMPARE(desk.session->takeBackEqual(walk, desk.first, desk.second, u" "_s).error().kind,
                 ErrorKind::Refused);
        QVERIFY(desk.session->takeBackEqual(walk, desk.first, desk.second, u"another person's film"_s));
        QCOMPARE(desk.verdict(), judging::Verdict::NotComparable);
        QCOMPARE(desk.session->patientInFocus().declared.size(), 2u);
    }

    void anAmendmentKeepsTheWord()
    {
        Walked desk;
        const auto amended = desk.session->amendVisit(desk.first, u"a note was missing"_s);
        QVERIFY(amended);
        QVERIFY(desk.session->declareEqual(walk, amended->id, desk.second, u"seen in the film"_s));
        QCOMPARE(desk.session->patientInFocus().declared.back().earlier, desk.first);
        desk.session->chooseVisit(desk.second);
        QCOMPARE(desk.verdict(), judging::Verdict::Better);
        QVERIFY(desk.session->signVisit(amended->id, *desk.answers.signer));
        desk.session->chooseVisit(desk.second);
        QCOMPARE(desk.verdict(), judging::Verdict::Better);
    }

    void aDiscardedDraftTakesNothingElseWithIt()
    {
        Walked desk;
        QVERIFY(desk.session->declareEqual(walk, desk.first, desk.second, u"seen in the film"_s));
        QVERIFY(desk.session->discardVisit(desk.second));
        QCOMPARE(desk.session->patientInFocus().declared.size(), 1u);
        QVERIFY(!desk.change().previous);
        QCOMPARE(desk.session->takeBackEqual(walk, desk.first, desk.second, u"gone"_s).error().kind,
                 ErrorKind::NotFound);
        desk.second = desk.walked(QDate(2026, 3, 5), 10, known);
        QCOMPARE(desk.verdict(), judging::Verdict::NotComparable);
    }

    void itIsRefusedWithoutReasonPatientVisitOrMeasure()
    {
        Walked desk;
        const auto refusal = [&](const QString& measure, const records::VisitId& later,
                                 const QString& reason) {
            return desk.session->declareEqual(measure, desk.first, later, reason).error().kind;
        };
        QCOMPARE(refusal(walk, desk.second, u" "_s), ErrorKind::Refused);
        QCOMPARE(refusal(u"no-such"_s, desk.second, u"x"_s), ErrorKind::Invalid);
        QCOMPARE(refusal(walk, {u"no-such"_s}, u"x"_s), ErrorKind::NotFound);
        QCOMPARE(refusal(walk, desk.first, u"x"_s), ErrorKind::NotFound);
        desk.session->leavePatient();
        QCOMPARE(refusal(walk, desk.second, u"x"_s), ErrorKind::NotFound);
        QVERIFY(desk.session->patient(desk.patient.id)->declared.empty());
    }

    void anotherWayToJudgeIsSeenAtOnce()
    {
        Walked desk;
        const QSignalSpy judging(desk.session.get(), &session::Session::judgingChanged);
        records::Clinic clinic = desk.session->clinic();
        clinic.judging = {5, 24};
        QVERIFY(desk.session->saveClinic(clinic));
        QCOMPARE(judging.size(), 1);
        QVERIFY(desk.session->saveClinic(clinic));
        QCOMPARE(judging.size(), 1);
        QCOMPARE(desk.openAgain()->clinic(), clinic);
        clinic.judging.plannedVisits = 2;
        QCOMPARE(desk.session->saveClinic(clinic).error().kind, ErrorKind::Invalid);
        QCOMPARE(desk.session->clinic().judging.plannedVisits, 5);
    }
};

HOUSE_TEST(TestDeclaring)

} // namespace test_declaring

#include "test_declaring.moc"
