#include "core/records/summary.h"
#include "core/records/visit.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_settling
{

struct Held {
    records::Patient patient;
    std::vector<records::Visit> visits;
};

/// What the file alone holds, without the log beside it, of the one patient.
Held inTheFileAlone(const clinic_desk::Desk& desk)
{
    const QTemporaryDir elsewhere;
    const QString copy = elsewhere.filePath(u"copy"_s);
    if (!QFile::copy(desk.path(), copy))
        return {};
    const auto clock = [] { return QDateTime(clinic_desk::today, QTime(9, 30), Qt::UTC); };
    const auto session =
        session::Session::open(copy, clinic_desk::book(), {u"tester"_s, clock}, records::Opening::ToRead);
    const auto patients = session ? (*session)->patients() : session.error();
    if (!patients || patients->empty())
        return {};
    (*session)->choosePatient(patients->front().id);
    return {(*session)->patientInFocus(), (*session)->visits()};
}

/// When what was saved is in the one file.
class TestSettling : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aMomentAfterTheLastSaveTheFileHoldsItAll()
    {
        clinic_desk::Desk desk;
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, {}).id);
        desk.addVisit(QDate(2026, 3, 2), false);
        QVERIFY(inTheFileAlone(desk).visits.empty());
        paces::letPass(2000);
        const auto visits = inTheFileAlone(desk).visits;
        QCOMPARE(visits.size(), size_t(1));
        QCOMPARE(visits.front().findings.size(), size_t(1));
    }

    void whatIsSignedIsInTheFileAtOnce()
    {
        clinic_desk::Desk desk;
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, {}).id);
        desk.addVisit(QDate(2026, 3, 2));
        const auto visits = inTheFileAlone(desk).visits;
        QCOMPARE(visits.size(), size_t(1));
        QCOMPARE(visits.front().state, records::VisitState::Signed);
    }

    void aWordAboutHowToJudgeIsInTheFileAMomentLater()
    {
        clinic_desk::Desk desk;
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, {}).id);
        const auto earlier = desk.addVisit(QDate(2026, 3, 1));
        const auto later = desk.addVisit(QDate(2026, 3, 2));
        paces::letPass(2000);
        QVERIFY(desk.session->declareEqual(u"toe-tapping"_s, earlier, later, u"as before"_s));
        QVERIFY(inTheFileAlone(desk).patient.declared.empty());
        paces::letPass(2000);
        QCOMPARE(inTheFileAlone(desk).patient.declared.size(), size_t(1));
    }

    void aFileThatWasRenamedIsNoticedBeforeASave()
    {
        clinic_desk::Desk desk;
        desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, {}).id);
        const auto visit = desk.addVisit(QDate(2026, 3, 2), false);
        QVERIFY(QFile::rename(desk.path(), desk.path() + u".old"_s));
        records::Finding finding;
        finding.measure = u"toe-tapping"_s;
        finding.side = records::Side::Left;
        finding.value = values::Grade{1};
        const auto saved = desk.session->saveFinding(visit, finding);
        QVERIFY(!saved);
        QVERIFY(saved.error().what.english().startsWith(u"The records file was renamed, moved or deleted"_s));
        QVERIFY(QFile::rename(desk.path() + u".old"_s, desk.path()));
        QVERIFY(desk.session->saveFinding(visit, finding));
    }
};

HOUSE_TEST(TestSettling)

} // namespace test_settling

#include "test_settling.moc"
