#include "core/storage/happenings.h"

#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/targets.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <limits>

using namespace Qt::StringLiterals;

namespace test_happenings
{

using base::ErrorKind;
using records::Happening;
using records::HappeningKind;
using records::Side;
using storage::Happenings;
using storage::Targets;

/// A patient with every field filled, and their events.
struct Clinic {
    RecordsFile file;
    records::Patient patient = *storage::Patients(file.store()).save(fullPatient());
    Happenings happenings{file.store()};
    Targets targets{file.store()};

    Happening fall() const
    {
        Happening made;
        made.patient = patient.id;
        made.kind = HappeningKind::Fall;
        made.from = QDate(2026, 2, 1);
        made.until = QDate(2026, 2, 3);
        made.injury = records::Injury::Yes;
        made.words = u"from the \"stool\",\nü"_s;
        return made;
    }

    records::Target target() const
    {
        records::Target made;
        made.measure = u"nine-hole-peg"_s;
        made.side = Side::Left;
        made.value = 0.1 + 0.2;
        made.by = QDate(2026, 9, 1);
        made.words = u"to thread a needle"_s;
        made.agreedOn = QDate(2026, 2, 1);
        return made;
    }

    size_t entries() { return storage::AuditTrail(file.store()).ofRecord(patient.id.text)->size(); }
};

class TestHappenings : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldOfAnEventComesBack()
    {
        Clinic clinic;
        Happening expected = clinic.fall();
        const auto saved = *clinic.happenings.save(expected);
        QVERIFY(!saved.id.isNull());
        QVERIFY(saved.enteredAt.isValid());
        expected.id = saved.id;
        expected.version = 1;
        expected.who = u"tester"_s;
        expected.enteredAt = saved.enteredAt;
        QCOMPARE(saved, expected);
        clinic.file.close();
        const auto store = clinic.file.openAgain();
        QCOMPARE(*Happenings(*store).ofPatient(clinic.patient.id), std::vector{expected});
        QCOMPARE(*Happenings(*store).newest(), std::vector{expected});
        QVERIFY(Happenings(*store).ofPatient(records::PatientId::make())->empty());
    }

    void everyKindIsStored()
    {
        Clinic clinic;
        for (int kind = 0; kind <= int(HappeningKind::Other); ++kind) {
            Happening made = clinic.fall();
            made.kind = HappeningKind(kind);
            made.until.reset();
            made.injury = records::Injury::NotStated;
            QCOMPARE(clinic.happenings.save(made)->kind, made.kind);
        }
        Happening uninjured = clinic.fall();
        uninjured.injury = records::Injury::No;
        QCOMPARE(clinic.happenings.save(uninjured)->injury, records::Injury::No);
    }

    void aChangeIsAFurtherVersionAndTheTrailKnows()
    {
        Clinic clinic;
        const size_t before = clinic.entries();
        const auto first = *clinic.happenings.save(clinic.fall());
        Happening changed = first;
        changed.until.reset();
        changed.takenBackFor = u"not by saving"_s;
        const auto second = *clinic.happenings.save(changed);
        QCOMPARE(second.version, 2);
        QCOMPARE(second.takenBackFor, QString());
        QVERIFY(!second.until);
        QVERIFY(second.enteredAt > first.enteredAt);
        QCOMPARE(*clinic.happenings.ofPatient(clinic.patient.id), (std::vector{first, second}));
        QCOMPARE(*clinic.happenings.newest(), std::vector{second});
        QCOMPARE(clinic.entries(), before + 2);

        const auto stale = clinic.happenings.save(first);
        QCOMPARE(stale.error().kind, ErrorKind::Conflict);
        Happening twice = clinic.fall();
        twice.id = first.id;
        QCOMPARE(clinic.happenings.save(twice).error().kind, ErrorKind::Conflict);
        QCOMPARE(clinic.entries(), before + 2);
    }

