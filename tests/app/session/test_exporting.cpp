#include "app/session/demo.h"
#include "app/session/exporting.h"
#include "app/session/importing.h"
#include "core/base/csv.h"
#include "core/exchange/whole_writing.h"
#include "core/records/check.h"
#include "core/records/letter.h"
#include "core/storage/audit_trail.h"
#include "core/storage/whole_records.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/made_up_record.h"
#include "tests/support/own_example.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QElapsedTimer>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace test_exporting
{

using clinic_desk::Desk;
using records::WholeRecord;

/// What must be the same wherever the records are: how often something was saved is not of it.
WholeRecord comparable(WholeRecord record)
{
    record.patient.revision = 0;
    for (records::Visit& visit : record.visits)
        visit.revision = 0;
    std::ranges::sort(record.visits, {}, [](const records::Visit& visit) {
        return std::tuple(visit.series.text, visit.version);
    });
    std::ranges::sort(record.happenings, {}, [](const records::Happening& happening) {
        return std::tuple(happening.id.text, happening.version);
    });
    std::ranges::sort(record.asked, {}, [](const records::Asked& asked) { return asked.visit.text; });
    return record;
}

std::vector<WholeRecord> recordsIn(session::Session& session)
{
    std::vector<WholeRecord> all;
    const auto read =
        storage::eachWholeRecord(session.store(), {}, [&](WholeRecord record) -> base::Result<void> {
            all.push_back(comparable(std::move(record)));
            return {};
        });
    std::ranges::sort(all, {}, [](const WholeRecord& record) { return record.patient.id.text; });
    return read ? all : std::vector<WholeRecord>();
}

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray("none");
}

struct ExportDesk : Desk {
    QString file = folder.filePath(u"records.csv"_s);
    QString letters = folder.filePath(u"letters"_s);
    QString fhir = folder.filePath(u"records.json"_s);

    ExportDesk() { session->setPerson(*answers.atKeyboard); }

    base::Result<session::ExportSummary> write(const records::Extent& extent = {},
                                               const records::Progress& progress = {}) const
    {
        return session::exportRecords(*session, extent, file, {{}, fhir}, progress);
    }

    base::Result<session::ImportSummary> take(const QByteArray& bytes) const
    {
        const auto read = session::findingsFile(*session, bytes);
        if (!read)
            return read.error();
        return session::importFile(*session, *read, session::importingAuthor(u"C. Carrier"_s),
                                   u"records.csv"_s);
    }

    void bring(const WholeRecord& record) const
    {
        std::vector<std::pair<records::VisitId, records::Withdrawal>> withdrawn;
        for (const records::Visit& visit : record.visits) {
            if (visit.withdrawn && visit.id == visit.series)
                withdrawn.emplace_back(visit.series, *visit.withdrawn);
        }
        const auto brought = storage::bringRecord(session->store(), record, true, withdrawn);
        QVERIFY2(brought, brought ? "" : qPrintable(brought.error().what.english() + brought.error().detail));
    }

    /// Ten invented records.
    void fill() const
    {
        for (quint32 number = 1; number <= 10; ++number)
            bring(madeUpRecord(number, session->catalogue()));
    }
};

QString words(const base::Error& error)
{
    return error.what.english() + u' ' + error.detail;
}

