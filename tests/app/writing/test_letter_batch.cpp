#include "app/writing/batch_dialog.h"
#include "app/writing/letter_draft.h"
#include "tests/app/writing/writing_desk.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/test_support.h"

#include <QtWidgets>

using namespace Qt::StringLiterals;

namespace test_letter_batch
{

using writing::BatchDialog;
using writing::LetterBatch;

/// The desk's patient with two visits, another with the same, one without a visit and one with a draft alone.
struct Ward : desk::Desk {
    std::vector<records::PatientId> patients = {*session->focus().patient};
    QString out = folder.filePath(u"letters"_s);

    Ward()
    {
        QDir().mkpath(out);
        add(u"Ambrel"_s, u"L-0043"_s);
        addSignedVisit(QDate(2026, 5, 4), 0.5, 25);
        add(u"Quorne"_s, u"L-0044"_s);
        add(u"Tessaly"_s, u"L-0045"_s);
        startVisit(QDate(2026, 6, 1), 0.7, 20);
        session->leavePatient();
    }

    void add(const QString& family, const QString& number)
    {
        records::Patient patient;
        patient.id = records::PatientId::make();
        patient.family = family;
        patient.given = u"Ida"_s;
        patient.recordNumber = number;
        patient.population = u"parkinson"_s;
        (void)bool(session->savePatient(patient));
        session->choosePatient(patient.id);
        patients.push_back(patient.id);
    }

    LetterBatch batch(const QString& kind = u"progress"_s, const QString& ending = u"pdf"_s)
    {
        return {*session, {patients, kind, out, ending}};
    }

    static void run(LetterBatch& batch)
    {
        while (!batch.isDone())
            batch.step();
    }

    QStringList files() const { return QDir(out).entryList(QDir::Files, QDir::Name); }

    std::vector<records::Letter> lettersOf(size_t patient)
    {
        session->choosePatient(patients.at(patient));
        const auto letters = *session->letters();
        session->leavePatient();
        return letters;
    }
};

class TestLetterBatch : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void eachGetsADraftAndAFileThatSaysSo()
    {
        Ward ward;
        LetterBatch batch = ward.batch();
        Ward::run(batch);
        QCOMPARE(ward.files(),
                 (QStringList{u"L-0042-letter-2026-06-12.pdf"_s, u"L-0043-letter-2026-05-04.pdf"_s}));
        QCOMPARE(ward.lettersOf(0).size(), size_t(1));
        QCOMPARE(ward.lettersOf(1).front().kind, u"progress"_s);
        QCOMPARE(ward.lettersOf(1).front().state, records::LetterState::Draft);
        QCOMPARE(ward.lettersOf(0).front().to, u"Dr. Oda Veld"_s);
        QFile file(QDir(ward.out).filePath(ward.files().at(1)));
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QString read = PdfFile(file.readAll()).pages().join(u' ');
        QVERIFY(read.contains(u"AMBREL"_s) && read.contains(u"DRAFT"_s));
        QVERIFY(!ward.session->focus().patient);
    }

    void whatFailsStopsNoOtherAndIsReported()
    {
        Ward ward;
        LetterBatch batch = ward.batch();
        Ward::run(batch);
        QCOMPARE(batch.lines().size(), size_t(4));
        QCOMPARE(batch.lines()[2].words, u"no letter: there is no signed visit"_s);
        QCOMPARE(batch.lines()[3].words, u"no letter: there is no signed visit"_s);
        QVERIFY2(batch.report().startsWith(u"2 of 4 letters written to "_s + ward.out + u'\n'),
                 qPrintable(batch.report()));
        QVERIFY(batch.report().contains(
            u"L-0043 Ambrel, Ida\tL-0043-letter-2026-05-04.pdf\ta new draft, marked so on every page\n"_s));
        QVERIFY(batch.report().contains(u"L-0044 Quorne, Ida\t–\tno letter"_s));
    }

    void aSecondTimeTheSameLettersAreWrittenBesideTheFirst()
    {
        Ward ward;
        LetterBatch first = ward.batch();
        Ward::run(first);
        LetterBatch second = ward.batch();
        Ward::run(second);
        QCOMPARE(ward.lettersOf(0).size(), size_t(1));
        QCOMPARE(ward.files().size(), 4);
        QVERIFY(ward.files().contains(u"L-0042-letter-2026-06-12-2.pdf"_s));
        QCOMPARE(second.lines().front().words, u"the draft that was there, marked so on every page"_s);
        LetterBatch plain = ward.batch(u"plain"_s);
        Ward::run(plain);
        QCOMPARE(ward.lettersOf(0).size(), size_t(2)); // of another kind it is another letter
    }

    void aSignedLetterIsWrittenAsItWasSigned()
    {
        Ward ward;
        ward.session->choosePatient(ward.patients.front());
        writing::LetterDraft draft(*ward.session);
        QVERIFY(draft.begin(u"progress"_s));
        QVERIFY(draft.signOff(*ward.answers.signer));
        LetterBatch batch = ward.batch(u"progress"_s, u"odt"_s);
        Ward::run(batch);
        QCOMPARE(batch.lines().front().words, u"as it was signed"_s);
        QFile file(QDir(ward.out).filePath(batch.lines().front().file));
        QVERIFY(file.open(QIODevice::ReadOnly));
        QCOMPARE(file.readAll(), draft.letter().odt);
        QCOMPARE(ward.lettersOf(0).size(), size_t(1));
    }

