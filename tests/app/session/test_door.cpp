#include "app/session/importing.h"
#include "app/session/session.h"
#include "core/catalogue/own.h"
#include "core/records/happening.h"
#include "core/records/summary.h"
#include "core/records/target.h"
#include "core/records/texts.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/soundness.h"
#include "core/storage/visits.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_door
{

using clinic_desk::book;
using clinic_desk::Desk;
using clinic_desk::today;
using records::Side;

const QString overridden = u"Anna\u202egnaL"_s;

records::Finding berg(double points)
{
    records::Finding finding;
    finding.measure = u"berg-balance"_s;
    finding.value = values::Quantity{points, values::Unit::Score};
    return finding;
}

/// A patient in focus with an open draft of today.
struct Examined : Desk {
    records::Patient patient = add(u"Halden"_s, u"Ida"_s, QDate(1951, 3, 4), u"H-1"_s);
    records::VisitId draft;

    Examined()
    {
        session->choosePatient(patient.id);
        const auto started = session->startVisit(today);
        draft = started ? started->id : records::VisitId();
    }

    records::Visit stored() const { return *storage::Visits(session->store()).withId(draft); }
    QStringList faults() const { return *storage::faults(session->store(), session->catalogue(), today); }

    /// Writes past the session, as an older program or a foreign tool would.
    void smuggle(const records::Finding& finding)
    {
        QVERIFY(storage::Visits(session->store()).saveFinding(draft, finding));
    }
};

template <class Outcome>
void refused(const Outcome& outcome, const QString& begins)
{
    QVERIFY(!outcome);
    QVERIFY2(outcome.error().what.english().startsWith(begins), qPrintable(outcome.error().what.english()));
    QCOMPARE(outcome.error().kind, base::ErrorKind::Invalid);
}

/// Nothing enters the records and nothing is signed without the same check.
class TestDoor : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anImpossibleFindingIsRefusedByEveryWay()
    {
        Examined desk;
        const QString allowed = u"Berg balance scale: total: 0 to 56 points"_s;
        refused(desk.session->saveFinding(desk.draft, berg(5600)), allowed);
        refused(desk.session->saveFindings(desk.draft, {berg(5600)}), allowed);
        records::Finding exception = berg(46);
        exception.exceptions = {{u"start"_s, u"flying"_s}};
        refused(desk.session->saveFinding(desk.draft, exception), u"Start of the walk: "_s);
        records::Finding note = berg(46);
        note.note = u"fell\x1b[2J"_s;
        refused(desk.session->saveFinding(desk.draft, note), u"Berg balance scale: total, note: "_s);
        QVERIFY(desk.stored().findings.empty());
        QVERIFY(desk.session->edits().last().empty());
    }

    void whatIsImpossibleIsNotSigned()
    {
        Examined desk;
        desk.smuggle(berg(5600));
        refused(desk.session->signVisit(desk.draft, *desk.answers.signer),
                u"Berg balance scale: total: 0 to 56 points"_s);
        QCOMPARE(desk.stored().state, records::VisitState::Draft);
        QCOMPARE(desk.faults(), QStringList{u"Visit %1: Berg balance scale: total: 0 to 56 points, whole "
                                            "numbers."_s.arg(desk.draft.text)});
    }

    void redFlagsKeepToTheirQuestionsAndAreAcknowledgedBeforeSigning()
    {
        Examined desk;
        const QString flag = u"loss-of-consciousness"_s;
        const auto answers = [&](const records::RedFlagAnswer& answer) {
            return records::RedFlags{{flag, answer}};
        };
        const auto save = [&](const records::RedFlags& flags) {
            return desk.session->saveRedFlags(desk.draft, flags);
        };
        const QString done = u"What was done about a red flag: "_s;
        refused(save({{u"x"_s, {true, {}}}}), u"“x” is not a red flag"_s);
        refused(save(answers({false, records::Acknowledgement{u"x"_s, today, QTime(9, 0)}})), done);
        refused(save(answers({true, records::Acknowledgement{u" "_s, today, QTime(9, 0)}})), done);
        refused(save(answers({true, records::Acknowledgement{u"x"_s, today, QTime()}})), done);
        refused(save(answers({true, records::Acknowledgement{u"x"_s, today.addDays(1), QTime(9, 0)}})), done);
        refused(save(answers({true, records::Acknowledgement{u"x"_s, today.addDays(-1), QTime(9, 0)}})),
                done);
        refused(save(answers({true, records::Acknowledgement{overridden, today, QTime(9, 0)}})),
                u"What was done about a red flag: character"_s);
        QVERIFY(desk.stored().redFlags.empty());

        QVERIFY(save(answers({true, {}})));
        refused(desk.session->signVisit(desk.draft, *desk.answers.signer), u"A red flag was answered yes"_s);
        QCOMPARE(desk.stored().state, records::VisitState::Draft);
        const auto acknowledged =
            answers({true, records::Acknowledgement{u"Seen by Dr Prat"_s, today, QTime(9, 0)}});
        QVERIFY(save(acknowledged));
        QVERIFY(desk.session->undo());
        QCOMPARE(desk.stored().redFlags, answers({true, {}}));
        QVERIFY(desk.session->undo());
        QVERIFY(desk.stored().redFlags.empty());
        QVERIFY(desk.session->redo());
        QVERIFY(desk.session->redo());
        QVERIFY(desk.session->signVisit(desk.draft, *desk.answers.signer));
        QCOMPARE(desk.stored().redFlags, acknowledged);
        QCOMPARE(desk.faults(), QStringList());
    }

    void undoBringsNothingImpossibleBack()
    {
        Examined desk;
        desk.smuggle(berg(5600));
        desk.session->choosePatient(desk.patient.id);
        QVERIFY(desk.session->saveFinding(desk.draft, berg(46)));
        refused(desk.session->undo(), u"Berg balance scale: total: 0 to 56 points"_s);
        QCOMPARE(values::number(desk.stored().findings.front().value), std::optional(46.0));
    }

    void aTotalAndItsPartsNeverContradict()
    {
        Examined desk;
        const catalogue::Measure* total = nullptr;
        for (const catalogue::Measure& measure : book().measures) {
            if (measure.computed && measure.computed->rule == catalogue::Computing::SumOfItems)
                total = &measure;
        }
        QVERIFY(total);
        const auto valued = [](const catalogue::Measure& measure, double number, Side side) {
            records::Finding finding;
            finding.measure = measure.id;
            finding.side = side;
            finding.value = values::Quantity{number, measure.unit};
            return finding;
        };
        QVERIFY(desk.session->saveFinding(desk.draft, valued(*total, *total->lowest + 1, Side::None)));
        std::vector<records::Finding> parts;
        for (const QString& id : total->computed->parts) {
            const catalogue::Measure& part = *book().measure(id);
            for (const Side side :
                 part.hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None})
                parts.push_back(valued(part, *part.lowest, side));
        }
        const records::Finding last = parts.back();
        parts.pop_back();
        const auto saved = desk.session->saveFindings(desk.draft, parts);
        QVERIFY2(saved, saved ? "" : qPrintable(saved.error().what.english()));
        refused(desk.session->saveFinding(desk.draft, last), total->title + u": the parts recorded make "_s);
        QCOMPARE(desk.stored().findings.size(), parts.size() + 1);

        desk.smuggle(last);
        refused(desk.session->signVisit(desk.draft, *desk.answers.signer),
                total->title + u": it is not what its parts make"_s);
        QCOMPARE(desk.faults().size(), 1);
    }

    void conditionsKeepToTheVocabulary()
    {
        Examined desk;
        refused(desk.session->saveConditions(desk.draft, {{u"start"_s, u"flying"_s}}, true),
                u"Start of the walk: "_s);
        refused(desk.session->saveConditions(desk.draft, {{u"mood"_s, u"good"_s}}, true),
                u"“mood” is not a condition"_s);
        QVERIFY(desk.stored().conditions.empty());
        QVERIFY(!desk.stored().conditionsConfirmed);
    }

    void whatIsNoLongerAllowedIsNotCarriedForward()
    {
        Examined desk;
        QVERIFY(storage::Visits(desk.session->store())
                    .saveConditions(desk.draft, {{u"start"_s, u"flying"_s}, {u"aid"_s, u"none"_s}}, true));
        desk.session->choosePatient(desk.patient.id);
        const auto next = desk.session->startVisit(today);
        QVERIFY2(next, next ? "" : qPrintable(next.error().what.english()));
        QCOMPARE(next->conditions, (records::Conditions{{u"aid"_s, u"none"_s}}));
    }

    void aDayThatCannotBeIsNoVisit()
    {
        Examined desk;
        refused(desk.session->startVisit(today.addDays(1)), u"The visit's day lies in the future"_s);
        refused(desk.session->startVisit(QDate(1951, 3, 3)), u"The visit's day lies before the birth date"_s);
        QCOMPARE(desk.session->visits().size(), size_t(1));
    }

    void aPatientKeepsToLimits()
    {
        Examined desk;
        records::Patient patient = desk.patient;
        patient.family = QString(1'000'000, u'x');
        refused(desk.session->savePatient(patient), u"Family name: at most 100 characters."_s);
        patient = desk.patient;
        patient.given = overridden;
        refused(desk.session->savePatient(patient),
                u"Given name: character 5 is an invisible control character (U+202E)"_s);
        patient = desk.patient;
        patient.heightCm = 900;
        refused(desk.session->savePatient(patient), u"Height: "_s);
        QCOMPARE(*desk.session->patient(desk.patient.id), desk.patient);
    }

    void reasonsAuthorsAndTheClinicKeepToLimits()
    {
        Examined desk;
        QVERIFY(desk.session->signVisit(desk.draft, *desk.answers.signer));
        refused(desk.session->amendVisit(desk.draft, overridden), u"Reason: "_s);
        QCOMPARE(desk.session->versions().size(), size_t(1));
        const auto next = desk.session->startVisit(today);
        QVERIFY(next);
        refused(desk.session->signVisit(next->id, {overridden, {}, {}}), u"Name: "_s);
        refused(desk.session->declareEqual(u"timed-up-and-go"_s, desk.draft, next->id, overridden),
                u"Reason: "_s);
        refused(desk.session->chooseEvidence(u"timed-up-and-go"_s, {}, overridden), u"Reason: "_s);
        records::Clinic clinic = desk.session->clinic();
        clinic.name = QString(101, u'x');
        refused(desk.session->saveClinic(clinic), u"Clinic: at most 100 characters."_s);
        QVERIFY(desk.session->clinic().name != clinic.name);
        const auto patient = desk.session->patient(desk.patient.id);
        QVERIFY(patient->choices.empty() && patient->declared.empty());
    }

    void whoSitsAtTheKeyboardKeepsToLimits()
    {
        Examined desk;
        desk.session->setAskPerson([] { return records::Author{overridden, {}, {}}; });
        records::Clinic clinic = desk.session->clinic();
        clinic.name = u"Vale"_s;
        refused(desk.session->saveClinic(clinic), u"Name: "_s);
        QVERIFY(desk.session->clinic().name != clinic.name);
        QVERIFY(desk.session->signVisit(desk.draft, *desk.answers.signer));
        refused(desk.session->withdrawVisit(desk.draft, overridden), u"Reason: "_s);
        QVERIFY(!desk.stored().withdrawn);
    }

    void aLetterKeepsToLimits()
    {
        Examined desk;
        records::Letter letter;
        letter.patient = desk.patient.id;
        letter.visit = desk.draft;
        letter.history = QString(20'001, u'x');
        refused(desk.session->saveLetter(letter), u"History: at most 20000 characters."_s);
        letter.history = u"walks\ufffe"_s;
        refused(desk.session->saveLetter(letter), u"History: character 6 is "_s);
        refused(desk.session->signOffLetter(letter), u"History: character 6 is "_s);
        QVERIFY(desk.session->letters()->empty());
    }

    void anEventOrTargetKeepsToLimits()
    {
        Examined desk;
        records::Happening event;
        event.kind = records::HappeningKind::Relapse;
        event.from = today.addDays(1);
        refused(desk.session->saveHappening(event), u"First day of the event: "_s);
        event.from = today;
        event.words = overridden;
        refused(desk.session->saveHappening(event), u"Words on the event: character 5 is "_s);
        event.words.clear();
        const auto saved = desk.session->saveHappening(event);
        QVERIFY(saved);
        refused(desk.session->takeBackHappening(saved->id, overridden), u"Reason: "_s);
        QCOMPARE(desk.session->happenings().size(), size_t(1));

        records::Target target{u"berg-balance"_s, Side::None, 57, {}, {}, today, {}, {}, {}};
        refused(desk.session->saveTarget(target), u"Berg balance scale: total: 0 to 56 points"_s);
        target.value = 50;
        QVERIFY(desk.session->saveTarget(target));
        refused(desk.session->dropTarget(u"berg-balance"_s, Side::None, overridden), u"Reason: "_s);
        QCOMPARE(desk.session->targets().size(), size_t(1));
        QCOMPARE(desk.faults(), QStringList());
    }

    void theClinicsOwnCatalogueKeepsToLimits()
    {
        Examined desk;
        catalogue::Own own = own_example::own();
        QVERIFY(!own.measures.empty());
        own.measures.front().title = overridden;
        refused(desk.session->saveOwn(own), u"The text “AnnagnaL”: character 5 is "_s);
        QVERIFY(desk.session->own().measures.empty());
    }

    void anImportIsHeldToTheSame()
    {
        Examined desk;
        exchange::ImportedPatient imported;
        imported.patient.recordNumber = u"H-2"_s;
        exchange::ImportedVisit visit;
        visit.visit.day = today;
        visit.visit.findings = {berg(5600)};
        visit.origins = {{1, {exchange::Place{"Line %1, column %2: %3", 2}}, false}};
        imported.visits = {visit};
        refused(session::importPatients(*desk.session, {imported}, *desk.answers.signer),
                u"Berg balance scale: total: 0 to 56 points"_s);
        imported.visits = {};
        imported.patient.family = overridden;
        refused(session::importPatients(*desk.session, {imported}, *desk.answers.signer), u"Family name: "_s);
        refused(session::importPatients(*desk.session, {}, {overridden, {}, {}}), u"Name: "_s);
        QCOMPARE(desk.session->patients()->size(), size_t(1));
    }

    void theCheckAsksTheSameOfWhatIsStored()
    {
        Examined desk;
        QCOMPARE(desk.faults(), QStringList());
        records::Letter letter;
        letter.patient = desk.patient.id;
        letter.visit = desk.draft;
        letter.question = overridden;
        QVERIFY(storage::Letters(desk.session->store()).save(letter));
        records::Patient patient = desk.patient;
        patient.family = overridden;
        QVERIFY(storage::Patients(desk.session->store()).save(patient));
        records::Clinic clinic = desk.session->clinic();
        clinic.address = overridden;
        QVERIFY(desk.session->store().save(clinic));
        QVERIFY(storage::Visits(desk.session->store())
                    .saveConditions(desk.draft, {{u"start"_s, u"flying"_s}}, true));
        const QString faults = desk.faults().join(u'\n');
        for (const QString& part :
             {u"The clinic: Address: "_s, u"Patient %1: Family name: "_s.arg(patient.id.text),
              u": Question: character 5"_s, u"Visit %1: Start of the walk: "_s.arg(desk.draft.text)})
            QVERIFY2(faults.contains(part), qPrintable(faults));
        QCOMPARE(desk.faults().size(), 4);
        QVERIFY(base::controlAt(faults, base::Breaks::Allowed) < 0);
    }
};

HOUSE_TEST(TestDoor)

} // namespace test_door

#include "test_door.moc"