class TestExporting : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// More of them: APLOMB_RECORDS=1000 build/dev/tests/app.session exporting
    void whatIsExportedComesBackValueForValue()
    {
        const int many = qEnvironmentVariableIntValue("APLOMB_RECORDS");
        const ExportDesk desk;
        QVERIFY(desk.session->saveOwn(own_example::own()));
        std::vector<WholeRecord> made;
        int drafts = 0, withdrawn = 0, amended = 0, flags = 0, taps = 0, gaps = 0, exceptions = 0,
            unables = 0;
        for (quint32 number = 1; number <= quint32(many > 0 ? many : 40); ++number) {
            made.push_back(madeUpRecord(number, desk.session->catalogue()));
            desk.bring(made.back());
            for (const records::Visit& visit : made.back().visits) {
                QVERIFY(!records::wrongWith(visit, made.back().patient, desk.session->catalogue(),
                                            desk.session->today()));
                drafts += int(visit.state == records::VisitState::Draft);
                amended += int(visit.state == records::VisitState::Amended);
                withdrawn += int(visit.withdrawn.has_value());
                flags += int(visit.redFlags.size());
                for (const records::Finding& finding : visit.findings) {
                    taps += int(!finding.taps.empty());
                    gaps += int(!finding.trialNumbers.empty());
                    exceptions += int(!finding.exceptions.isEmpty());
                    unables += int(values::isUnable(finding.value));
                }
            }
            made.back() = comparable(made.back());
        }
        for (const int found : {drafts, withdrawn, amended, flags, taps, gaps, exceptions, unables})
            QVERIFY(found >= 5); // what the law is about is among them
        std::ranges::sort(made, {}, [](const WholeRecord& record) { return record.patient.id.text; });
        QVERIFY(recordsIn(*desk.session) == made);

        const auto written = desk.write();
        QVERIFY2(written, written ? "" : qPrintable(words(written.error())));
        const QByteArray bytes = bytesOf(desk.file);
        const ExportDesk other;
        const auto taken = other.take(bytes);
        QVERIFY2(taken, taken ? "" : qPrintable(words(taken.error())));
        QCOMPARE(taken->patients, int(made.size()));
        QCOMPARE(taken->findings, written->findings);
        QVERIFY(taken->isOwnNew);
        QVERIFY(recordsIn(*other.session) == made);
        QCOMPARE(catalogue::written(other.session->own()), catalogue::written(desk.session->own()));
        QVERIFY(other.write());
        QVERIFY(bytesOf(other.file) == bytes);
        const auto again = other.take(bytes);
        QVERIFY2(again, again ? "" : qPrintable(words(again.error())));
        QCOMPARE(*again, session::ImportSummary());

        const QByteArray bundle = bytesOf(desk.fhir);
        const ExportDesk third;
        QElapsedTimer clock;
        clock.start();
        const auto fromFhir = third.take(bundle);
        QVERIFY2(fromFhir, fromFhir ? "" : qPrintable(words(fromFhir.error())));
        QCOMPARE(*fromFhir, *taken);
        const auto read = recordsIn(*third.session);
        QCOMPARE(read.size(), made.size());
        int differing = 0;
        for (size_t i = 0; i < made.size(); ++i)
            differing += read[i] == made[i] ? 0 : 1;
        qInfo("%d records of %zu differ; CSV %lld bytes, FHIR %lld bytes, read in %lld ms", differing,
              made.size(), qlonglong(bytes.size()), qlonglong(bundle.size()), qlonglong(clock.elapsed()));
        QCOMPARE(differing, 0);
        QCOMPARE(catalogue::written(third.session->own()), catalogue::written(desk.session->own()));
        QVERIFY(third.write());
        QVERIFY(bytesOf(third.file) == bytes);
        QVERIFY(bytesOf(third.fhir) == bundle);
        const auto onceMore = other.take(bundle); // what came as CSV is there already
        QVERIFY2(onceMore, onceMore ? "" : qPrintable(words(onceMore.error())));
        QCOMPARE(*onceMore, session::ImportSummary());
    }

    /// What people do in the window, as the demo clinic does it.
    void theDemoClinicComesBackValueForValue()
    {
        const ExportDesk desk;
        QVERIFY(session::makeDemoClinic(*desk.session));
        QVERIFY(desk.write());
        const ExportDesk other, third;
        QVERIFY(other.take(bytesOf(desk.file)));
        const auto all = recordsIn(*desk.session);
        QVERIFY(all.size() > 5);
        QVERIFY(recordsIn(*other.session) == all);
        QVERIFY(third.take(bytesOf(desk.fhir)));
        QVERIFY(recordsIn(*third.session) == all);
    }

    /// Formulas: OWASP, "CSV Injection" (owasp.org/www-community/attacks/CSV_Injection): =, +, -, @, tab and
    /// carriage return at the beginning of a cell.
    void noCellIsAFormulaToASpreadsheet()
    {
        const ExportDesk desk;
        desk.fill();
        QVERIFY(desk.write());
        const auto rows = base::csvRows(bytesOf(desk.file));
        QVERIFY(rows);
        int guarded = 0;
        for (const base::CsvRow& row : *rows) {
            for (const QString& cell : row.cells) {
                bool isNumber = false;
                cell.toDouble(&isNumber);
                QVERIFY2(isNumber || cell.isEmpty() || !u"=+-@\t\r"_s.contains(cell.front()),
                         qPrintable(cell));
                guarded += int(cell.startsWith(u'\''));
            }
        }
        QVERIFY(guarded > 5);
    }

    void whoCarriedItStandsInTheTrailAndWhoSignedItUnderTheVisit()
    {
        ExportDesk desk;
        desk.session->choosePatient(desk.add(u"Falk"_s, u"Ida"_s, QDate(1950, 2, 3), u"F-1"_s).id);
        const records::VisitId visit = desk.addVisit(QDate(2026, 3, 2));
        QVERIFY(desk.write());
        const ExportDesk other;
        QVERIFY(other.take(bytesOf(desk.file)));
        const WholeRecord record = recordsIn(*other.session).at(0);
        QCOMPARE(record.visits.front().author.name, u"A. Tester"_s);
        QCOMPARE(record.visits.front().signedAt, recordsIn(*desk.session).at(0).visits.front().signedAt);
        const auto entries = storage::AuditTrail(other.session->store()).ofRecord(visit.text);
        QVERIFY(entries);
        QCOMPARE(entries->size(), size_t(1));
        QCOMPARE(entries->front().action, u"imported"_s);
        QCOMPARE(entries->front().who, records::inWords(*other.answers.atKeyboard));
    }

    void whatGoesOnElsewhereIsAdded()
    {
        ExportDesk desk;
        desk.session->choosePatient(desk.add(u"Falk"_s, u"Ida"_s, QDate(1950, 2, 3), u"F-1"_s).id);
        const records::VisitId visit = desk.addVisit(QDate(2026, 3, 2));
        QVERIFY(desk.write());
        const ExportDesk other;
        QVERIFY(other.take(bytesOf(desk.file)));

        const auto amendment = desk.session->amendVisit(visit, u"wrong side"_s);
        QVERIFY(amendment);
        QVERIFY(desk.session->signVisit(amendment->id, *desk.answers.signer));
        QVERIFY(!desk.addVisit(QDate(2026, 3, 9)).isNull());
        QVERIFY(desk.write());
        const auto taken = other.take(bytesOf(desk.file));
        QVERIFY2(taken, taken ? "" : qPrintable(words(taken.error())));
        QCOMPARE(taken->patients, 0);
        QCOMPARE(taken->amendments, 1);
        QCOMPARE(taken->visits, 1);
        QVERIFY(recordsIn(*other.session) == recordsIn(*desk.session));
    }

    void whatTheRecordsHoldOtherwiseIsRefused()
    {
        ExportDesk desk;
        desk.session->choosePatient(desk.add(u"Falk"_s, u"Ida"_s, QDate(1950, 2, 3), u"F-1"_s).id);
        desk.addVisit(QDate(2026, 3, 2));
        QVERIFY(desk.write());
        const QByteArray bytes = bytesOf(desk.file);
        const ExportDesk other;
        QVERIFY(other.take(bytes));
        const auto before = recordsIn(*other.session);

        QByteArray changed = bytes;
        changed.replace("toe-tapping,right,2", "toe-tapping,right,3");
        QVERIFY(changed != bytes);
        const auto refused = other.take(changed);
        QVERIFY(!refused);
        QCOMPARE(refused.error().what.english(), u"Line 4: The records hold another visit in its place."_s);
        QVERIFY(recordsIn(*other.session) == before);

        ExportDesk third;
        third.add(u"Other"_s, u"Person"_s, QDate(1960, 1, 1), u"F-1"_s);
        const auto taken = third.take(bytes);
        QVERIFY(!taken);
        QCOMPARE(taken.error().what.english(), u"Line 2: This record number belongs to another patient."_s);
    }

    void aWrongRowNamesLineColumnAndWhatIsAllowed_data()
    {
        QTest::addColumn<QByteArray>("from");
        QTest::addColumn<QByteArray>("to");
        QTest::addColumn<QString>("said");
        QTest::newRow("kind") << QByteArray("\nvisit,") << QByteArray("\nvisits,")
                              << u"Line 4, column row: Allowed are catalogue, form"_s;
        QTest::newRow("of") << QByteArray("\nfinding,,1,") << QByteArray("\nfinding,,7,")
                            << u"Line 5, column of: Allowed is the “no” of a visit's row."_s;
        QTest::newRow("state") << QByteArray(",signed,") << QByteArray(",sealed,")
                               << u"column state: Allowed are draft, signed, amended."_s;
        QTest::newRow("value") << QByteArray("right,2,") << QByteArray("right,9,") << u"column value: "_s;
        QTest::newRow("measure") << QByteArray(",toe-tapping,right") << QByteArray(",toe-typing,right")
                                 << u"column measure: Allowed is a measure"_s;
        QTest::newRow("date that is another")
            << QByteArray("2026-03-02,toe-tapping") << QByteArray("2026-03-03,toe-tapping")
            << u"column date: It must be as in the row"_s;
        QTest::newRow("instant") << QByteArray("T09:30:00.000Z") << QByteArray("T09:30")
                                 << u"column at: Allowed is an instant as 2024-03-01T09:30:00.000Z."_s;
        QTest::newRow("header") << QByteArray(",signs,") << QByteArray(",sings,")
                                << u"Allowed as the header's"_s;
    }

    void aWrongRowNamesLineColumnAndWhatIsAllowed()
    {
        QFETCH(const QByteArray, from);
        QFETCH(const QByteArray, to);
        QFETCH(const QString, said);
        ExportDesk desk;
        desk.session->choosePatient(desk.add(u"Falk"_s, u"Ida"_s, QDate(1950, 2, 3), u"F-1"_s).id);
        desk.addVisit(QDate(2026, 3, 2));
        QVERIFY(desk.write());
        QByteArray bytes = bytesOf(desk.file);
        const qsizetype place = bytes.indexOf(from);
        QVERIFY2(place >= 0, bytes.constData());
        bytes.replace(place, from.size(), to);
        const ExportDesk other;
        const auto refused = other.take(bytes);
        QVERIFY(!refused);
        QVERIFY2(refused.error().what.english().contains(said), qPrintable(refused.error().what.english()));
        QVERIFY(recordsIn(*other.session).empty());
    }

    void stoppedLeavesNoFileAndAnOldOneAsItWas()
    {
        const ExportDesk desk;
        desk.fill();
        const auto stop = [](int percent) { return percent < 50; };
        QVERIFY(!desk.write({}, stop));
        QVERIFY(!QFile::exists(desk.file));
        QVERIFY(desk.write());
        const QByteArray before = bytesOf(desk.file);
        QVERIFY(!desk.write({}, stop));
        QCOMPARE(bytesOf(desk.file), before);
        QVERIFY(!session::exportRecords(*desk.session, {}, desk.file, {desk.letters, {}}, stop));
        QVERIFY(!QFileInfo::exists(desk.letters));
        QCOMPARE(QDir(desk.folder.path()).entryList({u"*unfinished*"_s}, QDir::AllEntries).size(), 0);
    }

    /// All is on the disk before the first takes its place.
    void whereOneFileCannotBeWrittenTheOtherStaysAsItWas()
    {
        ExportDesk desk;
        QVERIFY(desk.write());
        const QByteArray file = bytesOf(desk.file);
        const QByteArray bundle = bytesOf(desk.fhir);
        desk.fill();
        const QString nowhere = desk.folder.filePath(u"no/such/folder"_s);
        QVERIFY(!session::exportRecords(*desk.session, {}, nowhere, {desk.letters, desk.fhir}));
        QCOMPARE(bytesOf(desk.fhir), bundle);
        QVERIFY(!session::exportRecords(*desk.session, {}, desk.file, {desk.letters, nowhere}));
        QCOMPARE(bytesOf(desk.file), file);
        QVERIFY(!QFileInfo::exists(desk.letters));
        QCOMPARE(QDir(desk.folder.path()).entryList({u"records.*.*"_s}, QDir::Files), QStringList());
        QVERIFY(desk.write());
        QVERIFY(bytesOf(desk.file) != file && bytesOf(desk.fhir) != bundle);
    }

    void signedLettersComeAsTheyWereSigned()
    {
        ExportDesk desk;
        desk.session->choosePatient(desk.add(u"Falk"_s, u"Ida"_s, QDate(1950, 2, 3), u"F/1"_s).id);
        records::Letter letter;
        letter.patient = *desk.session->focus().patient;
        letter.visit = desk.addVisit(QDate(2026, 3, 2));
        QVERIFY(desk.session->saveLetter(letter)); // a draft stays here
        auto draft = desk.session->saveLetter(letter);
        QVERIFY(draft);
        letter = *draft;
        letter.body = u"<p>words</p>"_s;
        letter.pdf = "%PDF-1.4 as signed";
        letter.odt = "PK as signed";
        letter.author = *desk.answers.signer;
        const auto off = desk.session->signOffLetter(letter);
        QVERIFY2(off, off ? "" : qPrintable(words(off.error())));
        const auto written = session::exportRecords(*desk.session, {}, desk.file, {desk.letters, {}});
        QVERIFY2(written, written ? "" : qPrintable(words(written.error())));
        QCOMPARE(written->letters, 1);
        const QDir folder(desk.letters);
        const QStringList names = folder.entryList(QDir::Files, QDir::Name);
        QCOMPARE(names.size(), 3);
        QVERIFY2(names.at(0).startsWith(u"F_1_2026-03-12_referral_"_s), qPrintable(names.at(0)));
        QCOMPARE(bytesOf(folder.filePath(names.at(0))), letter.odt);
        QCOMPARE(bytesOf(folder.filePath(names.at(1))), letter.pdf);
        QVERIFY(bytesOf(folder.filePath(u"letters.csv"_s)).contains("F/1"));
        QVERIFY(
            !session::exportRecords(*desk.session, {}, desk.file, {desk.letters, {}})); // never over another
    }

    void anExtentHoldsWhatLiesInItAndNoMore()
    {
        ExportDesk desk;
        const records::PatientId ida = desk.add(u"Falk"_s, u"Ida"_s, QDate(1950, 2, 3), u"F-1"_s).id;
        desk.session->choosePatient(ida);
        for (const int month : {1, 2, 3})
            desk.addVisit(QDate(2026, month, 2));
        desk.add(u"Halden"_s, u"Aud"_s, QDate(1948, 5, 6), u"F-2"_s);
        const auto count = [&](const records::Extent& extent) {
            const auto written = desk.write(extent);
            return written ? std::tuple(written->patients, written->visits, written->findings)
                           : std::tuple(-1, -1, -1);
        };
        QCOMPARE(count({}), std::tuple(2, 3, 3));
        QCOMPARE(count({{{ida}}, {}, {}, {}}), std::tuple(1, 3, 3));
        QCOMPARE(count({{}, QDate(2026, 2, 2), {}, {}}), std::tuple(1, 2, 2));
        QCOMPARE(count({{}, {}, QDate(2026, 2, 1), {}}), std::tuple(1, 1, 1));
        QCOMPARE(count({{}, {}, {}, {u"toe-tapping"_s}}), std::tuple(1, 3, 3));
        QCOMPARE(count({{}, {}, {}, {u"berg-balance"_s}}), std::tuple(0, 0, 0));
        const ExportDesk other;
        QVERIFY(desk.write({{}, QDate(2026, 2, 2), QDate(2026, 2, 2), {}}));
        QVERIFY(other.take(bytesOf(desk.file)));
        QCOMPARE(recordsIn(*other.session).at(0).visits.size(), size_t(1));
    }

    /// Whatever is left out, what remains is whole.
    void whatLiesInAnExtentIsReadBackToo_data()
    {
        QTest::addColumn<records::Extent>("extent");
        QTest::newRow("days") << records::Extent{{}, QDate(2021, 5, 1), QDate(2021, 12, 31), {}};
        QTest::newRow("tests") << records::Extent{{}, {}, {}, {u"finger-tapping"_s, u"berg-balance"_s}};
        QTest::newRow("both") << records::Extent{
            {}, QDate(2021, 5, 1), {}, {u"timed-up-and-go"_s, u"sara"_s}};
    }

    void whatLiesInAnExtentIsReadBackToo()
    {
        QFETCH(const records::Extent, extent);
        const ExportDesk desk;
        desk.fill();
        std::vector<WholeRecord> due;
        for (const WholeRecord& record : recordsIn(*desk.session)) {
            if (const auto part = records::within(record, extent)) {
                due.push_back(*part);
                for (const records::Visit& visit : part->visits) {
                    for (const records::Finding& finding : visit.findings)
                        QVERIFY(extent.measures.isEmpty() || extent.measures.contains(finding.measure));
                }
            }
        }
        QVERIFY(!due.empty());
        QVERIFY(desk.write(extent));
        for (const QString& file : {desk.file, desk.fhir}) {
            const ExportDesk other;
            const auto taken = other.take(bytesOf(file));
            QVERIFY2(taken, taken ? "" : qPrintable(words(taken.error())));
            QVERIFY(recordsIn(*other.session) == due);
        }
    }

    void aWindowBesideItReadsOn()
    {
        const ExportDesk desk;
        desk.fill();
        const auto reader = desk.openAgain();
        QVERIFY(reader);
        QVERIFY(session::exportRecords(*reader, {}, desk.file));
        QVERIFY(recordsIn(*reader) == recordsIn(*desk.session));
    }
};

HOUSE_TEST(TestExporting)

} // namespace test_exporting

#include "test_exporting.moc"
