#include "core/storage/audit_trail.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_letters
{

using base::ErrorKind;
using records::Letter;
using records::LetterState;
using storage::Letters;

const records::Author serra{u"Dr Serra"_s, u"neurologist"_s, u"R-12"_s};

/// A patient with two visits, the later one a draft.
struct Clinic {
    RecordsFile file;
    records::Patient patient = *storage::Patients(file.store()).save(fullPatient());
    storage::Visits visits{file.store()};
    records::Visit earlier = *visits.add(fullVisit(patient.id, QDate(2026, 1, 10)));
    records::Visit visit = *visits.add(fullVisit(patient.id, QDate(2026, 2, 20)));
    Letters letters{file.store()};

    /// Every field of a draft filled.
    Letter letter() const
    {
        Letter letter;
        letter.id = records::LetterId::make();
        letter.patient = patient.id;
        letter.visit = visit.id;
        letter.reference = earlier.id;
        letter.to = u"Dr Ferrer"_s;
        letter.copiesTo = u"Dr Prat\nDr Łoś"_s;
        letter.urgency = u"Within two weeks"_s;
        letter.question = u"Is a stick enough?"_s;
        letter.actions = u"Gait training\nReview"_s;
        letter.history = u"Falls 🌧"_s;
        letter.interpretation = u"Cautious words"_s;
        letter.language = u"de"_s;
        letter.charts = {u"toe-tapping/right"_s, u"sara"_s};
        letter.kind = u"discharge"_s;
        letter.hasAnnex = true;
        letter.medicines = u"Baclofen since May"_s;
        letter.plan = u"Balance training\nStick fitted"_s;
        letter.safetyNet = u"Falls again"_s;
        letter.leftOut = {u"toe-tapping/left"_s, u"sara"_s};
        letter.author = serra;
        letter.body = u"<p>Łódź</p>"_s;
        letter.pdf = QByteArray("%PDF\0\xff\x80", 7);
        letter.odt = QByteArray("PK\0\1", 4);
        return letter;
    }
};

class TestLetters : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldComesBack()
    {
        Clinic clinic;
        Letter letter = clinic.letter();
        const auto saved = clinic.letters.save(letter);
        QVERIFY(saved);
        letter.revision = 1;
        QCOMPARE(*saved, letter);
        QCOMPARE(*clinic.letters.withId(saved->id), letter);
        letter.body.clear(); // a list reads no document
        letter.pdf.clear();
        letter.odt.clear();
        QCOMPARE(*clinic.letters.ofPatient(clinic.patient.id), std::vector{letter});
    }

    void aLetterCorrectsASignedOneAboutTheSamePatient()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.sign(clinic.visit.id, serra));
        const Letter first = *clinic.letters.save(clinic.letter());
        Letter second = clinic.letter();
        second.replaces = first.id;
        QCOMPARE(clinic.letters.save(second).error().kind, ErrorKind::Refused); // it is a draft
        QVERIFY(clinic.letters.signOff(first));
        const auto saved = clinic.letters.save(second);
        QVERIFY(saved);
        QCOMPARE(saved->replaces, std::optional(first.id));
        second.replaces = records::LetterId::make();
        second.id = records::LetterId::make();
        QCOMPARE(clinic.letters.save(second).error().kind, ErrorKind::NotFound);
    }

    void handingOverIsNotedOfASignedLetterAndStays()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.sign(clinic.visit.id, serra));
        const Letter letter = *clinic.letters.save(clinic.letter());
        records::Handover handover{letter.id, QDate(2026, 2, 21), u"by post"_s, u"Dr Ferrer"_s, {}, {}};
        QCOMPARE(clinic.letters.noteHandover(handover).error().kind, ErrorKind::Refused);
        QVERIFY(clinic.letters.signOff(letter));
        QVERIFY(clinic.letters.noteHandover(handover));
        handover.way.clear();
        QCOMPARE(clinic.letters.noteHandover(handover).error().kind, ErrorKind::Invalid);
        handover.way = u"in person"_s;
        handover.to.clear();
        QVERIFY(clinic.letters.noteHandover(handover));
        const auto all = *clinic.letters.handovers(clinic.patient.id);
        QCOMPARE(all.size(), size_t(2));
        QCOMPARE(all[0].way, u"by post"_s);
        QCOMPARE(all[0].to, u"Dr Ferrer"_s);
        QVERIFY(!all[0].who.isEmpty() && all[0].notedAt.isValid());
        QCOMPARE(all[1].way, u"in person"_s);
    }

    void anEmptyDraftIsALetterToo()
    {
        Clinic clinic;
        Letter letter;
        letter.patient = clinic.patient.id;
        letter.visit = clinic.visit.id;
        const auto saved = clinic.letters.save(letter);
        QVERIFY(saved);
        letter.id = saved->id;
        letter.revision = 1;
        QCOMPARE(*saved, letter);
    }

    void aDraftMayChangeAndAStaleSaveIsAConflict()
    {
        Clinic clinic;
        const Letter first = *clinic.letters.save(clinic.letter());
        Letter second = first;
        second.question = u"Another question"_s;
        second.reference.reset();
        const auto changed = clinic.letters.save(second);
        QVERIFY(changed);
        second.revision = 2;
        QCOMPARE(*changed, second);
        QCOMPARE(clinic.letters.save(first).error().kind, ErrorKind::Conflict);
        QCOMPARE(clinic.letters.signOff(first).error().kind, ErrorKind::Refused); // its visit is a draft
    }

    void aSentLetterNeverChanges()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.sign(clinic.visit.id, serra));
        const Letter draft = *clinic.letters.save(clinic.letter());
        const auto sent = clinic.letters.signOff(draft);
        QVERIFY(sent);
        Letter expected = draft;
        expected.state = LetterState::Signed;
        expected.revision = 2;
        expected.signedAt = sent->signedAt;
        QCOMPARE(*sent, expected);
        QCOMPARE(sent->signedAt.timeSpec(), Qt::UTC);

        QCOMPARE(clinic.letters.save(*sent).error().kind, ErrorKind::Refused);
        Letter disguised = *sent;
        disguised.state = LetterState::Draft;
        QCOMPARE(clinic.letters.save(disguised).error().kind, ErrorKind::Refused);
        QCOMPARE(clinic.letters.signOff(disguised).error().kind, ErrorKind::Refused);
        QCOMPARE(*clinic.letters.withId(sent->id), *sent);
    }

    void aLetterIsSignedOffWhole_data()
    {
        QTest::addColumn<QString>("lack");
        QTest::newRow("author") << u"author"_s;
        QTest::newRow("body") << u"body"_s;
        QTest::newRow("document") << u"document"_s;
        QTest::newRow("signed visit") << u"visit"_s;
    }

    void aLetterIsSignedOffWhole()
    {
        QFETCH(QString, lack);
        Clinic clinic;
        QVERIFY(clinic.visits.sign(clinic.earlier.id, serra));
        Letter letter = clinic.letter();
        letter.visit = lack == u"visit"_s ? clinic.visit.id : clinic.earlier.id;
        letter = *clinic.letters.save(letter);
        if (lack == u"author"_s)
            letter.author = {};
        if (lack == u"body"_s)
            letter.body.clear();
        if (lack == u"document"_s)
            letter.pdf.clear();
        QCOMPARE(clinic.letters.signOff(letter).error().kind, ErrorKind::Refused);
        QCOMPARE(clinic.letters.ofPatient(clinic.patient.id)->front().state, LetterState::Draft);
    }

    void theInstantOfSigningIsTheOneTheLetterNames()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.sign(clinic.visit.id, serra));
        Letter letter = *clinic.letters.save(clinic.letter());
        letter.signedAt = QDateTime(QDate(2026, 2, 28), QTime(16, 5, 9), Qt::UTC);
        const auto sent = clinic.letters.signOff(letter);
        QVERIFY(sent);
        QCOMPARE(sent->signedAt, letter.signedAt);
        const auto entry = storage::AuditTrail(clinic.file.store()).ofRecord(letter.id.text)->back();
        QCOMPARE(entry.at, letter.signedAt);
    }

    void lettersComeOldestFirst()
    {
        Clinic clinic;
        const Letter first = *clinic.letters.save(clinic.letter());
        const Letter second = *clinic.letters.save(clinic.letter());
        const auto letters = *clinic.letters.ofPatient(clinic.patient.id);
        QCOMPARE(letters.size(), size_t(2));
        QCOMPARE(letters[0].id, first.id);
        QCOMPARE(letters[1].id, second.id);
    }

    void aDraftVisitWithALetterIsNotDiscarded()
    {
        Clinic clinic;
        QVERIFY(clinic.letters.save(clinic.letter()));
        QCOMPARE(clinic.visits.discard(clinic.visit.id).error().kind, ErrorKind::Refused);
        QCOMPARE(clinic.visits.discard(clinic.earlier.id).error().kind, ErrorKind::Refused);
    }

    void aLetterThatIsNotThereIsNotFound()
    {
        Clinic clinic;
        Letter letter = clinic.letter();
        letter.revision = 4;
        QCOMPARE(clinic.letters.save(letter).error().kind, ErrorKind::NotFound);
    }
};

HOUSE_TEST(TestLetters)

} // namespace test_letters

#include "test_letters.moc"
