#include "core/records/check.h"
#include "core/records/summary.h"
#include "core/storage/clinic_catalogues.h"
#include "core/storage/store.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_own_catalogue
{

using base::ErrorKind;
using catalogue::Own;
using session::Session;

/// An empty clinic with the example as its own catalogue, and a patient in focus.
struct Desk : clinic_desk::Desk {
    bool isKept = bool(session->saveOwn(own_example::own()));
    records::Patient patient = add(u"Halden"_s, u"Ida"_s, QDate(1950, 5, 5), u"H-1"_s);

    Desk() { session->choosePatient(patient.id); }

    /// A visit with a reach of so many centimetres.
    records::VisitId reach(double centimetres, const QString& form = u"own-short"_s)
    {
        const auto visit = session->startVisit(clinic_desk::today, form);
        records::Finding finding;
        finding.measure = u"own-seated-reach"_s;
        finding.value = values::Quantity{centimetres, values::Unit::Centimetre};
        return visit && session->saveFinding(visit->id, finding) ? visit->id : records::VisitId();
    }

    QString write(const QString& name, const QByteArray& bytes) const
    {
        QFile file(folder.filePath(name));
        return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size() ? file.fileName()
                                                                                    : QString();
    }
};

void keepUnreadable(Session& session, const QByteArray& document)
{
    QVERIFY(storage::ClinicCatalogues(session.store()).add(document));
}

class TestOwnCatalogue : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsSavedCountsAtOnceAndAtTheNextStart()
    {
        clinic_desk::Desk desk;
        QSignalSpy changed(desk.session.get(), &Session::catalogueChanged);
        QVERIFY(desk.session->catalogue().form(u"own-short"_s) == nullptr);
        QVERIFY(desk.session->saveOwn(own_example::own()));
        QCOMPARE(changed.size(), 1);
        const auto again = desk.openAgain();
        for (const Session* session : {desk.session.get(), again.get()}) {
            QVERIFY(session->catalogue().form(u"own-short"_s)->isOwn);
            QVERIFY(session->catalogue().measure(u"own-seated-reach"_s)->isOwn);
            QCOMPARE(catalogue::written(session->own()), catalogue::written(own_example::own()));
            QVERIFY(session->catalogueFault().isEmpty());
        }
    }

    void anOlderStateLastsAsLongAsItIsShared()
    {
        Desk desk;
        const auto shared = desk.session->sharedCatalogue();
        const catalogue::Measure* before = shared->measure(u"own-seated-reach"_s);
        Own own = desk.session->own();
        own.measures.front().title = u"Reach while seated"_s;
        QVERIFY(desk.session->saveOwn(own));
        QCOMPARE(before->title, u"Seated reach"_s);
        QCOMPARE(desk.session->catalogue().measure(before->id)->title, u"Reach while seated"_s);
    }

    void whatIsWrongIsRefusedWhole()
    {
        Desk desk;
        Own own = desk.session->own();
        own.forms.front().title = u"Other"_s;
        own.measures.front().highest = -1;
        QSignalSpy changed(desk.session.get(), &Session::catalogueChanged);
        const auto refused = desk.session->saveOwn(own);
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Invalid);
        QVERIFY2(
            refused.error().what.english().contains(u"own-seated-reach: “lowest” is not below “highest”"_s),
            qPrintable(refused.error().what.english()));
        QCOMPARE(changed.size(), 0);
        QCOMPARE(desk.openAgain()->catalogue().form(u"own-short"_s)->title, u"Ward round"_s);
    }

    void theLastGoodVersionIsUsedAtTheStart_data()
    {
        QTest::addColumn<QByteArray>("document");
        QTest::addColumn<QString>("words");
        const QByteArray sound = catalogue::written(own_example::own());
        QTest::newRow("cut off") << sound.left(700) << u"not sound JSON"_s;
        QTest::newRow("unknown unit")
            << QByteArray(sound).replace("\"cm\"", "\"inch\"") << u"own-seated-reach: unknown unit “inch”"_s;
        QTest::newRow("deep nesting") << QByteArray(10'000, '[') << u"not sound JSON"_s;
    }

    void theLastGoodVersionIsUsedAtTheStart()
    {
        QFETCH(QByteArray, document);
        QFETCH(QString, words);
        Desk desk;
        keepUnreadable(*desk.session, document);
        keepUnreadable(*desk.session, document);
        desk.session.reset();
        const auto& again = desk.session = desk.openAgain();
        QVERIFY(again->catalogue().form(u"own-short"_s) != nullptr);
        const QString fault = again->catalogueFault();
        QVERIFY2(fault.startsWith(u"Version 3 of the clinic's own catalogue"_s) && fault.contains(words) &&
                     fault.endsWith(u"So version 1 is used."_s),
                 qPrintable(fault));
        QVERIFY(again->saveOwn(again->own()));
        QVERIFY(desk.openAgain()->catalogueFault().isEmpty());
    }

    void withoutAGoodVersionTheReleasedCatalogueIsUsed()
    {
        clinic_desk::Desk desk;
        keepUnreadable(*desk.session, "[]");
        const auto again = desk.openAgain();
        QCOMPARE(again->catalogue().forms.size(), clinic_desk::book().forms.size());
        QVERIFY(again->catalogueFault().endsWith(
            u"So only the catalogue that comes with the program is used."_s));
    }

    void aMeasureOnceKeptIsRetiredNotRemoved()
    {
        Desk desk;
        Own own = desk.session->own();
        own.measures.clear();
        own.thresholds.clear();
        own.forms.clear();
        const auto refused = desk.session->saveOwn(own);
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Refused);
        QVERIFY(refused.error().what.english().startsWith(u"own-seated-reach: "_s));

        const records::VisitId visit = desk.reach(31);
        own.measures = {own_example::seatedReach()};
        own.measures.front().retired = true;
        QVERIFY(desk.session->saveOwn(own));
        const auto again = desk.openAgain();
        again->choosePatient(desk.patient.id);
        QVERIFY(again->visitInFocus()->finding(u"own-seated-reach"_s, records::Side::None) != nullptr);
        QCOMPARE(again->visitInFocus()->formAsMade->title, u"Ward round"_s);
        QVERIFY(!records::wrongWith(*again->visitInFocus(), desk.patient, again->catalogue(),
                                    clinic_desk::today));
        QCOMPARE(again->visitInFocus()->id, visit);
    }

    void aNewVisitDoesNotAskForARetiredMeasure()
    {
        Desk desk;
        Own own = desk.session->own();
        own.measures.front().retired = true;
        QVERIFY(desk.session->saveOwn(own));
        const auto visit = desk.session->startVisit(clinic_desk::today, u"own-short"_s);
        QVERIFY(visit);
        QCOMPARE(visit->formAsMade->measures(), (QStringList{u"toe-tapping"_s, u"finger-nose"_s}));
        QCOMPARE(visit->formAsMade->expected, QStringList{u"toe-tapping"_s});
        QCOMPARE(visit->formAsMade->sections.size(), 1u);
    }

    void aRecordedResultStaysAllowed()
    {
        Desk desk;
        QVERIFY(!desk.reach(31).isNull());
        Own own = desk.session->own();
        own.measures.front().highest = 30;
        own.thresholds.clear();
        const auto narrowed = desk.session->saveOwn(own);
        QVERIFY(!narrowed);
        QCOMPARE(narrowed.error().kind, ErrorKind::Refused);
        own.measures.front().highest = 3;
        own.measures.front().unit = values::Unit::Metre;
        QVERIFY(!desk.session->saveOwn(own));
        own = desk.session->own();
        own.measures.front().highest = 120;
        QVERIFY(desk.session->saveOwn(own));
    }

    void aVisitKeepsTheFormItWasMadeWith()
    {
        Desk desk;
        QVERIFY(!desk.reach(31).isNull());
        const auto made = desk.session->visitInFocus()->formAsMade;
        QCOMPARE(made, std::optional(own_example::shortForm()));
        Own own = desk.session->own();
        own.forms.front().title = u"Evening round"_s;
        own.forms.front().sections.pop_back();
        own.forms.front().expected = {u"own-seated-reach"_s};
        QVERIFY(desk.session->saveOwn(own));
        QCOMPARE(desk.session->visitInFocus()->formAsMade, made);
        own.forms.clear();
        QVERIFY(desk.session->saveOwn(own));
        const auto again = desk.openAgain();
        again->choosePatient(desk.patient.id);
        QCOMPARE(again->visitInFocus()->formAsMade, made);
    }

    void aVisitStartsWithTheFormAskedForElseWithTheFirst()
    {
        Desk desk;
        const auto usual = desk.session->startVisit(clinic_desk::today);
        QCOMPARE(usual->form, clinic_desk::book().forms.front().id);
        QCOMPARE(usual->formAsMade, std::optional(clinic_desk::book().forms.front()));
        const auto unknown = desk.session->startVisit(clinic_desk::today, u"no-such-form"_s);
        QVERIFY(!unknown);
        QCOMPARE(unknown.error().kind, ErrorKind::NotFound);
        QCOMPARE(desk.session->visits().size(), 1u);
    }

    void aFileMovesBetweenClinics()
    {
        Desk desk;
        const QString path = desk.folder.filePath(u"own.json"_s);
        QVERIFY(desk.session->writeOwn(path));
        clinic_desk::Desk other;
        QVERIFY(other.session->readOwn(path));
        QCOMPARE(catalogue::written(other.session->own()), catalogue::written(desk.session->own()));
    }

    void whatIsReadIsAddedAndTakesTheKnownPlace()
    {
        Desk desk;
        Own other = own_example::own();
        other.forms.front().title = u"Evening round"_s;
        other.forms.push_back({u"own-second"_s, u"Second"_s, {{u"Hands"_s, {u"toe-tapping"_s}}}, {}, true});
        other.thresholds.clear();
        const QString path = desk.write(u"other.json"_s, catalogue::written(other));
        QVERIFY(desk.session->readOwn(path));
        const Own& own = desk.session->own();
        QCOMPARE(own.forms.size(), 2u);
        QCOMPARE(own.forms.front().title, u"Evening round"_s);
        QCOMPARE(own.thresholds.size(), 1u);
        QCOMPARE(own.measures.size(), 1u);
    }

    void aRefusedFileChangesNothing_data()
    {
        QTest::addColumn<QByteArray>("document");
        QTest::addColumn<QString>("words");
        const QByteArray sound = catalogue::written(own_example::own());
        QTest::newRow("empty") << QByteArray() << u"not sound JSON"_s;
        QTest::newRow("truncated") << sound.chopped(3) << u"not sound JSON"_s;
        QTest::newRow("wrong type") << QByteArray(sound).replace("\"step\": 0.5", "\"step\": true")
                                    << u"own-seated-reach: “step” is not a number"_s;
        QTest::newRow("duplicate key")
            << QByteArray(sound).replace("\"step\": 0.5", "\"step\": 1, \"step\": 2")
            << u"“step” is given twice"_s;
        QTest::newRow("colliding id")
            << QByteArray(sound).replace("\"id\": \"own-short\"", "\"id\": \"bedside\"")
            << u"bedside: “id” belongs to the catalogue"_s;
        QTest::newRow("a records file") << QByteArray("SQLite format 3\0", 16) << u"not sound JSON"_s;
    }

    void aRefusedFileChangesNothing()
    {
        QFETCH(QByteArray, document);
        QFETCH(QString, words);
        Desk desk;
        const QByteArray before = catalogue::written(desk.session->own());
        const auto refused = desk.session->readOwn(desk.write(u"own.json"_s, document));
        QVERIFY(!refused);
        QVERIFY2(refused.error().what.english().startsWith(u"own.json"_s) &&
                     refused.error().what.english().contains(words),
                 qPrintable(refused.error().what.english()));
        QCOMPARE(catalogue::written(desk.session->own()), before);
        QCOMPARE((*storage::ClinicCatalogues(desk.session->store()).newest())->version, 1);
    }

    void aFileOf100MegabytesIsNotReadWhole()
    {
        Desk desk;
        const QString path = desk.write(u"own.json"_s, "{");
        QVERIFY(QFile::resize(path, 100'000'000));
        const auto refused = desk.session->readOwn(path);
        QVERIFY(!refused);
        QCOMPARE(refused.error().what.english(), u"own.json: the file is larger than 2 MB."_s);
    }

    void whereThereIsNoFileNothingIsReadOrWritten()
    {
        Desk desk;
        QCOMPARE(desk.session->readOwn(desk.folder.filePath(u"none.json"_s)).error().kind,
                 ErrorKind::NotFound);
        QCOMPARE(desk.session->writeOwn(desk.folder.filePath(u"no/folder/own.json"_s)).error().kind,
                 ErrorKind::Unwritable);
    }

    void anotherThresholdIsChosenForOnePatientWithAReason()
    {
        Desk desk;
        QSignalSpy judging(desk.session.get(), &Session::judgingChanged);
        const QString measure = u"own-seated-reach"_s, row = u"own-seated-reach-stroke"_s;
        QVERIFY(desk.session->chooseEvidence(measure, row, u"measured on this ward"_s));
        QCOMPARE(judging.size(), 1);
        QCOMPARE(desk.session->patientInFocus().choices.back().threshold, row);
        const auto again = desk.openAgain();
        again->choosePatient(desk.patient.id);
        QCOMPARE(again->patientInFocus().choices, desk.session->patientInFocus().choices);
        QCOMPARE(again->patientInFocus().choices.back().reason, u"measured on this ward"_s);

        Own own = desk.session->own();
        own.thresholds.clear();
        const auto refused = desk.session->saveOwn(own);
        QVERIFY(!refused);
        QVERIFY(refused.error().what.english().startsWith(row));
    }

    void anotherThresholdIsChosenForAPopulation()
    {
        Desk desk;
        QSignalSpy judging(desk.session.get(), &Session::judgingChanged);
        const QString measure = u"own-seated-reach"_s, row = u"own-seated-reach-stroke"_s;
        QVERIFY(desk.session->chooseEvidenceForPopulation(measure, row, u"our own study"_s));
        QCOMPARE(judging.size(), 1);
        QCOMPARE(desk.openAgain()->clinic().judging.choices, desk.session->clinic().judging.choices);
        QCOMPARE(desk.session->clinic().judging.choices.back().choice.threshold, row);
        QCOMPARE(desk.session->chooseEvidenceForPopulation(measure, row, u" "_s).error().kind,
                 ErrorKind::Refused);
        records::Clinic other = desk.session->clinic();
        other.judging.choices.clear();
        QVERIFY(desk.session->saveClinic(other)); // they are kept
        QCOMPARE(desk.session->clinic().judging.choices.size(), size_t(1));
        Own own = desk.session->own();
        own.thresholds.clear();
        QVERIFY(!desk.session->saveOwn(own));
        desk.session->leavePatient();
        QCOMPARE(desk.session->chooseEvidenceForPopulation(measure, row, u"x"_s).error().kind,
                 ErrorKind::NotFound);
    }

    void aChoiceIsRefusedWithoutReasonPatientOrRow()
    {
        Desk desk;
        const QString measure = u"own-seated-reach"_s, row = u"own-seated-reach-stroke"_s;
        QCOMPARE(desk.session->chooseEvidence(measure, row, u" "_s).error().kind, ErrorKind::Refused);
        QCOMPARE(desk.session->chooseEvidence(measure, u"none"_s, u"x"_s).error().kind, ErrorKind::Invalid);
        QCOMPARE(desk.session->chooseEvidence(u"toe-tapping"_s, row, u"x"_s).error().kind,
                 ErrorKind::Invalid);
        desk.session->leavePatient();
        QCOMPARE(desk.session->chooseEvidence(measure, row, u"x"_s).error().kind, ErrorKind::NotFound);
        QVERIFY(desk.session->patient(desk.patient.id)->choices.empty());
    }

    void theVisitsThatUsedAMeasureAreNamed()
    {
        Desk desk;
        const records::VisitId visit = desk.reach(31);
        const auto uses = desk.session->uses(u"own-seated-reach"_s);
        QVERIFY(uses);
        QCOMPARE(uses->size(), 1u);
        QCOMPARE(uses->front(),
                 (records::Use{desk.patient.id, u"Halden"_s, u"Ida"_s, u"H-1"_s, visit, clinic_desk::today}));
        QVERIFY(desk.session->uses(u"six-minute-walk"_s)->empty());
    }
};

HOUSE_TEST(TestOwnCatalogue)

} // namespace test_own_catalogue

#include "test_own_catalogue.moc"
