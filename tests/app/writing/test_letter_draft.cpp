#include "app/writing/letter_draft.h"

#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "tests/app/writing/writing_desk.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_letter_draft
{

using writing::LetterDraft;

const QString speed = u"gait-speed-comfortable"_s;
const QString upAndGo = u"timed-up-and-go"_s;

/// A letter of the visit in focus with both charts.
void beginWithCharts(LetterDraft& draft)
{
    QVERIFY(draft.begin());
    records::Letter edited = draft.letter();
    edited.charts = {speed, upAndGo};
    edited.hasAnnex = true;
    QVERIFY(draft.save(edited));
}

/// Everything a reader would see, charts as vectors, so that their words are read too.
QString readOf(const LetterDraft& draft)
{
    const auto bytes = draft.pdf();
    return bytes ? PdfFile(*bytes).pages().join(u' ').simplified() : QString();
}

class TestLetterDraft : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aLetterBeginsWithWhatTheRecordsKnow()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QCOMPARE(draft.whyNoLetter(), QString());
        QVERIFY(draft.begin());
        QCOMPARE(draft.letter().visit, desk.session->visitInFocus()->id);
        QCOMPARE(draft.letter().to, u"Dr. Oda Veld"_s);
        QCOMPARE(draft.letter().copiesTo, u"Mirrit Halden"_s);
        QCOMPARE(draft.letter().kind, u"progress"_s);
        QCOMPARE(draft.letter().charts, QStringList()); // page 1 is the letter
        QCOMPARE(desk.letters().size(), size_t(1));
    }

    void theKindSaysWhoGetsItUnlessItsAuthorDid()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        records::Letter plain = draft.asKind(draft.letter(), u"plain"_s);
        QCOMPARE(plain.to, u"Mirrit Halden"_s);
        QCOMPARE(plain.copiesTo, u"Dr. Oda Veld"_s);
        QVERIFY(draft.save(plain));
        QVERIFY(*draft.readingAge() > 5 && *draft.readingAge() < 14);
        records::Letter typed = draft.letter();
        typed.to = u"Mirrit and her daughter"_s;
        typed = draft.asKind(typed, u"referral"_s);
        QCOMPARE(typed.to, u"Mirrit and her daughter"_s);
        QCOMPARE(typed.copiesTo, u"Dr. Oda Veld\nMirrit Halden"_s);
        QVERIFY(draft.begin()); // the next is of the kind last chosen
        QCOMPARE(draft.letter().kind, u"plain"_s);
    }

    void theAnnexBringsTheChartsOfWhatChanged()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        QVERIFY(draft.save(draft.withAnnex(draft.letter())));
        QVERIFY(draft.letter().hasAnnex);
        QCOMPARE(draft.letter().charts, QStringList{speed}); // +0.29 m/s, beyond 0.18 m/s
        records::Letter edited = draft.letter();
        edited.charts = {upAndGo};
        QCOMPARE(draft.withAnnex(edited).charts, QStringList{upAndGo});
    }

    void aCorrectionIsANewLetterThatSaysWhatItReplaces()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        records::Letter edited = draft.letter();
        edited.plan = u"Balance training"_s;
        QVERIFY(draft.save(edited));
        QVERIFY(draft.signOff(*desk.answers.signer));
        const records::LetterId first = draft.letter().id;
        QVERIFY(draft.correct());
        QVERIFY(!draft.isSigned());
        QVERIFY(draft.letter().id != first);
        QCOMPARE(draft.letter().replaces, std::optional(first));
        QCOMPARE(draft.letter().plan, u"Balance training"_s);
        QVERIFY(draft.composition()->body.contains(u"This letter replaces the one signed on 12-Jun-2026."_s));
        QVERIFY(draft.signOff(*desk.answers.signer));
        QCOMPARE(desk.letters().size(), size_t(2));
    }

    void handingOverIsSaidOfTheLetterItIsNotedOf()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        QVERIFY(draft.signOff(*desk.answers.signer));
        QVERIFY(desk.session->noteHandover(
            {draft.letter().id, QDate(2026, 6, 12), u"by post"_s, u"Dr. Oda Veld"_s, {}, {}}));
        QVERIFY(
            draft.standing().join(u' ').contains(u"Handed over on 12-Jun-2026: by post, to Dr. Oda Veld"_s));
        QVERIFY(draft.begin());
        QVERIFY(draft.standing().isEmpty());
    }

    void aDraftVisitHasNoLetter()
    {
        desk::Desk desk;
        desk.session->moveVisit(-1);
        desk.startVisit(QDate(2026, 6, 11), 0.8, 21);
        LetterDraft draft(*desk.session);
        QVERIFY(draft.whyNoLetter().contains(u"11-Jun-2026 is a draft"_s));
        QCOMPARE(draft.begin().error().kind, base::ErrorKind::Refused);
        QVERIFY(desk.letters().empty());
    }

    void anEditIsInTheRecordsAtOnce()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        records::Letter edited = draft.letter();
        edited.question = u"Größe & <b>?"_s;
        QVERIFY(draft.save(edited));
        QCOMPARE(desk.letters().front().question, u"Größe & <b>?"_s);
        const int revision = draft.letter().revision;
        QVERIFY(draft.save(draft.letter()));
        QCOMPARE(draft.letter().revision, revision); // nothing changed, nothing written
    }

    void theChosenChartsAreDrawn()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        const auto charts = draft.charts();
        QVERIFY(charts.size() >= 2);
        records::Letter edited = draft.letter();
        edited.charts = {charts[0].key, charts[1].key};
        QVERIFY(draft.save(edited));
        const auto composition = draft.composition();
        QVERIFY(composition);
        QCOMPARE(composition->figures.size(), size_t(2));
        QVERIFY(composition->body.contains(u"figure:1"_s));
    }

    void anEarlierVisitsLetterHoldsNothingOfALaterOne()
    {
        const desk::Desk desk; // 12 March 0.62 m/s and 20 s, 12 June 0.91 m/s and 22 s
        desk.session->moveVisit(-1);
        LetterDraft draft(*desk.session);
        beginWithCharts(draft);
        desk.session->moveVisit(1);
        const QString read = readOf(draft);
        QVERIFY2(read.contains(u"0.62 m/s on 12-Mar-2026"_s), qPrintable(read)); // the chart's heading
        for (const QString& later : {u"0.91"_s, u"22.0 s"_s, u"+0.29"_s})
            QVERIFY2(!read.contains(later), qPrintable(later + u" in "_s + read));
    }

    void movingTheLinesChangesNothingInALetter()
    {
        desk::Desk desk;
        desk.addSignedVisit(QDate(2026, 4, 12), 0.70, 25);
        LetterDraft draft(*desk.session);
        beginWithCharts(draft);
        const QString read = readOf(draft);
        const auto visits = desk.session->visits();
        desk.session->chooseVisit(visits.back().id);
        QCOMPARE(readOf(draft), read);
        desk.session->chooseReference(visits[1].id);
        QCOMPARE(readOf(draft), read);
        desk.session->chooseVisit(visits.front().id);
        QCOMPARE(readOf(draft), read);
        QVERIFY2(!read.contains(u"0.91 m/s"_s), qPrintable(read));
    }

    void tableAndChartHoldTheSameThreshold()
    {
        desk::Desk desk;
        LetterDraft draft(*desk.session);
        beginWithCharts(draft);
        QString body = draft.composition()->body;
        // Steffen & Seney 2008, Phys Ther 88:733: 0.18 m/s; the chart draws it around 0.62 m/s.
        QVERIFY2(body.contains(u"0.18 m/s"_s), qPrintable(body));
        QString read = readOf(draft);
        QVERIFY2(read.contains(u"0.80 m/s"_s) && read.contains(u"0.44 m/s"_s), qPrintable(read));

        // 0.23 of the mean of both times (PMID 38924934), where repeats within a day have another row.
        records::Patient patient = desk.session->patientInFocus();
        patient.population = u"multiple-sclerosis"_s;
        QVERIFY(desk.session->savePatient(patient));
        const QString feet = u"timed-25-foot-walk"_s;
        for (const auto& [day, seconds] :
             {std::pair(QDate(2026, 2, 2), 4.5), std::pair(QDate(2026, 6, 11), 6.4)}) {
            desk.startVisit(day, 1, 10);
            const auto visit = desk.session->visitInFocus()->id;
            QVERIFY(desk.session->saveFinding(
                visit, desk::finding(feet, values::Quantity{seconds, values::Unit::Second})));
            QVERIFY(desk.session->signVisit(visit, *desk.answers.signer));
        }
        QVERIFY(draft.begin());
        records::Letter edited = draft.letter();
        edited.charts = {feet};
        edited.hasAnnex = true;
        QVERIFY(draft.save(edited));
        body = draft.composition()->body;
        QVERIFY2(body.contains(u"1.25 s"_s), qPrintable(body)); // 0.23 · 5.45
        read = readOf(draft);
        QVERIFY2(read.contains(u"for the result of this visit it is 1.25 s"_s), qPrintable(read));
        // |x − 4.5| = 0.23 · (x + 4.5) / 2 at 4.5 · 0.885 / 1.115 and 4.5 · 1.115 / 0.885.
        QVERIFY2(read.contains(u"< 3.6 s"_s) && read.contains(u"> 5.7 s"_s), qPrintable(read));
    }

    void aLetterTellsOfTheVersionThatCounts()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        const auto amendment = desk.session->amendVisit(draft.letter().visit, u"wrong speed"_s);
        QVERIFY(amendment);
        QVERIFY(desk.session->saveFinding(
            amendment->id, desk::finding(u"gait-speed-comfortable"_s,
                                         values::Quantity{0.77, values::Unit::MetrePerSecond})));
        QVERIFY(draft.open(desk.letters().front()));
        QVERIFY(draft.composition()->body.contains(u"0.91 m/s"_s)); // the open amendment is not signed
        QVERIFY(desk.session->signVisit(amendment->id, *desk.answers.signer));
        QVERIFY(draft.open(desk.letters().front()));
        QVERIFY(draft.composition()->body.contains(u"0.77 m/s"_s));
        QVERIFY(draft.composition()->body.contains(u"wrong speed"_s));
    }

    void aSignedLetterNeverChangesAgain()
    {
        const desk::Desk desk;
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        QVERIFY(draft.composition()->draftMark == u"DRAFT"_s);
        QVERIFY(draft.signOff(*desk.answers.signer));
        const records::Letter sent = *desk.session->letter(draft.letter().id);
        QCOMPARE(sent.state, records::LetterState::Signed);
        QCOMPARE(sent.author, *desk.answers.signer);
        QVERIFY(sent.pdf.startsWith("%PDF"));
        QVERIFY(sent.odt.startsWith("PK"));

        records::Patient patient = desk.session->patientInFocus();
        patient.family = u"Renamed"_s;
        QVERIFY(desk.session->savePatient(patient));
        QVERIFY(draft.open(sent));
        QCOMPARE(*draft.pdf(), sent.pdf);
        QCOMPARE(*draft.odt(), sent.odt);
        const auto composition = draft.composition();
        QVERIFY(composition->identity.contains(u"HALDEN"_s));
        QVERIFY(composition->draftMark.isEmpty());
        QCOMPARE(composition->figures.size(), size_t(0));
        records::Letter edited = sent;
        edited.question = u"late"_s;
        QCOMPARE(draft.save(edited).error().kind, base::ErrorKind::Refused);
        QCOMPARE(*desk.session->letter(sent.id), sent);
    }

    void aFileNameTellsTheRecordNumberAndNobodysName_data()
    {
        QTest::addColumn<QString>("number");
        QTest::addColumn<QString>("name");
        QTest::newRow("as it is") << u"L-0042"_s << u"L-0042-letter-2026-06-12.pdf"_s;
        QTest::newRow("none") << QString() << u"letter-2026-06-12.pdf"_s;
        QTest::newRow("a way out of the folder") << u"../../12/7"_s << u"12-7-letter-2026-06-12.pdf"_s;
        QTest::newRow("nothing a file could be named by") << u"***"_s << u"letter-2026-06-12.pdf"_s;
        QTest::newRow("another script") << u"№ Ω 7"_s << u"Ω-7-letter-2026-06-12.pdf"_s;
        QTest::newRow("turned around") << u"12\u202e34"_s << u"12-34-letter-2026-06-12.pdf"_s;
        QTest::newRow("long") << QString(300, u'7') << QString(40, u'7') + u"-letter-2026-06-12.pdf"_s;
    }

    void aFileNameTellsTheRecordNumberAndNobodysName()
    {
        QFETCH(QString, number);
        QFETCH(QString, name);
        const desk::Desk desk;
        records::Patient patient = desk.session->patientInFocus();
        patient.recordNumber = number; // past the door, as older records may hold it
        QVERIFY(storage::Patients(desk.session->store()).save(patient));
        desk.session->leavePatient();
        desk.session->choosePatient(patient.id);
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        QCOMPARE(draft.fileName(u"pdf"_s), name);
        QVERIFY(!draft.fileName(u"pdf"_s).contains(patient.family));
        QCOMPARE(draft.documentName() + u".pdf"_s, name);
    }

    void theInstantOfSigningIsOneInTheLetterItsPagesAndTheLog()
    {
        desk::Desk desk;
        desk.session.reset();
        QDateTime now(QDate(2026, 6, 12), QTime(9, 30), Qt::UTC); // goes on whenever it is asked
        const auto session = *session::Session::open(desk.folder.filePath(u"clinic.aplomb"_s), desk.book,
                                                     {u"tester"_s, [&now] { return now = now.addSecs(60); }},
                                                     records::Opening::MustExist);
        session->choosePatient(session->patients()->front().id);
        LetterDraft draft(*session);
        QVERIFY(draft.begin());
        QVERIFY(draft.signOff(*desk.answers.signer));
        const QDateTime at = draft.letter().signedAt;
        const auto entry = storage::AuditTrail(session->store()).ofRecord(draft.letter().id.text)->back();
        QCOMPARE(entry.action, u"signed"_s);
        QCOMPARE(entry.at, at);
        QVERIFY(now > at); // it was asked again, and not believed
    }

    void aReferenceEnteredInErrorIsNoLongerComparedWith()
    {
        const desk::Desk desk;
        const records::VisitId earlier = desk.session->visits().front().id;
        const records::VisitId latest = desk.session->visits().back().id;
        desk.session->chooseReference(earlier);
        LetterDraft draft(*desk.session);
        QVERIFY(draft.begin());
        QCOMPARE(draft.letter().reference, std::optional(earlier));
        QVERIFY(desk.session->withdrawVisit(earlier, u"wrong person"_s));
        desk.session->chooseVisit(latest);
        QVERIFY(draft.open(draft.letter()));
        QVERIFY(!draft.letter().reference);
        QVERIFY(draft.composition());
        QVERIFY(draft.standing().join(u' ').contains(u"last comparable visit"_s));
    }

    void noLetterIsBegunOfAVisitEnteredInError()
    {
        const desk::Desk desk;
        QVERIFY(desk.session->withdrawVisit(desk.session->visitInFocus()->id, u"wrong person"_s));
        LetterDraft draft(*desk.session);
        QVERIFY(draft.whyNoLetter().contains(u"entered in error"_s));
        QVERIFY(!draft.begin());
        QVERIFY(desk.letters().empty());
    }
};

HOUSE_TEST(TestLetterDraft)

} // namespace test_letter_draft

#include "test_letter_draft.moc"