    void whatWasTakenBackStaysReadableAndSo()
    {
        Clinic clinic;
        const auto first = *clinic.happenings.save(clinic.fall());
        QCOMPARE(clinic.happenings.takeBack(first.id, u" \n"_s).error().kind, ErrorKind::Refused);
        const auto last = *clinic.happenings.takeBack(first.id, u" her sister's "_s);
        QCOMPARE(last.version, 2);
        QCOMPARE(last.takenBackFor, u"her sister's"_s);
        QCOMPARE(last.words, first.words);
        const auto twice = clinic.happenings.takeBack(first.id, u"again"_s);
        QCOMPARE(twice.error().kind, ErrorKind::Refused);
        QCOMPARE(twice.error().what.english(), u"This event was taken back already."_s);
        QCOMPARE(clinic.happenings.save(last).error().kind, ErrorKind::Refused);
        const auto versions = *clinic.happenings.ofPatient(clinic.patient.id);
        QCOMPARE(versions, (std::vector{first, last}));
        QVERIFY(records::current(versions).empty());
        QCOMPARE(clinic.happenings.takeBack(records::HappeningId::make(), u"x"_s).error().kind,
                 ErrorKind::NotFound);
    }

    void anEventIsOfOnePatientWhoIsThere()
    {
        Clinic clinic;
        Happening strange = clinic.fall();
        strange.patient = records::PatientId::make();
        QCOMPARE(clinic.happenings.save(strange).error().kind, ErrorKind::NotFound);
        records::Patient other = fullPatient();
        other.recordNumber = u"K-0008"_s;
        QVERIFY(storage::Patients(clinic.file.store()).save(other));
        Happening moved = *clinic.happenings.save(clinic.fall());
        moved.patient = other.id;
        QCOMPARE(clinic.happenings.save(moved).error().kind, ErrorKind::Invalid);
        QVERIFY(clinic.happenings.ofPatient(other.id)->empty());
        Happening never = clinic.fall();
        never.from = QDate();
        QCOMPARE(clinic.happenings.save(never).error().kind, ErrorKind::Invalid);
    }

    void aWriteThatFailsHalfwayLeavesNothing()
    {
        Clinic clinic;
        const size_t before = clinic.entries();
        const auto failed = storage::together(clinic.file.store(), [&]() -> base::Result<void> {
            if (const auto saved = clinic.happenings.save(clinic.fall()); !saved)
                return saved.error();
            if (auto saved = clinic.targets.save(clinic.patient.id, clinic.target()); !saved)
                return saved;
            return base::Error{ErrorKind::Unwritable, base::said("The disk is full."), {}};
        });
        QCOMPARE(failed.error().kind, ErrorKind::Unwritable);
        QVERIFY(clinic.happenings.newest()->empty());
        QVERIFY(clinic.targets.ofPatient(clinic.patient.id)->empty());
        QCOMPARE(clinic.entries(), before);
    }

