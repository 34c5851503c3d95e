#include "app/own/own_error_page.h"
#include "tests/app/console/program.h"
#include "tests/core/paper/pdf_file.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QImage>
#include <QMimeData>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTextBrowser>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace test_own_error_page
{

using clinic_desk::book;
using clinic_desk::Desk;

/// A clinic with so many people, each with two trials of the peg test on the right at one visit, and again a
/// week later, when no change was expected.
struct Shown : Desk {
    own::OwnErrorPage page{*session, answers, nullptr};

    explicit Shown(int people)
    {
        for (int person = 0; person < people; ++person) {
            const auto patient = add(u"Invented"_s, u"P%1"_s.arg(person), QDate(1950, 1, 1));
            session->choosePatient(patient.id);
            const double first = 20 + person;
            const double second = std::round(first * (person % 2 == 0 ? 10.5 : 9.6)) / 10;
            addPegs(QDate(2026, 1, 5), {first, second}, {});
            addPegs(QDate(2026, 1, 12), {second, second + 0.2}, {{u"retest"_s, u"no-change-expected"_s}});
        }
        page.resize(1280, 800);
        page.show();
        page.showMeasure(u"nine-hole-peg"_s);
    }

    void addPegs(QDate day, const std::vector<double>& trials, const records::Conditions& conditions)
    {
        const auto visit = session->startVisit(day);
        records::Finding finding;
        finding.measure = u"nine-hole-peg"_s;
        finding.side = records::Side::Right;
        finding.trials = trials;
        finding.value = values::Quantity{(trials[0] + trials[1]) / 2, values::Unit::Second};
        QVERIFY(session->saveConditions(visit->id, conditions, true));
        QVERIFY(session->saveFinding(visit->id, finding));
        QVERIFY(session->signVisit(visit->id, *answers.signer));
    }

    template <class Widget>
    Widget& find(const QString& name)
    {
        return *page.findChild<Widget*>(name);
    }
    void press(const QString& button) { QTest::keyClick(&find<QPushButton>(button), Qt::Key_Space); }
    void choosePopulation(const QString& id)
    {
        const auto& all = book().populations;
        const auto place = std::ranges::find(all, id, &catalogue::Population::id) - all.begin();
        auto& list = find<QComboBox>(u"studyPeople"_s);
        QTest::keyClick(&list, Qt::Key_Home);
        choose(u"studyPeople"_s, int(place) + 1);
    }
    own::OwnErrorPage& study() { return page; }
    QString figures() { return find<QTextBrowser>(u"studyFigures"_s).toPlainText(); }
    QString notice()
    {
        QStringList words;
        for (const QLabel* label : find<QWidget>(u"studyNotice"_s).findChildren<QLabel*>())
            words += label->text();
        return words.join(u' ');
    }
    void choose(const QString& box, int downs)
    {
        auto& list = find<QComboBox>(box);
        for (int each = 0; each < downs; ++each)
            QTest::keyClick(&list, Qt::Key_Down);
    }
};

class TestOwnErrorPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void trialsOfOneVisitAreStudiedButMakeNoThreshold()
    {
        Shown shown(21);
        shown.choosePopulation(u"stroke-chronic"_s);
        QVERIFY(shown.find<QPushButton>(u"studyUse"_s).isEnabled());
        shown.choose(u"studySource"_s, 1);
        QCOMPARE(shown.study().error().source, own::StudySource::Trials);
        QCOMPARE(shown.study().error().study->subjects, 21);
        QVERIFY(!shown.find<QPushButton>(u"studyUse"_s).isEnabled());
        QVERIFY(shown.find<QPushButton>(u"studyReport"_s).isEnabled());
        QVERIFY2(shown.notice().contains(u"Within-session repeats"_s), qPrintable(shown.notice()));
    }

    void thePeopleAreChosenByPopulation()
    {
        Shown shown(21);
        QCOMPARE(shown.study().error().study->subjects, 21);
        QVERIFY(!shown.find<QPushButton>(u"studyUse"_s).isEnabled());
        QVERIFY2(shown.notice().contains(u"choose one for a threshold"_s), qPrintable(shown.notice()));
        shown.choosePopulation(u"stroke"_s); // the wider one holds them too
        QCOMPARE(shown.study().error().study->subjects, 21);
        QVERIFY(shown.find<QPushButton>(u"studyUse"_s).isEnabled());
        shown.choosePopulation(u"parkinson"_s);
        QVERIFY(!shown.study().error().study);
    }

    void theMarkedVisitsOfTheRecordsAreStudied()
    {
        Shown shown(21);
        QVERIFY(QTest::qWaitForWindowActive(&shown.page));
        shown.choosePopulation(u"stroke-chronic"_s);
        QVERIFY(shown.study().isVisible());
        QVERIFY(shown.study().error().study);
        QCOMPARE(shown.study().error().study->subjects, 21);
        QVERIFY(shown.figures().contains(u"MDC95"_s));
        QVERIFY(shown.find<QWidget>(u"studyPlot"_s).accessibleDescription().contains(u"21 people"_s));
        QVERIFY(shown.find<QPushButton>(u"studyUse"_s).isEnabled());
        QApplication::clipboard()->clear();
        shown.find<QAction>(u"copyPlot"_s).trigger();
        QCOMPARE(QApplication::clipboard()->image().size(), QSize(2000, 1200));
        QVERIFY(QApplication::clipboard()->mimeData()->data(u"image/svg+xml"_s).contains("<polyline"));

        shown.choose(u"studySide"_s, 1);
        QVERIFY(!shown.study().error().study);
        QVERIFY(!shown.find<QPushButton>(u"studyUse"_s).isEnabled());
        QVERIFY2(shown.notice().contains(u"Fewer than two people"_s), qPrintable(shown.notice()));

        QSignalSpy left(&shown.page, &own::OwnErrorPage::left);
        QTest::keyClick(&shown.find<QComboBox>(u"studySide"_s), Qt::Key_Escape);
        QCOMPARE(left.count(), 1);
    }

    void fewPeopleMakeNoThreshold()
    {
        Shown shown(4);
        QVERIFY(shown.study().error().study);
        QVERIFY(!shown.find<QPushButton>(u"studyUse"_s).isEnabled());
        QVERIFY(shown.find<QPushButton>(u"studyReport"_s).isEnabled());
        QVERIFY2(shown.notice().contains(u"Fewer than 20 people"_s), qPrintable(shown.notice()));
    }

    void theThresholdIsHandedOn()
    {
        Shown shown(21);
        shown.choosePopulation(u"stroke-chronic"_s);
        QSignalSpy asked(&shown.page, &own::OwnErrorPage::thresholdAsked);
        shown.press(u"studyUse"_s);
        QCOMPARE(asked.size(), 1);
        const auto row = asked[0][0].value<catalogue::Threshold>();
        QCOMPARE(row.measure, u"nine-hole-peg"_s);
        QCOMPARE(row.n, std::optional(21));
        QCOMPARE(row.population, u"stroke-chronic"_s);
    }

    void theLogScaleIsPresetWhereTheErrorGrows()
    {
        Shown shown(24);
        auto& log = shown.find<QCheckBox>(u"studyLog"_s);
        QVERIFY(log.isVisible() && log.isChecked());
        QVERIFY(shown.study().error().isLog);
        QVERIFY(shown.figures().contains(u"the MDC is a ratio"_s));
        QTest::keyClick(&log, Qt::Key_Space);
        QVERIFY(!shown.study().error().isLog);
        QVERIFY(!shown.figures().contains(u"the MDC is a ratio"_s));
        QVERIFY(log.isVisible());
        QTest::keyClick(&log, Qt::Key_Space);
        QVERIFY(shown.study().error().isLog);
    }

    void theReportIsSaved()
    {
        Shown shown(21);
        shown.answers.file = shown.folder.filePath(u"report.pdf"_s);
        shown.press(u"studyReport"_s);
        QCOMPARE(shown.answers.suggested.last(), u"own-error-nine-hole-peg.pdf"_s);
        QFile file(*shown.answers.file);
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QStringList pages = PdfFile(file.readAll()).pages();
        QCOMPARE(pages.size(), 1);
        QVERIFY(pages.first().contains(u"Bland–Altman plot of 21 people"_s));
        QVERIFY(shown.notice().contains(u"The report is saved."_s));
    }

    void aBrokenFileIsSaidInOneSentence()
    {
        Shown shown(0);
        shown.choose(u"studySource"_s, 2);
        shown.answers.file = shown.folder.filePath(u"none.csv"_s);
        shown.press(u"studyFile"_s);
        QCOMPARE(shown.answers.told.size(), 1);
        QFile file(shown.folder.filePath(u"broken.csv"_s));
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write("subject,trial,value\na,1,fast\n");
        file.close();
        shown.answers.file = file.fileName();
        shown.press(u"studyFile"_s);
        QVERIFY2(shown.notice().contains(u"a number with a point"_s), qPrintable(shown.notice()));
        QVERIFY(!shown.study().error().study);
    }

    /// Real people, three trials in each of three conditions: Santos & Duarte 2016, PeerJ 4:e2648.
    void aFileGivesTheNumbersOfTheVerb()
    {
        QFile data(places::inEvidence(u"open/standing-balance.csv"_s));
        if (!data.open(QIODevice::ReadOnly))
            QSKIP("The open data are not here.");
        QMap<QString, QByteArray> files;
        const QStringList lines = QString::fromUtf8(data.readAll()).split(u'\n', Qt::SkipEmptyParts).mid(1);
        for (const QString& line : lines) {
            const QStringList cells = line.split(u',');
            files[cells[7] + cells[8]] += (cells[0] + u',' + cells[9] + u',' + cells[10] + u'\n').toUtf8();
        }
        QCOMPARE(files.size(), 3);
        Shown shown(0);
        shown.choose(u"studySource"_s, 2);
        for (const QByteArray& rows : std::as_const(files)) {
            QFile file(shown.folder.filePath(u"sway.csv"_s));
            QVERIFY(file.open(QIODevice::WriteOnly));
            file.write("subject,trial,value\n" + rows);
            file.close();
            shown.answers.file = file.fileName();
            shown.press(u"studyFile"_s);
            if (auto& log = shown.find<QCheckBox>(u"studyLog"_s); log.isChecked())
                QTest::keyClick(&log, Qt::Key_Space); // the verb knows no log scale
            const auto verb = program::run({u"error-study"_s, file.fileName(), u"--json"_s});
            const QJsonObject all = QJsonDocument::fromJson(verb.out.toUtf8()).object();
            const auto& error = shown.study().error();
            QVERIFY(error.study);
            QCOMPARE(error.study->subjects, all[u"n"_s].toInt());
            QCOMPARE(error.results.leftOut, all[u"leftOut"_s].toInt());
            const auto compare = [&](const statistics::Estimate& ours, const QString& key) {
                const QJsonObject theirs = all[key].toObject();
                QCOMPARE(ours.value, theirs[u"value"_s].toDouble());
                QCOMPARE(ours.low, theirs[u"low"_s].toDouble());
                QCOMPARE(ours.high, theirs[u"high"_s].toDouble());
            };
            compare(error.study->icc11, u"icc11"_s);
            compare(error.study->icc21, u"icc21"_s);
            compare(error.study->icc31, u"icc31"_s);
            compare(error.study->sem, u"sem"_s);
            compare(error.study->mdc90, u"mdc90"_s);
            compare(error.study->mdc95, u"mdc95"_s);
            const QString sem = QString::number(all[u"sem"_s].toObject()[u"value"_s].toDouble(), 'f', 3);
            QVERIFY2(shown.figures().contains(sem), qPrintable(shown.figures()));
        }
    }
};

HOUSE_TEST(TestOwnErrorPage)

} // namespace test_own_error_page

#include "test_own_error_page.moc"
