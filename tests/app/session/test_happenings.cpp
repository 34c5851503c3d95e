#include "app/session/session.h"

#include "core/base/file.h"
#include "core/exchange/happenings_csv.h"
#include "core/records/target.h"
#include "core/storage/audit_trail.h"
#include "core/storage/happenings.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_happenings
{

using base::ErrorKind;
using clinic_desk::Desk;
using clinic_desk::today;
using records::Happening;
using records::Side;
using session::Session;

Happening fall(QDate from = today)
{
    Happening made;
    made.kind = records::HappeningKind::Fall;
    made.from = from;
    made.words = u"from the stool"_s;
    return made;
}

records::Target peg(double seconds)
{
    return {u"nine-hole-peg"_s, Side::Left, seconds, {}, u"to thread a needle"_s, today, {}, {}, {}};
}

/// A patient in focus.
struct Examined : Desk {
    records::Patient patient = add(u"Halden"_s, u"Ida"_s, QDate(1951, 3, 4), u"H-1"_s);

    Examined() { session->choosePatient(patient.id); }

    QString written(const QByteArray& bytes) const
    {
        const QString file = folder.filePath(u"events.csv"_s);
        return base::write(bytes, file) ? file : QString();
    }
};

class TestHappenings : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anEventIsKeptChangedAndTakenBack()
    {
        Examined desk;
        const QSignalSpy changed(desk.session.get(), &Session::happeningsChanged);
        const QSignalSpy focus(desk.session.get(), &Session::focusChanged);
        const auto saved = *desk.session->saveHappening(fall());
        QCOMPARE(saved.patient, desk.patient.id);
        QCOMPARE(saved.who, u"tester"_s);
        QCOMPARE(desk.session->happenings(), std::vector{saved});
        QCOMPARE(changed.size(), 1);
        QCOMPARE(changed.front().front().value<session::Fact>().patient, desk.patient.id);
        QCOMPARE(changed.front().front().value<session::Fact>().token, desk.session->lastToken());

        Happening earlier = saved;
        earlier.from = QDate(2026, 3, 1);
        const auto second = *desk.session->saveHappening(earlier);
        QCOMPARE(desk.session->happenings(), std::vector{second});
        QCOMPARE(desk.session->happeningVersions(), (std::vector{saved, second}));
        QCOMPARE(desk.session->saveHappening(saved).error().kind, ErrorKind::Conflict);

        QVERIFY(desk.session->takeBackHappening(saved.id, u"her sister's"_s));
        QVERIFY(desk.session->happenings().empty());
        QCOMPARE(desk.session->happeningVersions().size(), size_t(3));
        QCOMPARE(desk.session->takeBackHappening(saved.id, u"again"_s).error().kind, ErrorKind::Refused);
        QCOMPARE(changed.size(), 3);
        QCOMPARE(focus.size(), 0);
    }

    void eventsAreReadWithTheirPatient()
    {
        Examined desk;
        const auto late = *desk.session->saveHappening(fall());
        const auto early = *desk.session->saveHappening(fall(QDate(2026, 1, 5)));
        QVERIFY(desk.session->saveTarget(peg(20)));
        QCOMPARE(desk.session->happenings(), (std::vector{early, late})); // oldest first
        const auto other = desk.add(u"Marrow"_s, u"Tom"_s, {});
        desk.session->choosePatient(other.id);
        QVERIFY(desk.session->happenings().empty() && desk.session->targets().empty());
        QCOMPARE(desk.session->takeBackHappening(late.id, u"x"_s).error().kind, ErrorKind::NotFound);
        desk.session->choosePatient(desk.patient.id);
        QCOMPARE(desk.session->happenings(), (std::vector{early, late}));
        QCOMPARE(desk.session->targets().size(), size_t(1));
        desk.session->leavePatient();
        QVERIFY(desk.session->happenings().empty() && desk.session->targets().empty());
    }

    void aTargetIsKeptReplacedAndDropped()
    {
        Examined desk;
        const QSignalSpy changed(desk.session.get(), &Session::targetsChanged);
        QVERIFY(desk.session->saveTarget(peg(22)));
        QVERIFY(desk.session->saveTarget(peg(20)));
        QCOMPARE(desk.session->targets().size(), size_t(2));
        QCOMPARE(records::newest(desk.session->targets()).front().value, 20.0);
        QVERIFY(desk.session->dropTarget(u"nine-hole-peg"_s, Side::Left, u"too far"_s));
        QCOMPARE(records::newest(desk.session->targets()).front().droppedFor, u"too far"_s);
        QCOMPARE(desk.session->dropTarget(u"nine-hole-peg"_s, Side::Left, u"again"_s).error().kind,
                 ErrorKind::Refused);
        QCOMPARE(desk.session->dropTarget(u"sara"_s, Side::None, u"x"_s).error().kind, ErrorKind::NotFound);
        QCOMPARE(changed.size(), 3);
    }

    void thatWasAskedIsKeptForItsVisit()
    {
        Examined desk;
        const auto visit = desk.addVisit(today.addDays(-1));
        QCOMPARE(desk.session->asked(visit), nullptr);
        const QSignalSpy changed(desk.session.get(), &Session::happeningsChanged);
        QVERIFY(desk.session->setAsked(visit));
        QVERIFY(desk.session->setAsked(visit));
        QCOMPARE(changed.size(), 1);
        const auto amendment = *desk.session->amendVisit(visit, u"a note"_s);
        QVERIFY(desk.session->asked(amendment.id));
        QCOMPARE(desk.session->asked(amendment.id)->visit, visit);
        QCOMPARE(desk.session->setAsked(records::VisitId::make()).error().kind, ErrorKind::NotFound);
    }

    void withoutAPatientNothingIsKept()
    {
        Desk desk;
        QCOMPARE(desk.session->saveHappening(fall()).error().kind, ErrorKind::NotFound);
        QCOMPARE(desk.session->saveTarget(peg(20)).error().kind, ErrorKind::NotFound);
        QCOMPARE(desk.session->takeBackHappening({}, u"x"_s).error().kind, ErrorKind::NotFound);
        QCOMPARE(desk.session->dropTarget({}, Side::None, u"x"_s).error().kind, ErrorKind::NotFound);
        QCOMPARE(desk.session->setAsked({}).error().kind, ErrorKind::NotFound);
    }

    void whoTurnsBackFromTheNameKeepsNothing()
    {
        Examined desk;
        desk.session->setAskPerson([]() -> std::optional<records::Author> { return std::nullopt; });
        QCOMPARE(desk.session->saveHappening(fall()).error().kind, ErrorKind::Refused);
        QCOMPARE(desk.session->saveTarget(peg(20)).error().kind, ErrorKind::Refused);
        const auto read = desk.session->readHappenings(
            desk.written("patient,kind,from,until,injury,words,uid\nH-1,fall,2026-03-01,,,,\n"));
        QCOMPARE(read.error().kind, ErrorKind::Refused);
        QVERIFY(desk.session->happeningVersions().empty() && desk.session->targets().empty());
    }

    void aFileIsReadIntoTheRecordsAndTheFocus()
    {
        Examined desk;
        const auto there = *desk.session->saveHappening(fall());
        const QSignalSpy changed(desk.session.get(), &Session::happeningsChanged);
        const QByteArray rows = "patient,kind,from,until,injury,words,uid\n"
                                "H-1,fall,2026-03-12,,,from the stool,\n"
                                "H-1,fall,2026-03-12,,no,from the stool," +
                                there.id.text.toUtf8() + "\nH-1,relapse,2026-01-05,2026-02-01,,,\n";
        const auto read = *desk.session->readHappenings(desk.written(rows));
        QCOMPARE(read.added.size(), size_t(2)); // the first row says what the second no longer does
        QCOMPARE(read.changed.size(), size_t(1));
        QCOMPARE(changed.size(), 1);
        QCOMPARE(desk.session->happenings().size(), size_t(3));
        QCOMPARE(desk.session->happeningVersions().size(), size_t(4));
        const auto trail = *storage::AuditTrail(desk.session->store()).ofRecord(desk.patient.id.text);
        QCOMPARE(trail.back().action, u"imported"_s);

        const auto again = *desk.session->readHappenings(desk.written(rows));
        QVERIFY(again.isNothing());
        QCOMPARE(again.known, 3);
        QCOMPARE(changed.size(), 1);
    }

    void aFaultyFileChangesNothing()
    {
        Examined desk;
        const auto read = desk.session->readHappenings(
            desk.written("patient,kind,from,until,injury,words,uid\nH-1,fall,2026-03-01,,,,\n"
                         "H-1,fall,2026-03-13,,,,\n"));
        QVERIFY(!read);
        QVERIFY(desk.session->happeningVersions().empty());
        QCOMPARE(desk.session->readHappenings(desk.folder.filePath(u"none"_s)).error().kind,
                 ErrorKind::Unreadable);
    }

    void whatIsWrittenIsReadIntoAnotherClinic()
    {
        Examined desk;
        QVERIFY(desk.session->saveHappening(fall(QDate(2026, 1, 5))));
        QVERIFY(desk.session->saveHappening(fall()));
        const auto gone = *desk.session->saveHappening(fall(QDate(2026, 1, 6)));
        QVERIFY(desk.session->takeBackHappening(gone.id, u"her sister's"_s));
        const QString file = desk.folder.filePath(u"events.csv"_s);
        QCOMPARE(*desk.session->writeHappenings(file), 2);

        Examined other;
        QCOMPARE(other.session->readHappenings(file)->added.size(), size_t(2));
        const auto here = desk.session->happenings();
        const auto there = other.session->happenings();
        QCOMPARE(there.size(), here.size());
        for (size_t i = 0; i < here.size(); ++i) {
            QCOMPARE(there[i].id, here[i].id);
            QCOMPARE(there[i].from, here[i].from);
            QCOMPARE(there[i].words, here[i].words);
        }
    }

    void noFileTakesThePlaceOfTheRecords()
    {
        Examined desk;
        QCOMPARE(desk.session->writeHappenings(desk.path()).error().kind, ErrorKind::Refused);
    }
};

HOUSE_TEST(TestHappenings)

} // namespace test_happenings

#include "test_happenings.moc"
