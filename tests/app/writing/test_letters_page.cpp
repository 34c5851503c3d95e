#include "app/writing/letters_page.h"

#include "app/widgets/notice.h"
#include "app/writing/author_setting.h"
#include "tests/app/writing/writing_desk.h"
#include "tests/support/test_support.h"

#include <QtWidgets>

using namespace Qt::StringLiterals;

namespace test_letters_page
{

using writing::LettersPage;

template <class Widget>
Widget* the(const QWidget& page, const QString& name)
{
    auto* found = page.findChild<Widget*>(name);
    Q_ASSERT(found != nullptr);
    return found;
}

void press(const QWidget& page, const QString& button)
{
    QTest::keyClick(the<QPushButton>(page, button), Qt::Key_Space);
}

/// By the empty page's step, or by the button above the list.
void begin(const QWidget& page)
{
    auto* step = the<QPushButton>(page, u"nextStep"_s);
    press(page, step->isVisible() ? u"nextStep"_s : u"letterNew"_s);
}

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

class TestLettersPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anEmptyPageOffersTheOneNextStep()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        QVERIFY(the<QWidget>(page, u"lettersEmpty"_s)->isVisible());
        QVERIFY(the<QPushButton>(page, u"nextStep"_s)->isVisible());
        begin(page);
        QCOMPARE(desk.letters().size(), size_t(1));
        QVERIFY(!the<QWidget>(page, u"lettersEmpty"_s)->isVisible());
        QCOMPARE(the<QListWidget>(page, u"letterList"_s)->count(), 1);
        QVERIFY(the<QListWidget>(page, u"letterList"_s)->item(0)->text().contains(u"draft"_s));
    }

    void aDraftVisitSaysWhyThereIsNoNewLetter()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        QVERIFY(!the<QLabel>(page, u"letterWhyNot"_s)->isVisible());
        QVERIFY(desk.session->startVisit(QDate(2026, 6, 11)));
        QVERIFY(!the<QPushButton>(page, u"letterNew"_s)->isEnabled());
        QVERIFY(the<QLabel>(page, u"letterWhyNot"_s)->isVisible());
        QVERIFY(the<QLabel>(page, u"letterWhyNot"_s)->text().contains(u"draft"_s));
    }

    void whatIsTypedIsSavedAndPrinted()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.resize(1200, 700);
        page.show();
        begin(page);
        auto* question = the<QTextEdit>(page, u"letterQuestion"_s);
        QTest::keyClicks(question, u"May the stick"_s);
        QTest::keyClick(question, Qt::Key_Return); // two lines there, one in the letter
        QTest::keyClicks(question, u"go?"_s);
        QTest::keyClicks(the<QTextEdit>(page, u"letterActions"_s), u"Review the dose"_s);
        QCOMPARE(desk.letters().front().urgency, QString());
        QTest::keyClicks(the<QLineEdit>(page, u"letterUrgencyWords"_s), u"Within two weeks"_s);
        const records::Letter letter = desk.letters().front();
        QCOMPARE(letter.question, u"May the stick go?"_s);
        QCOMPARE(letter.actions, u"Review the dose"_s);
        QCOMPARE(letter.urgency, u"Within two weeks"_s);
        auto* preview = the<QScrollArea>(page, u"letterPreview"_s);
        QTRY_VERIFY(preview->accessibleDescription().contains(u"May the stick go?"_s));
        QVERIFY(!preview->findChildren<QLabel*>(u"letterPage"_s).isEmpty());
    }

    void theUrgencyIsOfferedInTheClinicsOwnWords()
    {
        desk::Desk desk;
        records::Clinic clinic = desk.session->clinic();
        clinic.urgencyLevels = {u"When there is time"_s, u"Today"_s};
        QVERIFY(desk.session->saveClinic(clinic));
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        auto* urgency = the<QComboBox>(page, u"letterUrgency"_s);
        QCOMPARE(urgency->currentText(), QString());
        QCOMPARE(urgency->count(), 3);
        urgency->setCurrentIndex(2);
        QCOMPARE(desk.letters().front().urgency, u"Today"_s);
        clinic = desk.session->clinic();
        clinic.urgencyLevels = {u"Tomorrow"_s};
        QVERIFY(desk.session->saveClinic(clinic));
        QCOMPARE(urgency->currentText(), u"Today"_s); // what a letter says stays
        QCOMPARE(urgency->itemText(1), u"Tomorrow"_s);
    }

    void thePagesFollowTheRecordsOnceTheyAreSeen()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        auto* preview = the<QScrollArea>(page, u"letterPreview"_s);
        QVERIFY(preview->accessibleDescription().contains(u"HALDEN"_s));
        page.hide();
        records::Patient patient = desk.session->patientInFocus();
        patient.family = u"Renamed"_s;
        QVERIFY(desk.session->savePatient(patient));
        page.show();
        QVERIFY(preview->accessibleDescription().contains(u"RENAMED"_s));
    }

    void tabGoesFromFieldToField()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        auto* field = the<QTextEdit>(page, u"letterActions"_s);
        QTest::keyClick(field, Qt::Key_Tab);
        QCOMPARE(field->toPlainText(), QString());
    }

    void leavingAChangeOutAsksAndIsKept()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        auto* results = the<QListWidget>(page, u"letterResults"_s);
        const auto rowOf = [&](const QString& title) {
            for (int row = 0; row < results->count(); ++row) {
                if (results->item(row)->text().startsWith(title))
                    return row;
            }
            return -1;
        };
        desk.answers.isConfirmed = false;
        results->setCurrentRow(rowOf(u"Gait speed"_s));
        QTest::keyClick(results, Qt::Key_Space);
        QCOMPARE(desk.answers.risked, 1);
        QVERIFY(desk.letters().front().leftOut.isEmpty());
        QCOMPARE(results->item(rowOf(u"Gait speed"_s))->checkState(), Qt::Checked);
        desk.answers.isConfirmed = true;
        results->setCurrentRow(rowOf(u"Gait speed"_s));
        QTest::keyClick(results, Qt::Key_Space);
        QCOMPARE(desk.letters().front().leftOut, QStringList{u"gait-speed-comfortable"_s});
        results->setCurrentRow(rowOf(u"Finger to nose, right"_s)); // as before: nothing to ask
        QTest::keyClick(results, Qt::Key_Space);
        QCOMPARE(desk.answers.risked, 2);
        QCOMPARE(desk.letters().front().leftOut.size(), 2);
    }

    void theKindIsChosenFromTheKeyboard()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        auto* kind = the<QComboBox>(page, u"letterKind"_s);
        QVERIFY(!the<QLabel>(page, u"letterReadingAge"_s)->isVisible());
        kind->setFocus();
        while (kind->currentData() != u"plain"_s)
            QTest::keyClick(kind, Qt::Key_Down);
        QCOMPARE(desk.letters().front().kind, u"plain"_s);
        QCOMPARE(desk.letters().front().to, u"Mirrit Halden"_s);
        QVERIFY(the<QLabel>(page, u"letterReadingAge"_s)->isVisible());
        QVERIFY(
            the<QListWidget>(page, u"letterList"_s)->item(0)->text().startsWith(u"Letter to the patient"_s));
    }

    void aSignedLetterIsCorrectedByTheNext()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        QVERIFY(!the<QPushButton>(page, u"letterCorrect"_s)->isVisible());
        press(page, u"letterSignOff"_s);
        press(page, u"letterCorrect"_s);
        QCOMPARE(desk.letters().size(), size_t(2));
        press(page, u"letterSignOff"_s);
        auto* list = the<QListWidget>(page, u"letterList"_s);
        QCOMPARE(list->count(), 2);
        QCOMPARE(int(list->item(0)->text().contains(u"replaced"_s)) +
                     int(list->item(1)->text().contains(u"replaced"_s)),
                 1);
    }

    void chartsAreTickedFromTheKeyboard()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        auto* charts = the<QListWidget>(page, u"letterCharts"_s);
        QVERIFY(charts->count() >= 2);
        const qsizetype before = desk.letters().front().charts.size();
        charts->setCurrentRow(charts->item(0)->checkState() == Qt::Checked ? 1 : 0);
        QTest::keyClick(charts, Qt::Key_Space);
        QCOMPARE(desk.letters().front().charts.size(), before + 1);
    }

    void signingOffFreezesTheLetterAndRemembersTheAuthor()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        desk.answers.isConfirmed = false;
        press(page, u"letterSignOff"_s);
        QCOMPARE(desk.letters().front().state, records::LetterState::Draft);
        QVERIFY(desk.answers.asked.back().contains(u"Not filled in: plan."_s));
        desk.answers.isConfirmed = true;
        press(page, u"letterSignOff"_s);
        QCOMPARE(desk.letters().front().state, records::LetterState::Signed);
        QVERIFY(!the<QPushButton>(page, u"letterSignOff"_s)->isVisible());
        QVERIFY(the<QTextEdit>(page, u"letterTo"_s)->isReadOnly());
        QVERIFY(the<QListWidget>(page, u"letterList"_s)->item(0)->text().contains(u"signed 12-Jun-2026"_s));
        begin(page);
        press(page, u"letterSignOff"_s);
        QCOMPARE(desk.answers.offered, *desk.answers.signer);
        QCOMPARE(desk.session->person(), *desk.answers.signer);
        QCOMPARE(desk.letters().size(), size_t(2));
    }

    void anotherNameForOneSignatureIsNotThePersonAtTheKeyboard()
    {
        desk::Desk desk;
        const records::Author keys{u"B. Keys"_s, u"neurologist"_s, u"N-2"_s};
        desk.session->setPerson(keys);
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        press(page, u"letterSignOff"_s);
        QCOMPARE(desk.answers.offered, keys);
        QCOMPARE(desk.letters().front().author, *desk.answers.signer);
        QCOMPARE(desk.session->person(), keys);
    }

    void aSignedLetterOfAVisitEnteredInErrorSaysSoAndStaysAsItWas()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        press(page, u"letterSignOff"_s);
        const records::Letter sent = desk.letters().front();
        auto* standing = the<widgets::Notice>(page, u"letterStanding"_s);
        QVERIFY(!standing->isVisible());
        QVERIFY(desk.session->withdrawVisit(sent.visit, u"wrong person"_s));
        QVERIFY(standing->isVisible());
        QVERIFY2(standing->words().contains(u"12-Jun-2026 was entered in error"_s),
                 qPrintable(standing->words()));
        QVERIFY(standing->words().contains(u"“wrong person”"_s));
        QVERIFY(the<QListWidget>(page, u"letterList"_s)->item(0)->text().contains(u"entered in error"_s));
        QVERIFY(!the<QPushButton>(page, u"letterNew"_s)->isEnabled());
        desk.answers.file = desk.folder.filePath(u"a.pdf"_s);
        press(page, u"letterPdf"_s);
        QCOMPARE(contentOf(*desk.answers.file), sent.pdf);
        QCOMPARE(desk.letters().front(), sent);
    }

    void aDraftOfAVisitEnteredInErrorIsKeptAndGoesNoFurther()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        QTest::keyClicks(the<QTextEdit>(page, u"letterQuestion"_s), u"May the stick go?"_s);
        QVERIFY(desk.session->withdrawVisit(desk.letters().front().visit, u"wrong person"_s));
        QVERIFY(the<widgets::Notice>(page, u"letterStanding"_s)
                    ->words()
                    .contains(u"neither signed nor printed"_s));
        for (const QString& button : {u"letterSignOff"_s, u"letterPdf"_s, u"letterOdt"_s, u"letterPrint"_s})
            QVERIFY(!the<QPushButton>(page, button)->isEnabled());
        QCOMPARE(the<QTextEdit>(page, u"letterQuestion"_s)->toPlainText(), u"May the stick go?"_s);
    }

    void aLetterWhoseVisitWasAmendedSinceSaysSo()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        press(page, u"letterSignOff"_s);
        const records::Letter sent = desk.letters().front();
        begin(page); // and a draft
        const auto amendment = desk.session->amendVisit(sent.visit, u"wrong side"_s);
        QVERIFY(amendment);
        auto* standing = the<widgets::Notice>(page, u"letterStanding"_s);
        QVERIFY(!standing->isVisible());
        QVERIFY(desk.session->signVisit(amendment->id, *desk.answers.signer));
        QVERIFY(standing->words().contains(u"now tells of the amended version"_s));
        auto* list = the<QListWidget>(page, u"letterList"_s);
        for (int row = 0; row < list->count(); ++row)
            QVERIFY(list->item(row)->text().contains(u"12-Jun-2026, amended since"_s));
        list->setCurrentRow(1 - list->currentRow());
        QVERIFY(standing->words().contains(u"after this letter was written"_s));
        QCOMPARE(std::ranges::count(desk.letters(), sent.pdf, &records::Letter::pdf), 1);
    }

    void whatStandsInTheFormIsSigned()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        {
            auto* question = the<QTextEdit>(page, u"letterQuestion"_s);
            const QSignalBlocker silence(question); // tells nobody, as a failed save
            question->setPlainText(u"Is a rail needed?"_s);
        }
        press(page, u"letterSignOff"_s);
        QCOMPARE(desk.letters().front().state, records::LetterState::Signed);
        QCOMPARE(desk.letters().front().question, u"Is a rail needed?"_s);
    }

    void aSentLetterIsSavedByteForByte()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        press(page, u"letterSignOff"_s);
        const records::Letter sent = desk.letters().front();
        desk.answers.file = desk.folder.filePath(u"a.pdf"_s);
        press(page, u"letterPdf"_s);
        QCOMPARE(contentOf(*desk.answers.file), sent.pdf);
        desk.answers.file = desk.folder.filePath(u"a.odt"_s);
        press(page, u"letterOdt"_s);
        QCOMPARE(contentOf(*desk.answers.file), sent.odt);
        QCOMPARE(desk.answers.suggested,
                 (QStringList{u"L-0042-letter-2026-06-12.pdf"_s, u"L-0042-letter-2026-06-12.odt"_s}));
        QCOMPARE(desk.answers.told, QStringList());
    }

    void aFileThatCannotBeWrittenIsSaid()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        desk.answers.file = desk.folder.filePath(u"nowhere/a.pdf"_s);
        press(page, u"letterPdf"_s);
        QCOMPARE(desk.answers.told.size(), 1);
        QVERIFY(desk.answers.told.front().contains(u"could not be written"_s));
    }

    /// A disk that is full, as Linux plays it; a folder nobody may write to; the file that was there stays.
    void whatTheDiskRefusesLeavesTheOldFile()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        desk.answers.file = u"/dev/full"_s;
        press(page, u"letterPdf"_s);
        QCOMPARE(desk.answers.told.size(), 1);
        const QString folder = desk.folder.filePath(u"closed"_s);
        const QString path = folder + u"/a.odt"_s;
        QVERIFY(QDir().mkpath(path)); // even root cannot put a file in the place of a folder
        desk.answers.file = path;
        press(page, u"letterOdt"_s);
        QCOMPARE(desk.answers.told.size(), 2);
        for (const QString& told : desk.answers.told)
            QVERIFY2(told.contains(u"could not be written"_s) && told.contains(u"safe in the records"_s),
                     qPrintable(told));
        QVERIFY(QFileInfo(path).isDir());
        QCOMPARE(QDir(folder).entryList(QDir::NoDotAndDotDot | QDir::AllEntries | QDir::Hidden),
                 QStringList{u"a.odt"_s});
    }

    /// By key and by button, which are there while one writes.
    void whatIsWrittenKeepsItsFormInTheLetter()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        page.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&page));
        begin(page);
        auto* plan = the<QTextEdit>(page, u"letterPlan"_s);
        auto* bullets = the<QToolButton>(page, u"letterPlan•"_s);
        the<QTextEdit>(page, u"letterTo"_s)->setFocus();
        QVERIFY(!bullets->isVisible());
        plan->setFocus();
        QVERIFY(bullets->isVisible());
        QTest::keyClick(plan, Qt::Key_B, Qt::ControlModifier);
        QTest::keyClicks(plan, u"Bicycle"_s);
        QTest::keyClick(plan, Qt::Key_B, Qt::ControlModifier);
        QTest::keyClick(plan, Qt::Key_Return);
        QTest::mouseClick(bullets, Qt::LeftButton);
        QVERIFY(bullets->isChecked() && plan->hasFocus());
        QTest::keyClicks(plan, u"rail"_s);
        QCOMPARE(desk.letters().front().plan, u"**Bicycle**\n- rail"_s);
        press(page, u"letterSignOff"_s);
        const QString body = desk.letters().front().body;
        QVERIFY2(body.contains(u"<p><b>Bicycle</b></p>"_s) && body.contains(u"<li>rail</li>"_s),
                 qPrintable(body));
        QVERIFY(!bullets->isVisible()); // a signed letter is not formed
    }

    /// With its form and without it, marked as a draft in both.
    void aLetterIsCopiedAsHtmlAndAsText()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        page.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&page));
        begin(page);
        QTest::keyClicks(the<QTextEdit>(page, u"letterPlan"_s), u"Ride a bicycle"_s);
        the<QTextEdit>(page, u"letterPlan"_s)->setFocus();
        QTest::keyClick(the<QTextEdit>(page, u"letterPlan"_s), Qt::Key_C,
                        Qt::ControlModifier | Qt::ShiftModifier);
        const QMimeData* copied = QGuiApplication::clipboard()->mimeData();
        QVERIFY(copied != nullptr && copied->hasHtml() && copied->hasText());
        for (const QString& form : {copied->html(), copied->text()}) {
            QVERIFY(form.contains(u"Ride a bicycle"_s));
            QVERIFY(form.contains(u"0.91 m/s"_s));
            QVERIFY(form.contains(u"DRAFT · DEMO – invented patient"_s));
        }
        QVERIFY(copied->html().contains(u"<table"_s));
        QVERIFY(!copied->text().contains(u'<'));
        press(page, u"letterSignOff"_s);
        press(page, u"letterCopy"_s);
        QVERIFY(!QGuiApplication::clipboard()->text().contains(u"DRAFT"_s));
        QVERIFY(QGuiApplication::clipboard()->text().contains(u"A. Tester"_s));
    }

    void anotherPatientHasOtherLetters()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        const auto first = *desk.session->focus().patient;
        records::Patient other;
        other.id = records::PatientId::make();
        other.family = u"Other"_s;
        QVERIFY(desk.session->savePatient(other));
        desk.session->choosePatient(other.id);
        QCOMPARE(the<QListWidget>(page, u"letterList"_s)->count(), 0);
        QVERIFY(the<QWidget>(page, u"lettersEmpty"_s)->isVisible());
        QVERIFY(!the<QPushButton>(page, u"letterNew"_s)->isEnabled());
        desk.session->choosePatient(first);
        QCOMPARE(the<QListWidget>(page, u"letterList"_s)->count(), 1);
        QCOMPARE(the<QTextEdit>(page, u"letterTo"_s)->toPlainText(), u"Dr. Oda Veld"_s);
    }

    void whatCannotBeSavedStaysInTheFieldAndIsSaid()
    {
        desk::Desk desk;
        LettersPage page(*desk.session, desk.answers);
        page.show();
        begin(page);
        records::Letter elsewhere = desk.letters().front();
        elsewhere.question = u"changed elsewhere"_s;
        QVERIFY(desk.session->saveLetter(elsewhere));
        QTest::keyClicks(the<QTextEdit>(page, u"letterHistory"_s), u"Falls"_s);
        QCOMPARE(the<QTextEdit>(page, u"letterHistory"_s)->toPlainText(), u"Falls"_s);
        QVERIFY(the<QLabel>(*the<QWidget>(page, u"lettersNotice"_s), u"noticeWords"_s)
                    ->text()
                    .contains(u"Someone else has changed this letter"_s));
    }
};

HOUSE_TEST(TestLettersPage)

} // namespace test_letters_page

#include "test_letters_page.moc"