    void theKindLastWrittenIsNotChangedByABatch()
    {
        Ward ward;
        LetterBatch batch = ward.batch(u"discharge"_s);
        Ward::run(batch);
        ward.session->choosePatient(ward.patients.front());
        writing::LetterDraft draft(*ward.session);
        QVERIFY(draft.begin());
        QCOMPARE(draft.letter().kind, u"progress"_s);
    }

    void aFolderThatCannotBeWrittenIsSaidForEach()
    {
        Ward ward;
        QVERIFY(QDir(ward.out).removeRecursively());
        QFile inItsPlace(ward.out);
        QVERIFY(inItsPlace.open(QIODevice::WriteOnly));
        LetterBatch batch = ward.batch();
        Ward::run(batch);
        QVERIFY2(batch.lines()[0].words.startsWith(u"no file: "_s), qPrintable(batch.lines()[0].words));
        QVERIFY(batch.lines()[1].words.startsWith(u"no file: "_s));
        QCOMPARE(ward.lettersOf(0).size(), size_t(1)); // the draft is safe in the records
    }

    void theDialogWritesFromTheKeyboardAndItsReportIsCopied()
    {
        Ward ward;
        BatchDialog dialog(*ward.session, ward.answers, {}, ward.patients, nullptr);
        dialog.show();
        const auto button = [&](const char* name) {
            return dialog.findChild<QPushButton*>(QLatin1String(name));
        };
        auto* report = dialog.findChild<QPlainTextEdit*>(u"batchReport"_s);
        QVERIFY(!report->isVisible());
        ward.answers.file = ward.out;
        QTest::keyClick(button("batchChoose"), Qt::Key_Space);
        QTest::keyClick(&dialog, Qt::Key_Return);
        QTRY_VERIFY(report->isVisible());
        QCOMPARE(ward.files().size(), 2);
        QTest::keyClick(button("batchCopy"), Qt::Key_Space);
        QCOMPARE(QGuiApplication::clipboard()->text(), report->toPlainText());
        QVERIFY(report->toPlainText().startsWith(u"2 of 4 letters"_s));
    }

    /// Of a person who has no folder of documents.
    void theFolderThatIsOfferedIsThere()
    {
        Ward ward;
        const QByteArray home = qgetenv("HOME");
        qputenv("HOME", ward.folder.path().toLocal8Bit());
        const BatchDialog dialog(*ward.session, ward.answers, {}, ward.patients, nullptr);
        const QString offered = dialog.findChild<QLineEdit*>(u"batchFolder"_s)->text();
        qputenv("HOME", home);
        QCOMPARE(offered, ward.folder.path());
    }

    void stoppedItKeepsWhatIsWrittenAndSaysTheRest()
    {
        Ward ward;
        BatchDialog dialog(*ward.session, ward.answers, {}, ward.patients, nullptr);
        dialog.show();
        dialog.findChild<QLineEdit*>(u"batchFolder"_s)->setText(ward.out);
        QTest::keyClick(&dialog, Qt::Key_Return);
        auto* progress = dialog.findChild<QProgressBar*>(u"batchProgress"_s);
        QVERIFY(progress->isVisible());
        while (progress->value() == 0)
            QCoreApplication::processEvents(QEventLoop::AllEvents, 1);
        QVERIFY2(progress->text().startsWith(u"25 %"_s) && progress->text().endsWith(u" left"_s),
                 qPrintable(progress->text()));
        QTest::keyClick(&dialog, Qt::Key_Escape);
        auto* report = dialog.findChild<QPlainTextEdit*>(u"batchReport"_s);
        QVERIFY(report->isVisible());
        QVERIFY2(report->toPlainText().contains(u"Stopped before "_s), qPrintable(report->toPlainText()));
        QVERIFY(ward.files().size() >= 1);
        QTest::keyClick(&dialog, Qt::Key_Escape);
        QVERIFY(!dialog.isVisible());
    }

    void onlyThosePickedWhereSomeArePicked()
    {
        Ward ward;
        BatchDialog dialog(*ward.session, ward.answers, {ward.patients[1]}, ward.patients, nullptr);
        dialog.show();
        auto* who = dialog.findChild<QComboBox*>(u"batchWho"_s);
        QCOMPARE(who->itemText(0), u"the 1 patient selected"_s);
        QCOMPARE(who->itemText(1), u"all 4 patients of the list"_s);
        dialog.findChild<QLineEdit*>(u"batchFolder"_s)->setText(ward.out);
        QTest::keyClick(&dialog, Qt::Key_Return);
        QTRY_COMPARE(ward.files(), QStringList{u"L-0043-letter-2026-05-04.pdf"_s});
    }

    void aFolderThatIsNotThereIsSaidBeforeAnythingIsWritten()
    {
        Ward ward;
        BatchDialog dialog(*ward.session, ward.answers, {}, ward.patients, nullptr);
        dialog.show();
        dialog.findChild<QLineEdit*>(u"batchFolder"_s)->setText(ward.folder.filePath(u"not there"_s));
        QTest::keyClick(&dialog, Qt::Key_Return);
        QCOMPARE(ward.answers.told, QStringList{u"There is no such folder; choose one that is there."_s});
        QVERIFY(ward.lettersOf(0).empty());
    }
};

HOUSE_TEST(TestLetterBatch)

} // namespace test_letter_batch

#include "test_letter_batch.moc"