    void thatWasAskedIsKeptOnceAVisitWhateverItsVersion()
    {
        Clinic clinic;
        storage::Visits visits(clinic.file.store());
        const auto visit = *visits.add(fullVisit(clinic.patient.id, QDate(2026, 2, 20)));
        QVERIFY(clinic.happenings.asked(clinic.patient.id)->empty());
        QVERIFY(clinic.happenings.setAsked(visit.id));
        QVERIFY(visits.sign(visit.id, {u"Dr Serra"_s, {}, {}}));
        const auto amendment = *visits.amend(visit.id, u"wrong day"_s);
        const size_t before = storage::AuditTrail(clinic.file.store()).newest(1'000)->size();
        QVERIFY(clinic.happenings.setAsked(amendment.id));
        QCOMPARE(storage::AuditTrail(clinic.file.store()).newest(1'000)->size(), before);
        QVERIFY(visits.discard(amendment.id));
        const auto asked = *clinic.happenings.asked(clinic.patient.id);
        QCOMPARE(asked.size(), size_t(1));
        QCOMPARE(asked.front().visit, visit.series);
        QCOMPARE(asked.front().who, u"tester"_s);
        QVERIFY(asked.front().at.isValid());
        QCOMPARE(clinic.happenings.setAsked(records::VisitId::make()).error().kind, ErrorKind::NotFound);
    }

    void whatWasAskedGoesWithADiscardedDraft()
    {
        Clinic clinic;
        storage::Visits visits(clinic.file.store());
        const auto draft = *visits.add(fullVisit(clinic.patient.id, QDate(2026, 2, 20)));
        QVERIFY(clinic.happenings.setAsked(draft.id));
        QVERIFY(visits.discard(draft.id));
        QVERIFY(clinic.happenings.asked(clinic.patient.id)->empty());
        QCOMPARE(*clinic.file.store().fileFaults(), QStringList());
    }

    void everyFieldOfATargetComesBackInOrder()
    {
        Clinic clinic;
        const size_t before = clinic.entries();
        records::Target first = clinic.target();
        records::Target second = first;
        second.value = 18;
        second.by.reset();
        second.droppedFor = u"not by saving"_s;
        QVERIFY(clinic.targets.save(clinic.patient.id, first));
        QVERIFY(clinic.targets.save(clinic.patient.id, second));
        QCOMPARE(clinic.entries(), before + 2);
        clinic.file.close();
        const auto store = clinic.file.openAgain();
        const auto stored = *Targets(*store).ofPatient(clinic.patient.id);
        QCOMPARE(stored.size(), size_t(2));
        QVERIFY(stored[0].enteredAt < stored[1].enteredAt);
        first.who = second.who = u"tester"_s;
        first.enteredAt = stored[0].enteredAt;
        second.enteredAt = stored[1].enteredAt;
        second.droppedFor.clear();
        QCOMPARE(stored, (std::vector{first, second}));
    }

    void aTargetIsDroppedOnceAndWithAReason()
    {
        Clinic clinic;
        const auto drop = [&](Side side, const QString& reason) {
            return clinic.targets.drop(clinic.patient.id, u"nine-hole-peg"_s, side, reason);
        };
        QCOMPARE(drop(Side::Left, u"x"_s).error().kind, ErrorKind::NotFound);
        QVERIFY(clinic.targets.save(clinic.patient.id, clinic.target()));
        QCOMPARE(drop(Side::Left, u" "_s).error().kind, ErrorKind::Refused);
        QCOMPARE(drop(Side::Right, u"x"_s).error().kind, ErrorKind::NotFound);
        QVERIFY(drop(Side::Left, u" too far "_s));
        QCOMPARE(drop(Side::Left, u"x"_s).error().kind, ErrorKind::Refused);
        auto stored = *clinic.targets.ofPatient(clinic.patient.id);
        QCOMPARE(stored.size(), size_t(2));
        QCOMPARE(stored.back().droppedFor, u"too far"_s);
        QCOMPARE(stored.back().value, clinic.target().value);
        QVERIFY(clinic.targets.save(clinic.patient.id, clinic.target())); // agreed once more
        stored = *clinic.targets.ofPatient(clinic.patient.id);
        QCOMPARE(records::newest(stored).front().droppedFor, QString());
    }

    void whatIsNoTargetIsRefused()
    {
        Clinic clinic;
        records::Target target = clinic.target();
        target.value = std::numeric_limits<double>::infinity();
        QCOMPARE(clinic.targets.save(clinic.patient.id, target).error().kind, ErrorKind::Invalid);
        target = clinic.target();
        target.by = QDate();
        QCOMPARE(clinic.targets.save(clinic.patient.id, target).error().kind, ErrorKind::Invalid);
        QCOMPARE(clinic.targets.save(records::PatientId::make(), clinic.target()).error().kind,
                 ErrorKind::NotFound);
        QVERIFY(clinic.targets.ofPatient(clinic.patient.id)->empty());
    }
};

HOUSE_TEST(TestHappenings)

} // namespace test_happenings

#include "test_happenings.moc"
