#include "app/session/account.h"
#include "core/catalogue/own.h"
#include "core/records/visit.h"
#include "core/storage/audit_trail.h"
#include "core/storage/clinic_catalogues.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_person
{

using base::ErrorKind;
using clinic_desk::Desk;

const records::Author keys{u"B. Keys"_s, u"neurologist"_s, u"N-2"_s};
const QString inTheLogs = u"B. Keys, neurologist, N-2"_s;

/// A clinic whose session can ask, with a patient who has two signed visits.
struct Asking : Desk {
    int asked = 0;
    std::optional<records::Author> answer = keys;
    records::VisitId first;
    records::VisitId second;

    Asking()
    {
        session->choosePatient(add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
        first = addVisit(QDate(2026, 1, 2));
        second = addVisit(QDate(2026, 2, 2));
        const records::PatientId patient = *session->focus().patient;
        session.reset(); // who signed is not who sits here next time
        session = openAgain();
        session->choosePatient(patient);
        session->setAskPerson([this] {
            ++asked;
            return answer;
        });
    }

    QString lastWho() const { return storage::AuditTrail(session->store()).newest(1)->front().who; }
};

/// Who sits at the keyboard.
class TestPerson : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theAccountStandsInTheLogsUntilSomeoneHasSaidSo()
    {
        Asking desk;
        QVERIFY(!desk.session->isPersonKnown());
        QCOMPARE(desk.session->person(), (records::Author{u"tester"_s, {}, {}}));
        desk.add(u"Voss"_s, u"Osric"_s, {});
        QCOMPARE(desk.lastWho(), u"tester"_s);
        QVERIFY(!session::account().isEmpty());
        QVERIFY(!session::account().contains(u"unknown"_s));
    }

    void itIsAskedOnceAndStandsInEveryLogFromThenOn()
    {
        Asking desk;
        QSignalSpy changed(desk.session.get(), &session::Session::personChanged);
        QVERIFY(desk.session->declareEqual(u"toe-tapping"_s, desk.first, desk.second, u"same room"_s));
        QCOMPARE(desk.asked, 1);
        QCOMPARE(changed.size(), 1);
        QCOMPARE(desk.session->person(), keys);
        QCOMPARE(desk.session->patientInFocus().declared.back().who, inTheLogs);
        QCOMPARE(desk.lastWho(), inTheLogs);

        QVERIFY(desk.session->takeBackEqual(u"toe-tapping"_s, desk.first, desk.second, u"another room"_s));
        QCOMPARE(desk.session->patientInFocus().declared.back().who, inTheLogs);
        const auto row = std::ranges::find(desk.session->catalogue().thresholds, u"gait-speed-comfortable"_s,
                                           &catalogue::Threshold::measure);
        QVERIFY(desk.session->chooseEvidence(row->measure, row->id, u"same protocol"_s));
        QCOMPARE(desk.session->patientInFocus().choices.back().who, inTheLogs);
        QVERIFY(desk.session->saveOwn(desk.session->own()));
        QCOMPARE((*storage::ClinicCatalogues(desk.session->store()).newest())->who, inTheLogs);
        QVERIFY(desk.session->saveClinic({u"Hillside Clinic"_s, {}, {}}));
        QCOMPARE(desk.lastWho(), inTheLogs);
        QVERIFY(desk.session->withdrawVisit(desk.second, u"wrong person"_s));
        QCOMPARE(desk.lastWho(), inTheLogs);
        QCOMPARE(desk.asked, 1);
    }

    void turningBackChangesNothing()
    {
        Asking desk;
        desk.answer.reset();
        const auto clinic = desk.session->saveClinic({u"Hillside Clinic"_s, {}, {}});
        QVERIFY(!clinic);
        QCOMPARE(clinic.error().kind, ErrorKind::Refused);
        QVERIFY(desk.session->clinic().name != u"Hillside Clinic"_s);
        QVERIFY(!desk.session->withdrawVisit(desk.second, u"wrong person"_s));
        QVERIFY(!desk.session->declareEqual(u"toe-tapping"_s, desk.first, desk.second, u"same room"_s));
        QVERIFY(!desk.session->saveOwn(desk.session->own()));
        QVERIFY(desk.session->patientInFocus().declared.empty());
        QCOMPARE(desk.session->visits().size(), size_t(2));
        QCOMPARE(desk.asked, 4); // and is asked again by the next act
    }

    void anotherPersonTakesOver()
    {
        Asking desk;
        desk.session->setPerson(keys);
        desk.session->setPerson({u"C. Later"_s, u"physiotherapist"_s, {}});
        QVERIFY(desk.session->saveClinic({u"Hillside Clinic"_s, {}, {}}));
        QCOMPARE(desk.lastWho(), u"C. Later, physiotherapist"_s);
        QCOMPARE(desk.asked, 0);
    }
};

HOUSE_TEST(TestPerson)

} // namespace test_person

#include "test_person.moc"
